import { describe, expect, test } from "vitest";
import {
	fitIsotherm,
	type IsothermFit,
	langmuir,
	plainPoints,
	uptakeAt,
} from "../../kernel-lib/isotherms/index";
import { known, notKnown } from "../../kernel-lib/quantity/index";
import { createRandom } from "../../kernel-lib/stats/index";
import {
	type HeldWhenWarmer,
	heldWhenWarmer,
} from "../../kernel-lib/temperature/held-when-warmer";
import {
	heldFinding,
	heldTable,
} from "../../kernel-lib/temperature/held-words";
import { temperatureSeries } from "../../kernel-lib/temperature/index";
import { flasksOf } from "../dose/flasks";

const doses = [0.2, 0.4, 0.7, 1, 1.5, 2, 3, 4];

/** Flasks of one temperature, whose affinity (L/mg) is given. */
function fitWith(affinity: number, seed: number, name = ""): IsothermFit {
	const random = createRandom(seed);
	const theta = Float64Array.of(150, affinity);
	const deviation = 0.6;
	const flasks = flasksOf(
		(c) => uptakeAt(langmuir, theta, c),
		250,
		doses,
		doses.map(() => deviation * random.normal()),
		deviation,
		[{ key: "titrant", relative: 0.01 }],
	);
	return fitIsotherm(langmuir, { ...flasks, name, probe: "iodine" });
}

function compared(
	cold: number,
	warm: number,
	seed = 1,
): Extract<HeldWhenWarmer, { is: "compared" }> {
	const held = heldWhenWarmer([
		{ kelvin: 308.15, fit: fitWith(warm, seed + 1000) },
		{ kelvin: 278.15, fit: fitWith(cold, seed) },
	]);
	if (held.is !== "compared") throw new Error(held.because);
	return held;
}

/** Words of a comparison whose ratio and ends are given. */
function said(value: number, low: number, high: number): string {
	const held = compared(0.1, 0.05);
	return heldFinding({
		...held,
		residue: 20,
		ratio: { ...held.ratio, value, low: known(low), high: known(high) },
	});
}

describe("uptakes of several temperatures at one residue", () => {
	test("the warmest is set against the coldest, in whatever order they stand", () => {
		const { at, residue, ratio } = compared(0.1, 0.05);
		expect(at.map((a) => a.kelvin)).toEqual([278.15, 308.15]);
		expect(ratio.value).toBeCloseTo(
			at[1].uptake.uptake / at[0].uptake.uptake,
			12,
		);
		for (const { uptake } of at) {
			expect(uptake.residue).toBe(residue);
			expect(uptake.extrapolating).toBe(false);
		}
	});

	test("the interval of the ratio holds the truth in 90 to 99 of 100 trials", () => {
		let holds = 0;
		for (let seed = 0; seed < 100; seed++) {
			const { residue, ratio } = compared(0.1, 0.05, seed);
			const q = (k: number): number => (k * residue) / (1 + k * residue);
			if (ratio.low.is === "not known" || ratio.high.is === "not known")
				throw new Error("no interval");
			const truth = q(0.05) / q(0.1);
			if (ratio.low.value <= truth && truth <= ratio.high.value) holds += 1;
		}
		expect(holds).toBeGreaterThanOrEqual(90);
		expect(holds).toBeLessThanOrEqual(99);
	});

	test("the residue is round where a round one lies between those that were reached", () => {
		const fit = fitWith(0.1, 1);
		const between = (low: number, high: number): number => {
			const narrow = { ...fit, range: { ...fit.range, low, high } };
			const held = heldWhenWarmer([
				{ kelvin: 300, fit: narrow },
				{ kelvin: 310, fit: narrow },
			]);
			return held.is === "compared" ? held.residue : Number.NaN;
		};
		expect(between(4, 200)).toBe(28);
		expect(between(28.1, 28.4)).toBeCloseTo(28.25, 2);
	});

	test("one temperature, and residues that are not shared, are not compared", () => {
		const fit = fitWith(0.1, 1);
		expect(heldWhenWarmer([{ kelvin: 300, fit }])).toEqual({
			is: "not compared",
			because: "there is one temperature only",
		});
		const apart = (low: number, high: number): IsothermFit => ({
			...fit,
			range: { ...fit.range, low, high },
		});
		const held = heldWhenWarmer([
			{ kelvin: 300, fit: apart(1, 10) },
			{ kelvin: 310, fit: apart(10, 100) },
		]);
		expect(heldFinding(held)).toBe(
			"Cannot tell whether the char holds less where it is warmer: the flasks of the temperatures reached no residue that all of them share.",
		);
		expect(heldTable(held).rows).toEqual([]);
		expect(heldTable(held).notes.join("")).toContain("no residue that all");
	});
});

describe("the title answers the question", () => {
	test("yes, where the interval lies below", () => {
		expect(said(0.73, 0.69, 0.78)).toBe(
			"Yes: with 20 mg/L left in the water, the char held 27 % less iodine at 35 °C than at 5 °C (22 to 31 %).",
		);
	});

	test("no, where it lies above", () => {
		expect(said(1.2, 1.1, 1.31)).toBe(
			"No: with 20 mg/L left in the water, the char held 20 % more iodine at 35 °C than at 5 °C (10 to 31 %).",
		);
	});

	test("cannot tell, where it holds no change, on both sides of the edge", () => {
		expect(said(0.97, 0.92, 1.05)).toBe(
			"Cannot tell whether the char holds more or less iodine where it is warmer: with 20 mg/L left in the water, at 35 °C it held between 8 % less and 5 % more than at 5 °C.",
		);
		expect(said(0.9, 0.8, 1)).toMatch(/^Cannot tell/);
		expect(said(0.9, 0.8, 0.9999)).toMatch(/^Yes/);
		expect(said(1.1, 1, 1.2)).toMatch(/^Cannot tell/);
		expect(said(1.1, 1.0001, 1.2)).toMatch(/^No/);
	});

	test("cannot tell, where the ratio has no interval", () => {
		const held = compared(0.1, 0.05);
		const unknown = notKnown("nobody knows");
		for (const lost of [{ low: unknown, high: unknown }, { high: unknown }])
			expect(heldFinding({ ...held, ratio: { ...held.ratio, ...lost } })).toBe(
				"Cannot tell whether the char holds more or less iodine where it is warmer: nobody knows.",
			);
	});

	test("another confidence is named, a probe without a name leaves no gap", () => {
		const held = compared(0.1, 0.05);
		const other = {
			...held,
			probe: "",
			ratio: { ...held.ratio, confidence: 0.9 },
		};
		expect(heldFinding(other)).toMatch(
			/ % less at 35 °C than at 5 °C \(90 % interval [\d.]+ to [\d.]+ %\)\.$/,
		);
		expect(
			heldFinding({
				...other,
				ratio: { ...other.ratio, low: known(0.9), high: known(1.1) },
			}),
		).toMatch(/than at 5 °C \(90 % interval\)\.$/);
	});
});

test("a series brings its title and a row a temperature", () => {
	const series = temperatureSeries([
		fitWith(0.1, 3, "5 °C"),
		fitWith(0.05, 4, "35 °C"),
		fitWith(0.07, 5, "20.5 °C"),
	]);
	expect(series.title).toMatch(/^Yes: .* less iodine at 35 °C than at 5 °C/);
	expect(series.table.columns).toHaveLength(4);
	expect(series.table.rows.map((r) => r[0])).toEqual([
		"5 °C",
		"20.5 °C",
		"35 °C",
	]);
	const uptakes = series.table.rows.map((r) => Number(r[1]));
	expect(uptakes[2]).toBeLessThan(uptakes[1]);
	expect(series.residue).toBeGreaterThan(0);
});

test("points without errors give no interval, and the table says so", () => {
	const fits = ["15 °C", "35 °C"].map((name) =>
		fitIsotherm(
			langmuir,
			plainPoints(name, [10, 30, 90, 190], [50, 75, 90, 95]),
		),
	);
	const series = temperatureSeries(fits);
	expect(series.title).toMatch(/^Cannot tell/);
	expect(JSON.stringify(series.table.rows)).not.toMatch(/NaN|Infinity|null/);
});
