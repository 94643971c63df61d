/** What is decided about readings of an instrument, just below and just above each limit. */
import { describe, expect, test } from "vitest";
import { type Flask, trialFromRows } from "../../kernel-lib/bench";
import { exact, input, normal } from "../../kernel-lib/quantity";
import { dryResidue } from "../../kernel-lib/residue/by-reading/by-itself/dry-residue";
import { driftChecks } from "../../kernel-lib/residue/by-reading/drift";
import {
	calibrate,
	detectionLimits,
	readOnLine,
	turbidityShare,
} from "../../kernel-lib/residue/colorimetry";

test("a dry residue is distinguished from zero from 1.645 standard uncertainties on", () => {
	const dried = (milligrams: number) => {
		const flask = {
			name: "1",
			aliquot: input("volume", 10, "mL", exact, {}),
			readings: {
				recorded: true,
				value: { values: [input("mass", milligrams, "mg", normal(1), {})] },
			},
		} as unknown as Flask;
		return dryResidue.concentration(flask, {} as never, []);
	};
	expect(dried(1.64).is).toBe("at most");
	expect(dried(1.65).is).toBe("value");
	// 1 mg and 1.645 mg in 10 mL; below none it is still 1.645 mg.
	expect(dried(1).quantity.in("mg/L")).toBeCloseTo(264.5, 9);
	expect(dried(-1).quantity.in("mg/L")).toBeCloseTo(164.5, 9);
});

describe("turbidity goes with the wavelength to a power between 0 and 4, all alike", () => {
	test("half again at a quarter of an octave: between 1 and 2", () => {
		const share = turbidityShare(600, 600 * 2 ** 0.25);
		expect(share.value).toBeCloseTo(1.5, 12);
		expect(share.standardUncertainty).toBeCloseTo(0.5 / Math.sqrt(3), 12);
	});
});

const signals = [0.004, 0.206, 0.402, 0.806, 1.203, 1.605];
const doses = [0, 1, 2, 4, 6, 8];
const line = calibrate(
	doses.map((concentration, i) => ({ concentration, signal: signals[i] })),
);

/** Slope, scatter and the rest of the straight line, by the formulas of a textbook. */
function byHand() {
	const n = doses.length;
	const mean = (v: readonly number[]) => v.reduce((a, b) => a + b, 0) / n;
	const [mx, my] = [mean(doses), mean(signals)];
	const sxx = doses.reduce((s, x) => s + (x - mx) ** 2, 0);
	const slope =
		doses.reduce((s, x, i) => s + (x - mx) * (signals[i] - my), 0) / sxx;
	const intercept = my - slope * mx;
	const s = Math.sqrt(
		doses.reduce(
			(sum, x, i) => sum + (signals[i] - intercept - slope * x) ** 2,
			0,
		) /
			(n - 2),
	);
	return { n, mx, sxx, slope, intercept, s };
}

test("a standard read again has drifted outside the 95 % prediction interval of one reading: Student t of 0.975 with 4 degrees of freedom, 2.7764 (tables)", () => {
	const { n, mx, sxx, slope, intercept, s } = byHand();
	const allowed = 2.776445 * s * Math.sqrt(1 + 1 / n + (4 - mx) ** 2 / sxx);
	const drifted = (off: number): boolean => {
		const trial = trialFromRows({
			flasks: [
				{
					flask: "1",
					treatment: "control",
					"char mass (g)": 0.2,
					"dose (mL)": 50,
					"made up to (mL)": 100,
					"char in when made up": "no",
					"absorbance 1": 0.5,
				},
			],
			solutions: [
				{
					solution: "blue",
					substance: "methylene blue",
					"concentration (mg/L)": 200,
				},
			],
			calibration: [
				...doses.map((c, i) => ({
					standard: `E${i}`,
					"concentration (mg/L)": c,
					"absorbance 1": signals[i],
				})),
				{
					standard: "E3",
					"concentration (mg/L)": 4,
					"absorbance 1": intercept + slope * 4 + off * allowed,
					"read after": "1",
				},
			],
		});
		const [check] = driftChecks(trial);
		expect(check.allowed).toBeCloseTo(allowed, 6);
		return check.drifted;
	};
	expect(drifted(0.99)).toBe(false);
	expect(drifted(1.01)).toBe(true);
	expect(drifted(-0.99)).toBe(false);
	expect(drifted(-1.01)).toBe(true);
});

describe("a reading is below the zero of its line", () => {
	const { slope, intercept } = byHand();
	const { detection } = detectionLimits(line);
	/** Read so far below zero, with an error of its own. */
	const below = (concentration: number, u: number): boolean =>
		readOnLine(
			line,
			[
				input(
					"absorbance",
					intercept - slope * concentration,
					"absorbance",
					u === 0 ? exact : normal(u * slope),
					{ symbol: "A" },
				),
			],
			"flask 1",
		).belowZero;

	test("from as far as the detection limit lies above it", () => {
		expect(below(0.99 * detection, 0)).toBe(false);
		expect(below(1.01 * detection, 0)).toBe(true);
	});

	test("and from twice its own uncertainty on", () => {
		const far = 50 * detection;
		expect(below(far, far / 1.95)).toBe(false);
		expect(below(far, far / 2.05)).toBe(true);
	});
});

test("a dilution written as a factor is good to half a percent", () => {
	const dilution = (factor: number) => {
		const { flasks } = trialFromRows({
			flasks: [
				{
					flask: "1",
					treatment: "control",
					"char mass (g)": 0.2,
					"dose (mL)": 50,
					"made up to (mL)": 100,
					"char in when made up": "no",
					"absorbance 1": 0.5,
					dilution: factor,
				},
			],
			solutions: [
				{
					solution: "blue",
					substance: "methylene blue",
					"concentration (mg/L)": 200,
				},
			],
			calibration: doses.map((c, i) => ({
				standard: `E${i}`,
				"concentration (mg/L)": c,
				"absorbance 1": signals[i],
			})),
		});
		const { readings } = flasks[0];
		if (!readings.recorded) throw new Error("not read");
		return readings.value.dilution;
	};
	expect(dilution(20).value).toBe(20);
	expect(dilution(20).standardUncertainty).toBeCloseTo(0.1, 12);
	// Not diluted is exact.
	expect(dilution(1).standardUncertainty).toBe(0);
});
