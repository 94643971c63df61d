import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Drying, DryingInterval } from "../../kernel-lib/activation/index";
import { drying, dryings } from "../../kernel-lib/activation/index";
import type { TypedRow } from "../../kernel-lib/bench/index";
import {
	exact,
	input,
	type MaybeKnown,
	type Quantity,
	tableText,
} from "../../kernel-lib/quantity/index";
import { createRandom } from "../../kernel-lib/stats/index";
import { firingOf, kilnOf } from "./firings";

const mg = (value: number): Quantity<"mass"> =>
	input("mass", value, "mg", exact, {});

function dried(
	weighings: readonly (readonly [number, number])[],
	tolerance = 15,
): Drying {
	const row: TypedRow = {
		firing: "D",
		"precursor mass (g)": 40,
		...Object.fromEntries(
			weighings.flatMap(([time, mass], i): [string, number][] => [
				[`drying ${i + 1} time (h)`, time],
				[`drying ${i + 1} mass (g)`, mass],
			]),
		),
	};
	return drying(firingOf(row), { water: mg(tolerance) });
}

const truth = { final: 15, water: 10, rate: 0.5 };
const massAt = (t: number): number =>
	truth.final + truth.water * Math.exp(-truth.rate * t);
function made(
	times: readonly number[],
	error: () => number = () => 0,
): [number, number][] {
	return times.map((t) => [t, Number((massAt(t) + error()).toFixed(3))]);
}
function curveOf(d: Drying): Extract<Drying["curve"], { is: "fitted" }> {
	if (d.curve.is === "not known") throw new Error(d.curve.because);
	return d.curve;
}
const endOf = (end: MaybeKnown<number>): number =>
	end.is === "value" ? end.value : Number.NaN;
/** An end that is not known limits nothing. */
function isWithin({ low, high }: DryingInterval, value: number): boolean {
	return (
		(low.is === "not known" || low.value - 1e-9 <= value) &&
		(high.is === "not known" || value <= high.value + 1e-9)
	);
}
const refusal = (d: Drying): string =>
	d.curve.is === "not known" ? d.curve.because : "";

describe("is it dry yet", () => {
	test("the truth comes back from weighings without error", () => {
		const d = dried(made([0, 1, 2, 4, 6]));
		const curve = curveOf(d);
		expect(curve.finalMass).toBeCloseTo(15, 2);
		expect(curve.rate).toBeCloseTo(0.5, 2);
		expect(curve.moreHours).toBeCloseTo(Math.log(10 / 0.015) / 0.5 - 6, 1);
		expect(d.verdict).toBe("not dry");
	});

	test("dry after long enough", () => {
		const d = dried(made([0, 2, 4, 8, 16, 20, 24]), 50);
		expect(d.verdict).toBe("dry");
		expect(curveOf(d).moreHours).toBe(0);
		expect(d.sentence).toContain("no more than the 50 mg allowed is left");
	});

	test("two weighings soon after one another satisfy the bench rule and not the curve", () => {
		const d = dried(made([0, 1, 2, 3, 3.01]));
		expect(d.rule.holds).toBe(true);
		expect(d.verdict).toBe("not dry");
		expect(d.rule.sentence).toContain("cannot see a slow drying");
	});

	test("without a tolerance, 0.1 % of the last weighing", () => {
		const firing = firingOf({
			firing: "D",
			"precursor mass (g)": 40,
			"drying 1 time (h)": 1,
			"drying 1 mass (g)": 20,
		});
		expect(drying(firing).tolerance).toBeCloseTo(0.02, 12);
	});
});

describe("refusals say why", () => {
	test("too few weighings", () => {
		const d = dried(made([0, 2, 4]));
		expect(refusal(d)).toContain("at least four");
		expect(d.verdict).toBe("not dry");
	});
	test("no weighing at all", () => {
		expect(refusal(dried([]))).toContain("no weighing");
	});
	test("a mass that rises", () => {
		expect(
			refusal(
				dried([
					[0, 25],
					[1, 21],
					[2, 21.4],
					[3, 19],
				]),
			),
		).toContain("between 1 h and 2 h");
	});
	test("nothing falls", () => {
		const d = dried([
			[0, 15],
			[1, 15.001],
			[2, 15],
			[3, 15],
		]);
		expect(refusal(d)).toContain("did not fall");
		expect(d.verdict).toBe("cannot tell");
	});
	test("a straight fall sets no final mass", () => {
		const d = dried([
			[0, 25],
			[1, 23],
			[2, 21],
			[3, 19],
			[4, 17],
		]);
		if (d.curve.is === "fitted")
			expect(endOf(d.curve.finalMassInterval.low)).toBeLessThan(0);
		expect(d.verdict).not.toBe("dry");
	});
	test("whatever was weighed: a curve or a reason, and never NaN", () => {
		fc.assert(
			fc.property(
				fc.array(fc.double({ min: 0.01, max: 500, noNaN: true }), {
					maxLength: 6,
				}),
				fc.double({ min: 0.1, max: 1000, noNaN: true }),
				(masses, tolerance) => {
					for (const list of [masses, [...masses].sort((a, b) => b - a)]) {
						const d = dried(
							list.map((m, i) => [i, m]),
							tolerance,
						);
						expect(tableText(d.table) + d.sentence).not.toMatch(
							/NaN|undefined|Infinity/,
						);
					}
				},
			),
			{ numRuns: 120 },
		);
	});

	test("the model's masses, and the final one, to two digits of the final mass's interval", () => {
		const d = dried([
			[0, 25.01],
			[1, 20.2],
			[2, 17.81],
			[4, 15.93],
			[6, 15.49],
		]);
		if (d.curve.is !== "fitted") throw new Error(d.curve.because);
		const { low, high } = d.curve.finalMassInterval;
		const half = (endOf(high) - endOf(low)) / 2;
		// Two digits: the last place is worth between a hundredth and a tenth of the half.
		const places = /predicted final mass \d+\.(\d+) g/.exec(d.sentence)?.[1];
		const step = 10 ** -(places ?? "").length;
		expect(step / half).toBeGreaterThan(0.0099);
		expect(step / half).toBeLessThanOrEqual(0.1001);
		for (const row of d.table.rows)
			expect(
				Math.abs(Number(row[2]) / step - Math.round(Number(row[2]) / step)),
			).toBeLessThan(1e-6);
	});

	test("the table, without NaN", () => {
		for (const d of [dried(made([0, 2])), dried(made([0, 1, 2, 4, 6]))])
			expect(tableText(d.table)).not.toMatch(/NaN|undefined|Infinity/);
	});
});

describe("over many made-up dryings, weighed to 10 mg", () => {
	for (const [name, times] of [
		["six weighings, nearly dry", [0, 2, 4, 6, 8, 12]],
		["five weighings, half way", [0, 1, 2, 3, 4]],
	] as const) {
		let told = 0;
		let finals = 0;
		let hours = 0;
		let wrong = 0;
		const runs = 300;
		const last = times[times.length - 1];
		const more = Math.max(0, Math.log(10 / 0.015) / 0.5 - last);
		for (let seed = 1; seed <= runs; seed++) {
			const random = createRandom(seed + 5000);
			const d = dried(made(times, () => 0.01 * random.normal()));
			if (d.verdict === "dry") wrong += 1;
			if (d.curve.is === "not known") continue;
			told += 1;
			const { finalMassInterval: f, moreHoursInterval: h } = d.curve;
			if (isWithin(f, truth.final)) finals += 1;
			if (isWithin(h, more)) hours += 1;
		}
		test(`${name}: final mass and hours lie in their 95 % intervals, and moist char is not called dry`, () => {
			expect(told).toBeGreaterThan(0.97 * runs);
			for (const hits of [finals, hours]) {
				expect(hits / told).toBeGreaterThan(0.92);
				expect(hits / told).toBeLessThan(0.985);
			}
			expect(wrong / runs).toBeLessThan(0.05);
		});
	}
});

test("char with a little less water than allowed is not called moist, and with a little more not dry", () => {
	// 14.8 mg and 15.2 mg of the 15 mg allowed.
	for (const [left, wrongWord] of [
		[0.0148, "not dry"],
		[0.0152, "dry"],
	] as const) {
		const last = Math.log(truth.water / left) / truth.rate;
		let wrong = 0;
		for (let seed = 1; seed <= 200; seed++) {
			const random = createRandom(seed + 9000);
			const d = dried(
				made([0, 2, 4, 6, 8, last], () => 0.01 * random.normal()),
			);
			if (d.verdict === wrongWord) wrong += 1;
		}
		expect(wrong / 200).toBeLessThan(0.05);
	}
});

describe("the dryings of a trial", () => {
	const row: TypedRow = {
		firing: "D",
		"precursor mass (g)": 40,
		...Object.fromEntries(
			made([0, 1, 2, 4, 6]).flatMap(([time, mass], i) => [
				[`drying ${i + 1} time (h)`, time],
				[`drying ${i + 1} mass (g)`, mass],
			]),
		),
	};

	test("those that were weighed", () => {
		const trial = kilnOf([row, { firing: "E", "precursor mass (g)": 40 }]);
		expect(dryings(trial).map((d) => d.firing.name)).toEqual(["D"]);
	});

	test("a weighing that is left out is out, and the table says so; kept, it is in", () => {
		const wrong = { ...row, "drying 3 mass (g)": 22 };
		const of = (handling: string): Drying =>
			dryings(
				kilnOf([wrong], {
					deviations: [
						{
							firing: "D",
							part: "weighing 3",
							"what happened": "weighed warm",
							handling,
						},
					],
				}),
			)[0];
		expect(of("leave out").points.map((p) => p.hours)).toEqual([0, 1, 4, 6]);
		expect(curveOf(of("leave out")).finalMass).toBeCloseTo(15, 2);
		expect(tableText(of("leave out").table)).toContain(
			"Left out: weighing 3 (weighed warm).",
		);
		expect(of("keep").points).toHaveLength(5);
	});

	test("targets by name and kind", () => {
		const trial = kilnOf([row]);
		expect(dryings(trial, { water: mg(20_000) })[0].verdict).toBe("dry");
		expect(() =>
			dryings(trial, { watter: mg(5) } as Record<string, Quantity<"mass">>),
		).toThrow(/the option "watter".*Did you mean "water"/);
		expect(() => dryings(trial, { water: 5 as never })).toThrow(
			/a quantity of the kind mass/,
		);
	});
});
