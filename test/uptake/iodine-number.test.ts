import { describe, expect, test } from "vitest";
import { generator } from "../../data/simulation/generator.mjs";
import { readTrial } from "../../kernel-lib/bench/index";
import { meanOf } from "../../kernel-lib/quantity/index";
import * as uptake from "../../kernel-lib/uptake/index";
import { hold, trialsOf } from "../simulation/trials";
import { charRow, type Row, steps } from "./sheets";

const strength = (percent: number): Row[] => [
	{
		solution: "iodine",
		substance: "iodine",
		"concentration (N)": 0.1,
		"uncertainty (%)": percent,
	},
	{
		solution: "thiosulfate",
		substance: "sodium thiosulfate",
		"concentration (N)": 0.1,
		"uncertainty (%)": percent,
	},
];

const dosage = (name: string, char: number, titre: number, more: Row = {}) => ({
	flask: name,
	treatment: "control",
	"char mass (g)": char,
	"mass basis": "dry",
	"liquid added (mL)": 10,
	"dose (mL)": 100,
	"aliquot (mL)": 50,
	"titre (mL)": titre,
	"first runnings discarded": "yes",
	"acid boiled": "yes",
	"ground fine": "yes",
	...more,
});

// Near 950 mg/g; the titres follow no line exactly.
const usual = (more: Row = {}): Row[] => [
	dosage("1", 1.258, 5.8, more),
	dosage("2", 1.0118, 10.75, more),
	dosage("3", 0.7986, 16.3, more),
];

function numberOf(
	flasks: Row[],
	solutions: Row[] = strength(0.3),
): Extract<uptake.IodineNumber, { is: "value" }> {
	const [n] = uptake.iodineNumbers(steps(flasks, solutions).trial);
	if (n.is !== "value") throw new Error(n.because);
	return n;
}

describe("what the interval is made of", () => {
	test("errors of the normalities are shared by all flasks, wherever they were made", () => {
		const value = (iodine: number, thiosulfate: number): number =>
			numberOf(usual(), [
				{ ...strength(0)[0], "concentration (N)": iodine },
				{ ...strength(0)[1], "concentration (N)": thiosulfate },
			]).line.value.in("mg/g");
		// One standard uncertainty of 1 % of each, by difference.
		const moved = Math.hypot(
			value(0.1005, 0.1) - value(0.0995, 0.1),
			value(0.1, 0.1005) - value(0.1, 0.0995),
		);
		const one = numberOf(usual(), strength(1)).line.shared;
		const none = numberOf(usual(), strength(0)).line.shared;
		expect(Math.sqrt(one ** 2 - none ** 2)).toBeCloseTo(moved, 1);
	});

	test("the readings of a standardisation are shared too", () => {
		const standardised = (blankDivision: Row): Row[] => [
			{
				solution: "iodine",
				substance: "iodine",
				"concentration (N)": 0.1,
				"standardised against": "thiosulfate",
				"aliquot (mL)": 10,
				"titre 1 (mL)": 10,
				"titre 2 (mL)": 10.05,
				...blankDivision,
			},
			{
				solution: "thiosulfate",
				substance: "sodium thiosulfate",
				"concentration (N)": 0.1,
			},
		];
		const withBlank = numberOf(
			usual(),
			standardised({ "blank titre (mL)": 0.05 }),
		).line;
		const without = numberOf(usual(), standardised({})).line;
		expect(withBlank.shared).toBeGreaterThan(without.shared * 1.1);
		expect(withBlank.readings).toBeCloseTo(without.readings, 1);
	});

	test("scatter and reading errors and shared errors account for the whole of the value's uncertainty", () => {
		const { line } = numberOf(usual());
		expect(Math.hypot(line.readings, line.shared)).toBeCloseTo(
			line.value.standardUncertainty,
			9,
		);
	});

	test("points that lie on a line by luck do not make the interval narrower than their readings allow", () => {
		// Titres that put three points on one line to the last digit that a burette shows.
		const lucky = numberOf([
			dosage("1", 1.258, 5.8),
			dosage("2", 1.0118, 10.7),
			dosage("3", 0.7986, 16.35),
		]);
		expect(lucky.line.intervalFrom).toBe("reading errors and shared errors");
		expect(Math.log(lucky.line.high / lucky.line.low) / 2).toBeCloseTo(
			(1.959964 * lucky.line.value.standardUncertainty) /
				lucky.line.value.value,
			6,
		);
		expect(lucky.remarks.join(" ")).toContain("luck");
		const scattered = numberOf([
			dosage("1", 1.258, 5.4),
			dosage("2", 1.0118, 11.2),
			dosage("3", 0.7986, 16.1),
		]);
		expect(scattered.line.intervalFrom).toBe("scatter and shared errors");
	});

	test("covers the truth of simulated trials, with and without scatter of the flasks' own", () => {
		const at = 0.02;
		const asked = 250;
		const trials = trialsOf(asked, 60);
		for (const [design, own] of [
			["readings alone", 0],
			["flasks scatter by 1 %", 0.01],
		] as const) {
			let covered = 0;
			for (let k = 0; k < trials; k++) {
				const random = generator(`iodine number, ${design}, ${k}`);
				const iodine = 0.1 * (1 + random.normal(0.003));
				const thiosulfate = 0.1 * (1 + random.normal(0.003));
				const flasks = [1.26, 1.01, 0.8].map((char, i) => {
					const factor = 1 + random.normal(own);
					// The residue that isotherm and balance agree on, by halving.
					let low = 0;
					let high = iodine / 1.1;
					for (let step = 0; step < 60; step++) {
						const c = (low + high) / 2;
						const taken = factor * 1640 * c ** 0.14 * char;
						if (126.93 * (100 * iodine - 110 * c) > taken) low = c;
						else high = c;
					}
					const titre =
						(low * 50) / thiosulfate +
						random.normal(0.025) +
						0.04 * (random.uniform() + random.uniform() - 1);
					return dosage(`${i + 1}`, char, Number(titre.toFixed(3)));
				});
				const { line } = numberOf(flasks);
				const truth = 1640 * at ** 0.14;
				if (line.low <= truth && truth <= line.high) covered++;
			}
			// 95 % of 250 less three standard errors of such a count.
			hold({
				simulation: "iodine number",
				design,
				what: "95 % interval holds the truth",
				hits: covered,
				trials,
				asked,
				least: 0.908,
			});
		}
	}, 120_000);
});

describe("conditions", () => {
	test.each([
		["yes", "met"],
		["no", "not met"],
		["", "not recorded"],
	])('"acid boiled" written as "%s" is %s', (written, state) => {
		const n = numberOf(usual({ "acid boiled": written }));
		const boiled = n.conditions.find((c) => c.condition.startsWith("boiled"));
		expect(boiled?.state).toBe(state);
		expect(n.name === "iodine number (ASTM D4607)").toBe(state === "met");
	});

	test("other volumes are computed by the same steps and not called an iodine number", () => {
		const scaled = usual().map((row) => ({
			...row,
			"char mass (g)": Number(row["char mass (g)"]) / 5,
			"liquid added (mL)": 2,
			"dose (mL)": 20,
			"aliquot (mL)": 10,
			"titre (mL)": Number(row["titre (mL)"]) / 5,
		}));
		const [whole, bench] = [numberOf(usual()), numberOf(scaled)];
		expect(bench.line.value.in("mg/g")).toBeCloseTo(
			whole.line.value.in("mg/g"),
			6,
		);
		expect(bench.name).toContain("bench scale");
		expect(bench.sentence).not.toContain("iodine number");
		expect(bench.remarks[0]).toContain("It is not an iodine number");
	});

	test("two dosages give no value, and the sentence says why", () => {
		const [n] = uptake.iodineNumbers(
			steps(usual().slice(0, 2), strength(0.3)).trial,
		);
		expect(n.is).toBe("not available");
		expect(n.sentence).toContain("2 of 2 dosages");
	});
});

describe("dosages that all ended at one residue", () => {
	// One flask three times over; the burette's readings differ, the titres do not but for the rounding of the difference.
	const alike = [0.1, 12.35, 25.3].map((start, i) => ({
		...dosage(`${i + 1}`, 1.0118, 10.75),
		"titre (mL)": "",
		"burette start (mL)": start,
		"burette end (mL)": start + 10.75,
	}));

	test("give no value; what was found and what to weigh is told", () => {
		const [n] = uptake.iodineNumbers(steps(alike, strength(0.3)).trial);
		const instead = n.is === "not available" ? n.weighInstead : "";
		expect(n.remarks).toEqual([]);
		expect(n.sentence).toMatch(
			/no value at 0.02 N, because all 3 dosages ended at one residue, 0.0215 N, and points at one residue have no slope\.$/,
		);
		// (100 × 0.1 - 110 C) × 126.93 mg over the mean uptake of 957.8 mg/g, C = 0.0215 N.
		const masses = [...instead.matchAll(/([\d.]+) g for a residue/g)];
		expect(masses.map((m) => Number(m[1]))).toEqual(
			[0.01, 0.02, 0.03].map((c) =>
				expect.closeTo((1.0118 * (10 - 110 * c)) / (10 - 110 * 0.0215), 2),
			),
		);
		expect(n.nextTrial[0]).toContain("for a residue near 0.03 N.");
	});

	test("a line through points at one place is refused in words", () => {
		const points = uptake.dosagePoints(steps(alike, strength(0.3)).trial);
		expect(() => uptake.logLine(points, 0.02)).toThrow(
			/points at one place have no slope/,
		);
	});
});

describe("one dosage by itself", () => {
	const { trial } = steps(usual(), strength(0.3));

	test("is brought to 0.02 N along the assumed slope", () => {
		const [first] = uptake.singleDoses(trial, { low: 0.14, high: 0.14 });
		const q = first.point.uptake.in("mg/g");
		const c = first.point.normality.in("N");
		expect(first.at0_02N.quantity.in("mg/g")).toBeCloseTo(
			q * (0.02 / c) ** 0.14,
			9,
		);
	});

	test("is the wider the farther its residue lies from 0.02 N, and the slope is one error for all", () => {
		const doses = uptake.singleDoses(trial);
		const u = doses.map((d) => d.at0_02N.quantity.standardUncertainty);
		const slope = 0.2 / Math.sqrt(12);
		doses.forEach((d, i) => {
			const c = d.point.normality.in("N");
			const fromSlope =
				Math.abs(Math.log(0.02 / c)) * slope * d.at0_02N.quantity.in("mg/g");
			expect(u[i]).toBeGreaterThan(fromSlope);
		});
		expect(u[0]).toBeGreaterThan(u[1] * 2);
		// Opposite sides of 0.02 N: the slope's error nearly cancels in the mean of first and last.
		const quantities = [doses[0], doses[2]].map((d) => d.at0_02N.quantity);
		expect(meanOf(quantities).standardUncertainty).toBeLessThan(
			0.6 * Math.min(u[0], u[2]),
		);
	});

	test("a flask that ran dry gives at least, and a residue outside the window is named", () => {
		const dry = steps(
			[dosage("1", 3, 0), dosage("2", 0.3, 30), dosage("3", 1, 10)],
			strength(0.3),
		).trial;
		const doses = uptake.singleDoses(dry);
		expect(doses[0].at0_02N.is).toBe("at least");
		expect(doses[1].remarks.join(" ")).toContain("more char");
		expect(doses[2].remarks.join(" ")).not.toContain("outside");
		expect(doses.table.rows).toHaveLength(3);
	});

	test("a name that a slope does not have is refused", () => {
		const mistyped = { low: 0.1, hihg: 0.3 } as unknown as {
			low: 0.1;
			high: 0.3;
		};
		expect(() => uptake.singleDoses(trial, mistyped)).toThrow(/"hihg".*high/s);
	});

	test("a slope that is no slope is refused", () => {
		for (const slope of [
			{ low: 0.3, high: 0.1 },
			{ low: -0.1, high: 0.1 },
			{ low: 0.1, high: Number.NaN },
		])
			expect(() => uptake.singleDoses(trial, slope)).toThrow(/between 0 and 1/);
	});
});

describe("a sheet whose doses differ, or are small", () => {
	test("the isotherm's sheet has a number too, with masses for its largest dose", () => {
		const found = uptake.iodineNumbers(
			readTrial("data/demo-isotherm/isotherm.csv"),
		);
		expect(found.map((n) => n.is)).toEqual(["value", "value"]);
		for (const n of found)
			expect(n.is === "value" && n.nextDosages.rows.length).toBe(3);
	});

	test.each([
		// 10 mL of 0.1 N in 100 mL are 0.01 N: just not below 0.01 N; a little more is.
		[10, 90, 0],
		[10.1, 90, 1],
		[20.1, 80, 2],
		[30.1, 70, 3],
	])("%s mL of 0.1 N in %s mL of acid: %s masses", (iodine, acid, count) => {
		expect(
			uptake.nextDosages(1000, { iodine, acid, iodineNormality: 0.1 }),
		).toHaveLength(count);
	});
});

test("advice for the next trial lands where it says", () => {
	const n = numberOf(usual());
	const [low] = uptake.nextDosages(n.line.value.in("mg/g"));
	// 100 mL of 0.1 N less 110 mL of 0.01 N, over the uptake.
	expect(low.char_g).toBeCloseTo(
		(126.93 * (10 - 1.1)) / n.line.value.in("mg/g"),
		9,
	);
});

test("a rough area is a range with its caveats, never a number", () => {
	const { trial } = steps(usual(), strength(0.3));
	const t = uptake.iodineNumbers(trial).roughSurfaceAreas;
	expect(String(t.rows[0][2])).toMatch(/^somewhere between \d+ and \d+$/);
	expect(t.notes.join(" ")).toContain("not a surface area");
});

test("flasks without char are no dosages", () => {
	const { trial } = steps(
		[
			...usual(),
			charRow("b", { contents: "iodine blank", treatment: "", day: "" }),
		].map((r) => {
			if (r.flask !== "b") return r;
			const { "char mass (g)": _, ...rest } = r as Row;
			return rest;
		}),
		strength(0.3),
	);
	expect(uptake.dosagePoints(trial)).toHaveLength(3);
});

describe("a char that may hold ammonia", () => {
	const [n] = uptake.iodineNumbers(
		steps(usual({ "soaked in": "Salmiakgeist" }), strength(0.1)).trial,
	);

	test("is not to be weighed and dosed again", () => {
		expect(n.ammonia).toBe("named");
		expect(n.nextTrial).toEqual([
			expect.stringContaining("do not dose; rinse out and drive off"),
		]);
		expect(n.is === "value" && n.nextDosages.rows).toEqual([]);
	});
});
