import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench/index";
import {
	exact,
	input,
	normal,
	type Quantity,
	stated,
	tableText,
} from "../../kernel-lib/quantity/index";
import { dimerShare } from "../../kernel-lib/residue/index";
import {
	caramelDefinitions,
	colourRemoved,
	dosesForRemoval,
	dyeSurface,
	methyleneBlueNumber,
	methyleneBlueSurface,
	methyleneBlueTable,
	methyleneBlueTitrations,
	relativeDecolourising,
	removalDoses,
	removalDoseTable,
	uptakeNumbers,
	uptakeNumberTable,
	uptakesAtResidue,
} from "../../kernel-lib/uptake/index";

const ratio = (value: number): Quantity<"ratio"> =>
	input("ratio", value, "1", normal(0.01 * value), { symbol: "r" });
const absorbance = (value: number): Quantity<"absorbance"> =>
	input("absorbance", value, "absorbance", exact, { symbol: "A" });

describe("methylene-blue number by titration to a colour", () => {
	const titrated = {
		sample: "char 1",
		volume: input("volume", 11.5, "mL", normal(0.1), { symbol: "V" }),
		strength: input("massConcentration", 1.5, "g/L", normal(0.015), {
			symbol: "ρ",
		}),
		char: input("mass", 0.1, "g", normal(0.0002), { symbol: "m" }),
	};
	const number = methyleneBlueNumber(
		methyleneBlueTitrations["GB/T 12496.10"],
		titrated,
	);

	test("11.5 mL of 1.5 g/L for 0.1 g are 15 x 11.5 = 172.5 mg/g, and 11.5 mL for 0.1 g", () => {
		expect(number.uptake.in("mg/g")).toBeCloseTo(172.5, 9);
		expect(number.volumePerGram.in("mL/g") / 10).toBeCloseTo(11.5, 9);
		// 0.87 %, 1 % and 0.2 %
		expect(number.uptake.standardUncertainty / 172.5).toBeCloseTo(
			Math.hypot(0.1 / 11.5, 0.01, 0.002),
			9,
		);
	});

	test("the table names the definition, its provenance and what was done otherwise", () => {
		const text = tableText(
			methyleneBlueTable([
				number,
				methyleneBlueNumber(methyleneBlueTitrations.CEFIC, {
					...titrated,
					sample: "char 2",
					strength: input("massConcentration", 1.2, "g/L", exact, {
						symbol: "ρ",
					}),
				}),
			]),
		);
		expect(text).toContain("GB/T 12496.10");
		expect(text).toContain("from memory");
		expect(text).toContain("1.20 g/L instead of 1.5");
		expect(text).toContain("not to be mixed");
	});

	test("a name that a titration does not have is refused", () => {
		expect(() =>
			methyleneBlueNumber(methyleneBlueTitrations.CEFIC, {
				...titrated,
				charr: titrated.char,
			} as typeof titrated),
		).toThrow(/"charr".*char/s);
	});

	test("nothing of nothing is refused", () => {
		expect(() =>
			methyleneBlueNumber(methyleneBlueTitrations.CEFIC, {
				...titrated,
				volume: input("volume", 0, "mL", exact, { symbol: "V" }),
			}),
		).toThrow(/a quantity above 0/);
	});
});

/** Flasks whose uptake follows q = 30 C^0.25 exactly, read without dilution on a line up to 10 mg/L. */
function freundlichTrial(
	residues: readonly number[],
	probe = "methylene blue",
) {
	const char = 0.1;
	const standards = [0, 2, 4, 6, 8, 10].map((c, i) => ({
		standard: `E${i}`,
		"concentration (mg/L)": c,
		"absorbance 1": 0.1 * c + (i % 2) * 1e-6,
	}));
	const trial = trialFromRows({
		flasks: residues.map((c, i) => ({
			flask: String(i + 1),
			treatment: "control",
			"char mass (g)": char,
			// dose in mL of 100 mg/L that leaves c in 1000 mL
			"dose (mL)": (30 * c ** 0.25 * char + c) * 10,
			"made up to (mL)": 1000,
			"char in when made up": "no",
			"absorbance 1": 0.1 * c,
		})),
		solutions: [
			{
				solution: "blue",
				substance: probe,
				"concentration (mg/L)": 100,
			},
		],
		calibration: standards,
	});
	return trial;
}

describe("numbers on the log-log line", () => {
	const uptakes = freundlichTrial([0.5, 1, 3, 8]);

	test("uptake at a residue: 30 C^0.25, with an interval around it", () => {
		const [at1] = uptakeNumbers(uptakes, uptakesAtResidue["phenol, at 1 mg/L"]);
		if (at1.is !== "value") throw new Error(at1.because);
		expect(at1.uptake.in("mg/g")).toBeCloseTo(30, 2);
		expect(at1.line.slope).toBeCloseTo(0.25, 3);
		expect(at1.low).toBeLessThan(30);
		expect(at1.high).toBeGreaterThan(30);
		expect(at1.extrapolated).toBe(false);
	});

	test("a residue outside the flasks is said to be carried on", () => {
		const definition = uptakesAtResidue["methylene blue, JIS K 1474"];
		const [out] = uptakeNumbers(uptakes, definition);
		expect(out.is === "value" && out.extrapolated).toBe(true);
		expect(tableText(uptakeNumberTable(uptakes, definition))).toContain(
			"carried on",
		);
	});

	test("dose for a removal: (C0 - C)/q(C)", () => {
		const definition = {
			...dosesForRemoval["tannin value, AWWA B600"],
			from: 20,
			to: 2,
		};
		const [d] = removalDoses(uptakes, definition);
		if (d.is !== "value") throw new Error(d.because);
		expect(d.dose).toBeCloseTo((1000 * 18) / (30 * 2 ** 0.25), 0);
		expect(d.low).toBeLessThan(d.dose);
		expect(d.high).toBeGreaterThan(d.dose);
		expect(tableText(removalDoseTable(uptakes, definition))).toContain(
			"from memory",
		);
	});

	test("flasks that all left the same are no line, and two flasks are none", () => {
		for (const residues of [
			[2, 2.1, 2.2],
			[2, 2, 2],
			[1, 8],
		]) {
			const [none] = uptakeNumbers(
				freundlichTrial(residues),
				uptakesAtResidue["phenol, at 1 mg/L"],
			);
			expect(none.is).toBe("not available");
		}
	});

	test("every definition says where it comes from", () => {
		for (const d of [
			...Object.values(methyleneBlueTitrations),
			...Object.values(uptakesAtResidue),
			...Object.values(dosesForRemoval),
			...Object.values(caramelDefinitions),
		]) {
			expect(["from memory", "common practice, no source"]).toContain(
				d.provenance,
			);
			expect(d.words.length).toBeGreaterThan(20);
		}
	});
});

describe("caramel", () => {
	test("share of the colour removed", () => {
		expect(
			colourRemoved(absorbance(0.8), absorbance(0.12)).in("%"),
		).toBeCloseTo(85, 9);
		expect(() => colourRemoved(absorbance(0), absorbance(0))).toThrow(
			/absorbance above 0/,
		);
	});

	test("against a reference char: twice the dose for the same colour is 50 %", () => {
		const doses = [0.5, 1, 2, 4];
		const points = (factor: number) =>
			doses.map((d) => ({
				dose: ratio(factor * d),
				left: ratio(0.2 * d ** -1.2),
			}));
		const found = relativeDecolourising(points(2), points(1), 0.1);
		expect(found.percent).toBeCloseTo(50, 6);
		expect(found.low).toBeLessThan(50);
		expect(found.high).toBeGreaterThan(50);
		expect(() => relativeDecolourising(points(2), points(1), 0.9)).toThrow(
			/nothing is read beyond/,
		);
	});
});

describe("methylene blue itself", () => {
	test("surface: 319.85 mg/g at 1.30 nm² are a millimole, 783 m²/g", () => {
		const q = input("uptake", 319.85, "mg/g", exact, {
			symbol: "q",
			source: stated("test"),
		});
		// 1e-3 mol/g x 6.02214076e23 /mol x 1.30e-18 m²; molar mass by hand 16 C 192.176, 18 H 18.144, Cl 35.45, 3 N 42.021, S 32.06
		expect(dyeSurface(q).in("m2/g")).toBeCloseTo(782.88, 1);
		expect(dyeSurface(q, 1.97).in("m2/g")).toBeCloseTo(1186.4, 0);
	});

	test("the table gives the range and its caveats, and nothing for another probe", () => {
		const list = freundlichTrial([0.5, 1, 3]);
		const text = tableText(methyleneBlueSurface(list));
		expect(text).toContain("order of magnitude");
		expect(
			methyleneBlueSurface(freundlichTrial([0.5, 1, 3], "phenol")).rows,
		).toEqual([]);
	});

	test("dimers: c = m + 2 K m² holds for the share, which grows from nothing", () => {
		fc.assert(
			fc.property(
				fc.double({ min: 1e-9, max: 1e-2, noNaN: true }),
				fc.double({ min: 100, max: 10_000, noNaN: true }),
				(c, k) => {
					const monomer = c * (1 - dimerShare(c, k));
					expect((monomer + 2 * k * monomer ** 2) / c).toBeCloseTo(1, 9);
				},
			),
		);
		expect(dimerShare(0)).toBe(0);
		expect(dimerShare(2e-5)).toBeGreaterThan(dimerShare(1e-5));
		expect(() => dimerShare(-1)).toThrow(/not negative/);
	});
});
