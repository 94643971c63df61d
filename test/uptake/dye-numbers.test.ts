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
	methyleneBlueNumbers,
	methyleneBlueSurface,
	methyleneBlueTitrations,
	numbersByDefinition,
	relativeDecolourising,
	removalDoses,
	uptakeNumbers,
	uptakesAtResidue,
} from "../../kernel-lib/uptake/index";

const ratio = (value: number): Quantity<"ratio"> =>
	input("ratio", value, "1", normal(0.01 * value), { symbol: "r" });
const absorbance = (value: number): Quantity<"absorbance"> =>
	input("absorbance", value, "absorbance", exact, { symbol: "A" });

describe("methylene-blue number by titration to a colour", () => {
	const titrated = {
		definition: methyleneBlueTitrations["GB/T 12496.10"],
		sample: "char 1",
		volume: input("volume", 11.5, "mL", normal(0.1), { symbol: "V" }),
		strength: input("massConcentration", 1.5, "g/L", normal(0.015), {
			symbol: "ρ",
		}),
		char: input("mass", 0.1, "g", normal(0.0002), { symbol: "m" }),
	};
	const [number] = methyleneBlueNumbers([titrated]);

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
			methyleneBlueNumbers([
				titrated,
				{
					...titrated,
					definition: methyleneBlueTitrations.CEFIC,
					sample: "char 2",
					strength: input("massConcentration", 1.2, "g/L", exact, {
						symbol: "ρ",
					}),
				},
			]).table,
		);
		expect(text).toContain("GB/T 12496.10");
		expect(text).toContain("from memory");
		expect(text).toContain("1.20 g/L instead of 1.5");
		expect(text).toContain("not to be mixed");
	});

	test("a name that a titration does not have is refused", () => {
		expect(() =>
			methyleneBlueNumbers([
				{ ...titrated, charr: titrated.char } as typeof titrated,
			]),
		).toThrow(/"charr".*char/s);
	});

	test("nothing of nothing is refused", () => {
		expect(() =>
			methyleneBlueNumbers([
				{
					...titrated,
					volume: input("volume", 0, "mL", exact, { symbol: "V" }),
				},
			]),
		).toThrow(/a quantity above 0/);
	});

	test("a titration without a definition of its form is refused", () => {
		for (const definition of [
			undefined,
			"CEFIC",
			uptakesAtResidue["phenol, at 1 mg/L"],
		])
			expect(() =>
				methyleneBlueNumbers([
					{ ...titrated, definition: definition as never },
				]),
			).toThrow(/definition.*methyleneBlueTitrations/s);
	});
});

/** Flasks whose uptake follows q = 30 C^0.25 exactly, read without dilution on a line up to 10 mg/L. */
function freundlichTrial(
	residues: readonly number[],
	probe = "methylene blue",
	/** What the char is written as, over what it was. */
	written: readonly number[] = [],
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
			"char mass (g)": char * (written[i] ?? 1),
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

describe("a titration to a colour that is not one", () => {
	const titrated = {
		definition: methyleneBlueTitrations.CEFIC,
		sample: "char",
		volume: input("volume", 10, "mL", exact, {}),
		strength: input("massConcentration", 1.5, "g/L", exact, {}),
		char: input("mass", 0.1, "g", exact, {}),
	};
	test.each([
		["volume", { volume: input("volume", 0, "mL", exact, {}) }],
		["strength", { strength: input("massConcentration", 0, "g/L", exact, {}) }],
		["char", { char: input("mass", 0, "g", exact, {}) }],
	])("a %s of 0 is refused by its name", (name, change) => {
		expect(() => methyleneBlueNumbers([{ ...titrated, ...change }])).toThrow(
			new RegExp(`${name}.*a quantity above 0`, "s"),
		);
	});

	test("one that is missing is refused, and said to be missing", () => {
		const { char: _, ...without } = titrated;
		expect(() => methyleneBlueNumbers([without as typeof titrated])).toThrow(
			/char.*nothing/s,
		);
	});

	test("the table says nothing of a titration done as it should be, and names its one definition", () => {
		const { rows, notes } = methyleneBlueNumbers([titrated, titrated]).table;
		// 10 mL for 0.1 g
		expect(rows[0].slice(0, 2)).toEqual([
			"char",
			"CEFIC test methods for activated carbons",
		]);
		expect(rows[0].slice(3)).toEqual(["10.0", ""]);
		expect(notes).toHaveLength(2);
		expect(notes[0]).toContain("within 5 min (from memory");
		expect(notes[1]).toContain("Other definitions stop");
	});

	test("what was done otherwise is told, each by itself", () => {
		const { rows } = methyleneBlueNumbers([
			{
				...titrated,
				strength: input("massConcentration", 1, "g/L", exact, {}),
				char: input("mass", 0.2, "g", exact, {}),
			},
		]).table;
		expect(rows[0][4]).toBe(
			"1.00 g/L instead of 1.5; 0.200 g of char instead of 0.1",
		);
	});
});

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
		expect(tableText(numbersByDefinition(uptakes, definition))).toContain(
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
		expect(tableText(numbersByDefinition(uptakes, definition))).toContain(
			"from memory",
		);
	});

	test("a definition of another form, or none, is refused", () => {
		for (const [definition, found] of [
			[methyleneBlueTitrations.CEFIC, '"titration to a colour"'],
			[undefined, "nothing that says its form"],
		] as const)
			expect(() => numbersByDefinition(uptakes, definition as never)).toThrow(
				found,
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

	const at = (residue: number) => ({
		...uptakesAtResidue["phenol, at 1 mg/L"],
		residue,
	});

	test.each([
		[0.4999, true],
		[0.501, false],
		[7.99, false],
		[8.01, true],
	])("residues of 0.5 to 8 mg/L, read at %s: carried on %s", (c, on) => {
		const [n] = uptakeNumbers(uptakes, at(c));
		expect(n.is === "value" && n.extrapolated).toBe(on);
		const [row] = numbersByDefinition(uptakes, at(c)).rows;
		expect(String(row[3]).includes("carried on")).toBe(on);
	});

	test("the table has the uptake and its interval to three digits", () => {
		const [n] = uptakeNumbers(uptakes, at(1));
		if (n.is !== "value") throw new Error(n.because);
		const { title, rows, notes } = numbersByDefinition(uptakes, at(1));
		expect(title).toContain("phenol loading at 1 mg/L");
		expect(notes).toEqual([
			"uptake at a residue of 1 mg/L of phenol, on the log-log line of several doses (from memory; check the edition).",
		]);
		expect(rows[0].slice(0, 3)).toEqual([
			"control",
			"30.0",
			`${n.low.toPrecision(3)} to ${n.high.toPrecision(3)}`,
		]);
		expect(n.probe).toBe("methylene blue");
	});

	test("residues 1.5 times apart are too near for a line", () => {
		const state = (most: number): string =>
			uptakeNumbers(freundlichTrial([2, 2.5, most]), at(1))[0].is;
		expect(state(2.95)).toBe("not available");
		expect(state(3.05)).toBe("value");
		const { rows } = numbersByDefinition(freundlichTrial([2, 2.5, 2.9]), at(1));
		expect(rows[0][1]).toBe("not available");
		expect(rows[0][3]).toMatch(
			/^all residues lie within 2\.00 to 2\.90 mg\/L: dose/,
		);
	});

	test("flasks that gave only a bound are no points of it", () => {
		// the fourth left nothing, the fifth more than the line reaches
		const of = (...residues: number[]) =>
			uptakeNumbers(freundlichTrial(residues), at(1))[0];
		const three = of(0.5, 1, 3);
		const more = of(0.5, 1, 3, 1e-6, 20);
		if (three.is !== "value" || more.is !== "value") throw new Error("none");
		expect(more.uptake.in("mg/g")).toBeCloseTo(three.uptake.in("mg/g"), 9);
		const few = of(0.5, 1, 1e-6, 20);
		expect(few.is === "not available" && few.because).toMatch(
			/^2 of 4 flasks gave a point/,
		);
	});

	test("every flask that is not on it is named with its reason", () => {
		const remark = (...residues: number[]): string =>
			String(numbersByDefinition(freundlichTrial(residues), at(1)).rows[0][3]);
		expect(remark(0.5, 1, 3)).toBe("");
		expect(remark(0.5, 1, 3, 1e-6, 20)).toBe(
			"Flask 4 is not on the line: it took up at least so much. Flask 5 is not on the line: it took up at most so much.",
		);
		expect(remark(0.5, 1, 1e-6)).toMatch(
			/^2 of 3 flasks gave a point.* Flask 3 is not on the line: it took up at least/,
		);
	});

	test("a flask whose numbers cannot all be right is not on it", () => {
		const removal = dosesForRemoval["tannin value, AWWA B600"];
		// the fourth weighed a hundredth of what the others did: 3 g and more on a gram
		const trial = freundlichTrial(
			[0.5, 1, 3, 8],
			"methylene blue",
			[1, 1, 1, 0.006],
		);
		const [n] = uptakeNumbers(trial, at(1));
		expect(n.is === "value" && n.uptake.in("mg/g")).toBeCloseTo(30, 1);
		for (const definition of [at(1), removal])
			expect(numbersByDefinition(trial, definition).rows[0][3]).toMatch(
				/Flask 4 is not on the line: its numbers cannot all be right \(.* times what the char weighs/,
			);
	});

	test("a removal without a line says why, one outside the flasks that it is carried on", () => {
		const definition = dosesForRemoval["tannin value, AWWA B600"];
		const none = numbersByDefinition(freundlichTrial([1, 8]), definition);
		expect(none.rows[0].slice(1)).toEqual([
			"not available",
			"",
			"2 of 2 flasks gave a point; a line with an error needs three doses.",
		]);
		const remark = (to: number) =>
			numbersByDefinition(uptakes, { ...definition, to }).rows[0];
		expect(remark(2)[3]).toBe("");
		expect(remark(9)[3]).toContain("carried on");
		const [d] = removalDoses(uptakes, definition);
		if (d.is !== "value") throw new Error(d.because);
		expect(remark(2).slice(0, 3)).toEqual([
			"control",
			d.dose.toPrecision(3),
			`${d.low.toPrecision(3)} to ${d.high.toPrecision(3)}`,
		]);
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

	test("a dose that left no colour is named", () => {
		const good = [0.1, 0.2, 0.4].map((l) => ({
			dose: ratio(1 / l),
			left: ratio(l),
		}));
		const none = { dose: ratio(20), left: input("ratio", 0, "1", exact, {}) };
		expect(() => relativeDecolourising([...good, none], good, 0.2)).toThrow(
			/dose 4 at .*both above zero/s,
		);
	});

	test("nothing is read beyond the doses of either", () => {
		const left = (values: readonly number[]) =>
			values.map((l) => ({ dose: ratio(l ** -0.8), left: ratio(l) }));
		const wide = left([0.1, 0.2, 0.4]);
		const read = (share: number, narrow: "sample" | "reference") => () =>
			narrow === "sample"
				? relativeDecolourising(left([0.125, 0.2, 0.25]), wide, share)
				: relativeDecolourising(wide, left([0.125, 0.2, 0.25]), share);
		for (const which of ["sample", "reference"] as const) {
			expect(read(0.125, which)().percent).toBeCloseTo(100, 6);
			expect(read(0.25, which)().percent).toBeCloseTo(100, 6);
			for (const beyond of [0.124, 0.26])
				expect(read(beyond, which)).toThrow(
					new RegExp(`the doses of the ${which} left 0.125 to 0.250`),
				);
		}
	});

	test("its interval takes both lines, as independent", () => {
		const doses = [0.5, 1, 2, 4];
		const points = (spread: number) =>
			doses.map((d, i) => ({
				dose: input(
					"ratio",
					d * (1 + (i % 2 === 0 ? spread : -spread)),
					"1",
					exact,
					{},
				),
				left: input("ratio", 0.2 * d ** -1.2, "1", exact, {}),
			}));
		const half = (a: number, b: number): number => {
			const { low, high } = relativeDecolourising(points(a), points(b), 0.1);
			return Math.log(high / low) / 2;
		};
		expect(half(0.01, 0.02)).toBeCloseTo(
			Math.hypot(half(0.01, 0), half(0, 0.02)),
			9,
		);
		expect(half(0.02, 0)).toBeGreaterThan(0.01);
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
		// mean of 30 C^0.25, over 319.85 g/mol, times 602214 m²/mol for each nm²
		const mean = (30 * (0.5 ** 0.25 + 1 + 3 ** 0.25)) / 3;
		const area = (nm2: number) => ((mean * nm2 * 602.214) / 319.85).toFixed(0);
		expect(methyleneBlueSurface(list).rows[0].slice(2)).toEqual([
			area(1.3),
			`${area(1.08)} to ${area(1.97)}`,
		]);
		expect(methyleneBlueSurface(freundlichTrial([1e-6, 20])).rows).toEqual([]);
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
