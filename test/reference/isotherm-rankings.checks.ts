import {
	freundlich,
	type IsothermRanking,
	langmuir,
	plainPoints,
	rankIsotherms,
	redlichPeterson,
	sips,
	temkin,
	toth,
} from "../../kernel-lib/isotherms/index";
import { type Check, referenceData } from "./check";

interface ExpectedRank {
	readonly model: string;
	readonly params: readonly number[];
	readonly aicc: number;
	readonly delta: number;
	readonly weight: number;
}

const data = referenceData<{
	dataset: string;
	ranking: readonly ExpectedRank[];
}>("model-ranking.json");
const sets = referenceData<{
	sets: readonly {
		readonly id: string;
		readonly x: readonly number[];
		readonly y: readonly number[];
	}[];
}>("synthetic-fits.json").sets;

const candidates = {
	freundlich,
	langmuir,
	redlichPeterson,
	sips,
	temkin,
	toth,
} as const;

let made: IsothermRanking | undefined;
function ranking(): IsothermRanking {
	const set = sets.find((s) => s.id === data.dataset);
	if (set === undefined) throw new Error(`no set ${data.dataset}`);
	made ??= rankIsotherms(plainPoints(set.id, set.x, set.y), {
		isotherms: Object.values(candidates),
	});
	return made;
}

function placeOf(model: string): IsothermRanking["ranked"][number] {
	const isotherm = candidates[model as keyof typeof candidates];
	const place = ranking().ranked.find((r) => r.isotherm === isotherm);
	if (place === undefined) throw new Error(`${model} was not ranked`);
	return place;
}

export const isothermRankingChecks: Check[] = data.ranking.flatMap(
	(r, i): Check[] => {
		const common = {
			source:
				"six isotherms fitted with SciPy to the synthetic set langmuir-1; data/reference/model-ranking.json",
			provenance: "computed with a general library" as const,
			unit: "",
		};
		return [
			{
				...common,
				what: `place of ${r.model}`,
				expected: i + 1,
				got: () => ranking().ranked.indexOf(placeOf(r.model)) + 1,
				tolerance: 0,
			},
			{
				...common,
				what: `AICc of ${r.model}`,
				expected: r.aicc,
				got: () => placeOf(r.model).aicc,
				tolerance: 1e-9,
			},
			{
				...common,
				what: `${r.model}: AICc above the best`,
				expected: r.delta,
				got: () => placeOf(r.model).difference,
				tolerance: 1e-8,
			},
			{
				...common,
				what: `Akaike weight of ${r.model}`,
				expected: r.weight,
				got: () => placeOf(r.model).weight,
				tolerance: 1e-8,
			},
		];
	},
);
