/** Which isotherm all treatments are compared on, and what the others add, by hand. */
import { describe, expect, test } from "vitest";
import type { CurveEstimate } from "../../kernel-lib/compare/curve-estimate";
import {
	chooseIsotherm,
	type IsothermChoice,
	withOtherIsotherms,
} from "../../kernel-lib/compare/isotherm-choice";
import type { CurveGroup } from "../../kernel-lib/compare/soak-groups";
import {
	fitIsotherm,
	freundlich,
	type Isotherm,
	type IsothermFit,
	langmuir,
	plainPoints,
	sips,
	uptakeAtResidue,
} from "../../kernel-lib/isotherms";

const group = (name: string) => ({ name, flasks: [] }) as unknown as CurveGroup;
const groups = [group("water"), group("steam")];

interface Said {
	readonly aicc?: number;
	readonly weights?: readonly number[];
	readonly dry?: boolean;
	readonly settled?: boolean;
}
const fitWith = ({
	aicc,
	weights = [1],
	dry = false,
	settled = true,
}: Said): IsothermFit =>
	({
		aicc:
			aicc === undefined
				? { is: "not known", because: "" }
				: { is: "value", value: aicc },
		fit: { converged: { holds: settled } },
		used: weights.map(() => ({ is: dry ? "bound" : "reading" })),
		weights: Float64Array.from(weights),
	}) as unknown as IsothermFit;

/** Fits with a criterion for each isotherm, the same for all groups or one by one; which were asked for. */
function chosen(
	by: ReadonlyMap<Isotherm, Said | readonly Said[]>,
	of: readonly CurveGroup[] = groups,
) {
	const asked: string[] = [];
	const choice = chooseIsotherm([...by.keys()], of, (isotherm, g) => {
		asked.push(`${isotherm.name} ${g.name}`);
		const said = by.get(isotherm) as Said | readonly Said[];
		return fitWith(Array.isArray(said) ? said[of.indexOf(g)] : (said as Said));
	});
	return { ...choice, asked, weights: choice.tried.map((t) => t.weight) };
}

describe("the isotherm with the least criterion over all treatments", () => {
	test("and weights by how much the others lie above it", () => {
		const { isotherm, how, weights } = chosen(
			new Map<Isotherm, Said>([
				[langmuir, { aicc: 11 }],
				[freundlich, { aicc: 10 }],
				[sips, { aicc: 12 }],
			]),
		);
		expect(isotherm).toBe(freundlich);
		expect(how).toBe("by AICc");
		// Two groups: 2 and 4 above the least.
		const raw = [Math.exp(-1), 1, Math.exp(-2)];
		const total = raw[0] + raw[1] + raw[2];
		for (const [i, r] of raw.entries())
			expect(weights[i]).toBeCloseTo(r / total, 12);
	});

	test("of two alike the first", () => {
		const both = new Map([
			[langmuir, { aicc: 3 }],
			[freundlich, { aicc: 3 }],
		]);
		expect(chosen(both).isotherm).toBe(langmuir);
		expect(chosen(both).weights).toEqual([0.5, 0.5]);
	});

	test("weights of the readings are in the likelihood; those of flasks that ran dry are not", () => {
		const of = (dry: boolean) =>
			chosen(
				new Map([
					[langmuir, { aicc: 0, weights: [Math.E, 1], dry }],
					[freundlich, { aicc: 3 }],
				]),
			).weights;
		// 2 ln e for each of two groups: 4 against 6.
		expect(of(false)[0] / of(false)[1]).toBeCloseTo(Math.E, 10);
		expect(of(true)[0] / of(true)[1]).toBeCloseTo(Math.exp(3), 10);
	});

	test("one without a criterion, or that settled nowhere, has no weight, and is not fitted any further", () => {
		for (const bad of [{}, { aicc: -50, settled: false }, { aicc: -1 / 0 }]) {
			const { isotherm, weights, asked } = chosen(
				new Map<Isotherm, Said | readonly Said[]>([
					[langmuir, [bad, { aicc: 1 }]],
					[freundlich, { aicc: 20 }],
				]),
			);
			expect(isotherm).toBe(freundlich);
			expect(weights).toEqual([0, 1]);
			expect(asked.includes("Langmuir steam")).toBe(bad.aicc === -1 / 0);
		}
	});

	test("where none has one, the first is taken, and said so", () => {
		const { isotherm, how, weights } = chosen(
			new Map<Isotherm, Said>([
				[langmuir, {}],
				[freundlich, {}],
			]),
		);
		expect([isotherm, how, weights]).toEqual([langmuir, "first", [1, 0]]);
	});

	test("where no treatment carries a curve, the first, without a fit", () => {
		const { how, weights, asked } = chosen(
			new Map<Isotherm, Said>([
				[langmuir, { aicc: 1 }],
				[freundlich, { aicc: 0 }],
			]),
			[],
		);
		expect([how, weights, asked]).toEqual(["first", [1, 0], []]);
	});

	test("a single one is given and not tried", () => {
		const { how, weights, asked } = chosen(new Map([[sips, { aicc: 1 }]]));
		expect([how, weights, asked]).toEqual(["given", [1], []]);
	});
});

describe("what other isotherms would have given", () => {
	const points = plainPoints("oak", [10, 30, 90, 190], [50, 75, 90, 95]);
	const fits = new Map(
		[langmuir, freundlich, sips].map((i) => [i, fitIsotherm(i, points)]),
	);
	const fitOf = (i: Isotherm) => fits.get(i) as IsothermFit;
	const estimate = {
		uptake: 80,
		shared: new Map([["titrant", 2]]),
	} as unknown as CurveEstimate;
	const with_ = (weights: readonly number[]) =>
		withOtherIsotherms(
			estimate,
			{
				isotherm: langmuir,
				how: "by AICc",
				tried: [langmuir, freundlich, sips].map((isotherm, k) => ({
					isotherm,
					weight: weights[k],
				})),
			} as IsothermChoice,
			groups[0],
			40,
			fitOf,
		).shared;

	test("is an error of the root of its weight times the difference, beside those that there are", () => {
		const shared = with_([0.75, 0.25, 0]);
		const [{ uptake }] = uptakeAtResidue(fitOf(freundlich), 40);
		expect([...shared.keys()]).toEqual(["titrant", "isotherm: Freundlich"]);
		expect(shared.get("isotherm: Freundlich")).toBeCloseTo(
			0.5 * (uptake - 80),
			12,
		);
		expect([...estimate.shared.keys()]).toEqual(["titrant"]);
	});

	test("from a hundredth of the weight on", () => {
		expect(with_([0.98, 0.01, 0.0099]).has("isotherm: Freundlich")).toBe(true);
		expect(with_([0.98, 0.01, 0.0099]).has("isotherm: Sips")).toBe(false);
	});
});
