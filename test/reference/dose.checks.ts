import {
	type DoseForTarget,
	type DoseQuestion,
	doseForRemoval,
	doseForTarget,
	fitResponse,
	hill,
	type ResponseFit,
} from "../../kernel-lib/dose/index";
import type { Limit } from "../../kernel-lib/fit";
import {
	fitIsotherm,
	freundlich,
	type IsothermFit,
	langmuir,
	plainPoints,
	straightLines,
} from "../../kernel-lib/isotherms/index";
import type { MaybeKnown } from "../../kernel-lib/quantity";
import { type Check, referenceData } from "./check";

interface Published {
	readonly id: string;
	readonly x: readonly number[];
	readonly y: readonly number[];
}
const published = referenceData<{ sets: readonly Published[] }>(
	"public-fits.json",
).sets;
const synthetic = referenceData<{
	sets: readonly {
		id: string;
		x: readonly number[];
		y: readonly number[];
		fit: { params: readonly number[]; se: readonly number[]; ssr: number };
		profileCI95?: {
			tBased: { ci: readonly (readonly [number, number])[] };
		};
	}[];
}>("synthetic-fits.json").sets;
const data = referenceData<{
	hill: {
		source: string;
		doses: { percent: number; dose: number; profile: [number, number] }[];
	};
	hyperbola: {
		source: string;
		cases: {
			start: number;
			target: number;
			dose: number;
			low: number;
			high: number;
			crossCurrent2: number;
			crossCurrent3: number;
			equalDoses3: number;
			counterCurrent3: number;
		}[];
	};
	gac: {
		source: string;
		start: number;
		K: number;
		nInv: number;
		doses: { target: number; weighed: number; dose: number }[];
		nonlinear: { target: number; dose: number }[];
	};
}>("dose.json");

const number = (k: MaybeKnown<number>): number =>
	k.is === "value" ? k.value : Number.NaN;
const end = (l: Limit): number => (l.kind === "closed" ? l.value : Number.NaN);
const computed = "computed with a general library" as const;

/** Made once, when first asked for. */
function once<T>(make: () => T): () => T {
	let made: { value: T } | undefined;
	return () => {
		made ??= { value: make() };
		return made.value;
	};
}

function dose(fit: IsothermFit, question: DoseQuestion): DoseForTarget {
	const answer = doseForTarget(fit, { ...question, beyond: "mark" });
	if (answer.is === "no dose") throw new Error(answer.because);
	return answer;
}

function hillChecks(): Check[] {
	const set = synthetic.find((s) => s.id === "hill4-1");
	if (set === undefined) throw new Error("no set hill4-1");
	const response = once((): ResponseFit => fitResponse(hill, set.x, set.y));
	const names = ["floor", "ceiling", "midpoint", "steepness"];
	const common = {
		source:
			"synthetic set fitted with SciPy; data/reference/synthetic-fits.json",
		provenance: computed,
		unit: "",
	};
	return [
		...names.flatMap((name, j): Check[] => [
			{
				...common,
				what: `hill4-1: ${name}`,
				expected: set.fit.params[j],
				got: () => response().fit.theta[j],
				tolerance: 1e-6,
			},
			{
				...common,
				what: `hill4-1: standard error of ${name}`,
				expected: set.fit.se[j],
				got: () => number(response().fit.parameters[j].standardError),
				tolerance: 1e-5,
			},
			...(["low", "high"] as const).map((side, k) => ({
				...common,
				what: `hill4-1: profile interval of ${name}, ${side} end`,
				expected: set.profileCI95?.tBased.ci[j][k] ?? Number.NaN,
				got: () => {
					const { interval } = response().profiles[j];
					return interval.is === "value"
						? end(interval.value[side])
						: Number.NaN;
				},
				tolerance: 1e-5,
			})),
		]),
		{
			...common,
			what: "hill4-1: residual sum of squares",
			expected: set.fit.ssr,
			got: () => response().fit.residualSumOfSquares,
			tolerance: 1e-8,
		},
		...data.hill.doses.flatMap((d): Check[] => {
			const found = (): Extract<
				ReturnType<typeof doseForRemoval>[number],
				{ is: "dose" }
			> => {
				const [answer] = doseForRemoval(response(), [d.percent]);
				if (answer.is === "no dose") throw new Error(answer.because);
				return answer;
			};
			const about = {
				source: data.hill.source,
				provenance: computed,
				unit: "",
			};
			return [
				{
					...about,
					what: `hill4-1: dose for ${d.percent} %`,
					expected: d.dose,
					got: () => found().dose,
					tolerance: 1e-8,
				},
				...(["low", "high"] as const).map((side, k) => ({
					...about,
					what: `hill4-1: dose for ${d.percent} %, ${side} end`,
					expected: d.profile[k],
					got: () => {
						const { interval } = found();
						return interval.is === "value"
							? end(interval.value[side])
							: Number.NaN;
					},
					tolerance: 1e-6,
				})),
			];
		}),
	];
}

function setOf(id: string): Published {
	const set = published.find((s) => s.id === id);
	if (set === undefined) throw new Error(`no set ${id}`);
	return set;
}

function hyperbolaChecks(): Check[] {
	const set = setOf("Puromycin-treated");
	const fitted = once(() =>
		fitIsotherm(langmuir, plainPoints(set.id, set.x, set.y)),
	);
	return data.hyperbola.cases.flatMap((c): Check[] => {
		const question = { start: c.start, target: c.target };
		const about = {
			source: data.hyperbola.source,
			provenance: computed,
			unit: "g/L",
		};
		const what = `hyperbola, ${c.start} to ${c.target}`;
		return [
			{
				...about,
				what: `${what}: dose in one stage`,
				expected: c.dose,
				got: () => dose(fitted(), question).dose.value,
				tolerance: 1e-7,
			},
			{
				...about,
				what: `${what}: low end of its interval`,
				expected: c.low,
				got: () => number(dose(fitted(), question).dose.low),
				tolerance: 1e-6,
			},
			{
				...about,
				what: `${what}: high end of its interval`,
				expected: c.high,
				got: () => number(dose(fitted(), question).dose.high),
				tolerance: 1e-6,
			},
			...(
				[
					["cross-current", 2, c.crossCurrent2],
					["cross-current", 3, c.crossCurrent3],
					["cross-current, equal doses", 3, c.equalDoses3],
					["counter-current", 3, c.counterCurrent3],
				] as const
			).map(([scheme, stages, expected]) => ({
				...about,
				what: `${what}: ${stages} stages, ${scheme}`,
				expected,
				got: () => dose(fitted(), { ...question, scheme, stages }).dose.value,
				tolerance: 1e-7,
			})),
		];
	});
}

function carbonChecks(): Check[] {
	const set = setOf("GAC-handbook-Freundlich");
	const points = plainPoints(set.id, set.x, set.y);
	const fitted = once(() => fitIsotherm(freundlich, points));
	const line = once(() => {
		const found = straightLines(points).find(
			(l) => l.form.isotherm === freundlich,
		);
		if (found === undefined) throw new Error("no log-log line");
		return found.theta;
	});
	const onLine = (target: number): number =>
		dose({ ...fitted(), theta: line() }, { start: data.gac.start, target }).dose
			.value;
	return [
		...data.gac.doses.flatMap((d): Check[] => [
			{
				what: `GAC handbook example, dose for ${d.target} mg/L from the log-log line`,
				source: `${data.gac.source}; (3.37 - C)/(K C^(1/n)) with K and 1/n by ordinary least squares`,
				provenance: computed,
				expected: d.dose,
				got: () => onLine(d.target),
				tolerance: 1e-8,
				unit: "g/L",
			},
			{
				what: `GAC handbook example, dose for ${d.target} mg/L against the carbon that was weighed in`,
				source: data.gac.source,
				provenance: "from memory",
				expected: d.weighed,
				got: () => onLine(d.target),
				// The example's own points lie up to 7 % off its line.
				tolerance: 0.08,
				unit: "g/L",
			},
		]),
		...data.gac.nonlinear.map(
			(d): Check => ({
				what: `GAC handbook example, dose for ${d.target} mg/L from the nonlinear fit`,
				source: `${data.gac.source}; fitted with SciPy, data/reference/public-fits.json`,
				provenance: computed,
				expected: d.dose,
				got: () =>
					dose(fitted(), { start: data.gac.start, target: d.target }).dose
						.value,
				tolerance: 1e-6,
				unit: "g/L",
			}),
		),
	];
}

export const doseChecks: Check[] = [
	...hillChecks(),
	...hyperbolaChecks(),
	...carbonChecks(),
];
