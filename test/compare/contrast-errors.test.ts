/** What the errors of a difference are made of, by hand: scatter, shared inputs, slopes and single flasks. */
import { describe, expect, test } from "vitest";
import {
	boundUncertainty,
	contrastCovariance,
	contrastErrors,
	largestSharedInput,
} from "../../kernel-lib/compare/contrast-errors";
import type { WeightedUnit } from "../../kernel-lib/compare/contrasts";
import type { Observations } from "../../kernel-lib/compare/observations";
import { moderated, noSpread } from "../../kernel-lib/compare/spread";

/** Flasks 0 and 1 are one unit of steam, 2 and 3 a unit of water each, 4 one of smoke. */
const unit = (treatment: string, ...members: number[]) => ({
	treatment,
	name: `${treatment}${members[0]}`,
	members,
	mean: 0,
	days: new Map<string, number>(),
});
const steam = unit("steam", 0, 1);
const waters = [unit("water", 2), unit("water", 3)];
const smoke = unit("smoke", 4);
const control: WeightedUnit[] = waters.map((w) => ({ unit: w, weight: -0.5 }));
const difference: WeightedUnit[] = [{ unit: steam, weight: 1 }, ...control];
const other: WeightedUnit[] = [{ unit: smoke, weight: 1 }, ...control];

type Source =
	| { is: "stated"; source: string }
	| { is: "cell"; file: string; sheet: string; row: number; column: string };
interface Shared {
	readonly effect: readonly number[];
	readonly scope?: "shared" | "replicate";
	readonly degreesOfFreedom?: number;
	readonly meaning?: string;
	readonly symbol?: string;
	readonly source?: Source;
}
const observations = (
	shared: readonly Shared[] = [],
	slopes: readonly {
		effect: readonly number[];
		degreesOfFreedom: number;
	}[] = [],
	sides: readonly string[] = [],
): Observations =>
	({
		list: [0, 1, 2, 3, 4].map((i) => ({ side: sides[i] ?? "value" })),
		errors: {
			aloneVariance: Float64Array.of(4, 4, 9, 9, 16),
			shared: shared.map(
				({
					effect,
					scope = "shared",
					degreesOfFreedom = Number.POSITIVE_INFINITY,
					meaning = "",
					symbol = "",
					source = { is: "stated", source: "" },
				}) => ({
					effect: Float64Array.from(effect),
					input: { scope, degreesOfFreedom, source },
					node: { name: { meaning, symbol } },
				}),
			),
		},
		slopes: slopes.map((s) => ({ ...s, effect: Float64Array.from(s.effect) })),
	}) as unknown as Observations;

/** Variances 30 of steam and 12 of water, one degree of freedom each. */
const spread = moderated(
	[
		{ treatment: "steam", degreesOfFreedom: 1, squares: 30, readings: 0 },
		{ treatment: "water", degreesOfFreedom: 1, squares: 12, readings: 0 },
	],
	{ degreesOfFreedom: 2, readings: 0 },
	"pooled",
);

describe("without a scatter to judge by", () => {
	test("errors of single flasks count, a unit's weight shared out among its flasks", () => {
		const e = contrastErrors(difference, observations(), noSpread);
		expect([...e.flaskWeights]).toEqual([0.5, 0.5, -0.5, -0.5, 0]);
		expect(e).toMatchObject({
			ownVariance: (4 + 4 + 9 + 9) / 4,
			variance: (4 + 4 + 9 + 9) / 4,
			scatterVariance: 0,
			sharedVariance: 0,
			degreesOfFreedom: Number.POSITIVE_INFINITY,
		});
	});
	test("an input that moves both sides alike cancels; one of one side is added up before it is squared", () => {
		const e = contrastErrors(
			difference,
			observations([
				{ effect: [3, 3, 3, 3, 3] },
				{ effect: [2, 4, 0, 0, 0] },
				{ effect: [0, 0, 1, 3, 0] },
			]),
			noSpread,
		);
		expect([...e.sharedEffects]).toEqual([0, 3, -2]);
		expect(e.sharedVariance).toBe(13);
		expect(e.variance).toBe(6.5 + 13);
	});
	test("a size known from three readings counts t(0.975; 2)/1.96 = 2.1953 times", () => {
		const e = contrastErrors(
			difference,
			observations([{ effect: [1, 1, 0, 0, 0], degreesOfFreedom: 2 }]),
			noSpread,
		);
		expect(e.sharedEffects[0]).toBeCloseTo(4.302653 / 1.959964, 5);
	});
	test("nothing is known without doubt, where there is nothing", () => {
		expect(contrastErrors([], observations(), noSpread)).toMatchObject({
			variance: 0,
			degreesOfFreedom: Number.POSITIVE_INFINITY,
		});
	});
	test("what touches one unit alone is held by nothing", () => {
		const e = contrastErrors(
			difference,
			observations([{ effect: [2, 2, 0, 0, 0], scope: "replicate" }]),
			noSpread,
		);
		expect(e.sharedVariance).toBe(4);
	});
});

describe("with a scatter", () => {
	test("pooled 42/2 times the squared weights; single flasks are in it already", () => {
		const e = contrastErrors(difference, observations(), spread);
		expect(e.scatterVariance).toBeCloseTo(21 * 1.5, 10);
		expect(e.ownVariance).toBe(0);
		expect(e.variance).toBeCloseTo(21 * 1.5, 10);
		expect(e.degreesOfFreedom).toBeCloseTo(2, 10);
	});
	test("a unit that stands there twice counts with both weights together", () => {
		const twice = [
			{ unit: steam, weight: 0.4 },
			{ unit: steam, weight: 0.6 },
			...control,
		];
		expect(
			contrastErrors(twice, observations(), spread).scatterVariance,
		).toBeCloseTo(21 * 1.5, 10);
	});
	test("shared errors stand beside it, and leave more degrees of freedom", () => {
		const e = contrastErrors(
			difference,
			observations([{ effect: [2, 2, 0, 0, 0] }]),
			spread,
		);
		expect(e.variance).toBeCloseTo(31.5 + 4, 10);
		expect(e.degreesOfFreedom).toBeCloseTo(35.5 ** 2 / (31.5 ** 2 / 2), 9);
	});
	test("measured slopes bring their own degrees of freedom", () => {
		const e = contrastErrors(
			difference,
			observations([], [{ effect: [3, 3, 0, 0, 0], degreesOfFreedom: 5 }]),
			spread,
		);
		expect([...e.slopeEffects]).toEqual([3]);
		expect(e.variance).toBeCloseTo(31.5 + 9, 10);
		expect(e.degreesOfFreedom).toBeCloseTo(
			40.5 ** 2 / (31.5 ** 2 / 2 + 81 / 5),
			9,
		);
	});
	test("what touches one unit alone, and is no common input, is held by the scatter", () => {
		const of = (effect: readonly number[], scope: Shared["scope"]) =>
			contrastErrors(difference, observations([{ effect, scope }]), spread)
				.sharedVariance;
		expect(of([2, 2, 0, 0, 0], "replicate")).toBe(0);
		expect(of([2, 0, 0, 0, 0], "replicate")).toBe(0);
		expect(of([2, 2, 0, 0, 0], "shared")).toBe(4);
		// The second unit is one of the sum's own; one of another treatment is not.
		expect(of([2, 2, 1, 0, 0], "replicate")).toBe(2.25);
		expect(of([2, 2, 0, 0, 1], "replicate")).toBe(0);
	});
});

describe("two differences with one control", () => {
	test("have the variance of the control in common", () => {
		const o = observations();
		const covariance = contrastCovariance(
			contrastErrors(difference, o, spread),
			contrastErrors(other, o, spread),
			o,
			spread,
		);
		expect(covariance).toBeCloseTo(21 / 2, 10);
	});
	test("and what shared inputs and slopes do to both, with its sign", () => {
		const o = observations(
			[{ effect: [2, 2, 0, 0, 3] }, { effect: [1, 1, 0, 0, -4] }],
			[{ effect: [0, 0, 2, 2, 0], degreesOfFreedom: 3 }],
		);
		const covariance = contrastCovariance(
			contrastErrors(difference, o, spread),
			contrastErrors(other, o, spread),
			o,
			spread,
		);
		expect(covariance).toBeCloseTo(21 / 2 + (2 * 3 - 1 * 4) + 4, 10);
	});
	test("without a scatter, the errors of the control's flasks; with itself it is the variance", () => {
		const o = observations();
		const [a, b] = [difference, other].map((parts) =>
			contrastErrors(parts, o, noSpread),
		);
		expect(contrastCovariance(a, b, o, noSpread)).toBeCloseTo((9 + 9) / 4, 10);
		expect(contrastCovariance(a, a, o, noSpread)).toBeCloseTo(a.variance, 10);
	});
	test("with scatter, shared inputs and slopes it is its own variance too", () => {
		const o = observations(
			[{ effect: [2, 2, 0, 1, 3] }],
			[{ effect: [0, 1, 2, 2, 0], degreesOfFreedom: 3 }],
		);
		const a = contrastErrors(difference, o, spread);
		expect(contrastCovariance(a, a, o, spread)).toBeCloseTo(a.variance, 10);
	});
});

describe("the part that stands on bounds", () => {
	test("is that of the flasks that gave one: their own errors and what they share", () => {
		const at = (sides: readonly string[]) =>
			boundUncertainty(
				difference,
				observations([{ effect: [2, 4, 8, 0, 0] }], [], sides),
			);
		expect(at([])).toBe(0);
		expect(at(["value", "at least"])).toBeCloseTo(
			Math.sqrt(4 / 4 + 2 ** 2),
			10,
		);
		expect(at(["value", "at least", "at most"])).toBeCloseTo(
			Math.sqrt((4 + 9) / 4 + (2 - 4) ** 2),
			10,
		);
	});
	test("a size known from few readings counts more", () => {
		const o = observations(
			[{ effect: [2, 2, 0, 0, 0], degreesOfFreedom: 2 }],
			[],
			["at least", "at least"],
		);
		expect(boundUncertainty(difference, o)).toBeCloseTo(
			Math.hypot(Math.sqrt(2), (2 * 4.302653) / 1.959964),
			5,
		);
	});
});

describe("the largest shared input", () => {
	const largest = (shared: readonly Shared[]) => {
		const o = observations(shared);
		return largestSharedInput(contrastErrors(difference, o, noSpread), o);
	};
	test("by size, whatever its sign, the first of equals", () => {
		expect(
			largest([
				{ effect: [1, 1, 0, 0, 0], meaning: "titrant" },
				{ effect: [0, 0, 5, 5, 0], meaning: "blank" },
				{ effect: [5, 5, 0, 0, 0], meaning: "balance" },
			]),
		).toEqual({ what: "blank", effect: 5 });
		expect(
			largest([
				{ effect: [2, 2, 0, 0, 0], meaning: "titrant" },
				{ effect: [1, 1, 0, 0, 0], meaning: "blank" },
			]),
		).toEqual({ what: "titrant", effect: 2 });
	});
	test("by its meaning, else its symbol, else where it stands", () => {
		const effect = [1, 1, 0, 0, 0];
		const named = (more: Partial<Shared>) =>
			largest([{ effect, ...more }]).what;
		expect(named({ meaning: "blank", symbol: "V0" })).toBe("blank");
		expect(named({ symbol: "V0" })).toBe("V0");
		expect(named({ source: { is: "stated", source: "a certificate" } })).toBe(
			"a certificate",
		);
		const cell = {
			is: "cell",
			file: "a.csv",
			row: 3,
			column: "titre",
		} as const;
		expect(named({ source: { ...cell, sheet: "" } })).toBe(
			"a.csv, row 3, titre",
		);
		expect(named({ source: { ...cell, sheet: "flasks" } })).toBe(
			"a.csv, flasks, row 3, titre",
		);
	});
	test("none where nothing is shared", () => {
		expect(largest([])).toEqual({ what: "", effect: 0 });
	});
});
