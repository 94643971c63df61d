import { describe, expect, test } from "vitest";
import {
	flaskFrame,
	readingFrame,
	readings,
	type Trial,
	trialFromRows,
} from "../../kernel-lib/bench/index";
import { compareTreatments, marginOf } from "../../kernel-lib/compare/index";
import * as figures from "../../kernel-lib/figures/index";
import { isothermPoints } from "../../kernel-lib/isotherms/index";
import {
	calibrationLines,
	reagentBlanks,
	residues,
} from "../../kernel-lib/residue/index";
import { concentrations } from "../../kernel-lib/solutions/index";
import {
	iodineNumbers,
	recoveries,
	uptakeFrame,
	uptakes,
} from "../../kernel-lib/uptake/index";
import { methodTable, nextSteps } from "../../kernel-lib/words/index";
import { charRow, plainSolutions, type Row } from "./sheets";

const options = { margin: marginOf(25) };

const none = { "titre (mL)": "", "aliquot (mL)": "" };

/** 10 mmol/L of iodine left, 2538 mg/L, by titre (5 mL of 10), by colour (0.001 a mg/L, ten times diluted) and by the mass that 25 mL leave when dried. */
const kinds: Readonly<Record<string, Row>> = {
	titrated: {},
	coloured: { ...none, "absorbance 1": 0.2538, dilution: 10 },
	dried: { ...none, "aliquot (mL)": 25, "dry residue (g)": 0.06345 },
};

const flasks: Row[] = [
	{ flask: "W", contents: "reagent blank", "titre (mL)": 0 },
	{
		flask: "B",
		contents: "iodine blank",
		"dose (mL)": 40,
		"made up to (mL)": 100,
		"aliquot (mL)": 25,
		"titre (mL)": 10,
	},
	...Object.entries(kinds).flatMap(([kind, row]): Row[] => [
		{ ...charRow(`control ${kind}`), ...row },
		{
			...charRow(`steam ${kind}`, { treatment: "steam", control: "control" }),
			...row,
		},
	]),
];

const trialOf = (deviations: Row[] = []): Trial =>
	trialFromRows({
		flasks,
		solutions: plainSolutions,
		calibration: [0, 100, 200, 300].map((c) => ({
			standard: `E${c}`,
			"concentration (mg/L)": c,
			"absorbance 1": 0.001 * c + (c === 100 ? 1e-5 : 0),
		})),
		deviations,
	});

describe("a sheet whose flasks were titrated, read on a line and dried", () => {
	const trial = trialOf();

	test("each way finds the same residue and the same uptake", () => {
		expect(residues(trial).map((r) => r.is)).toEqual([
			"titrated",
			"titrated",
			"titrated",
			"read",
			"read",
			"read",
			"read",
		]);
		for (const u of uptakes(trial)) {
			expect(u.residue.quantity.in("mg/L") / 2538).toBeCloseTo(1, 3);
			expect(u.computedUptake.in("mg/g") / 253.8).toBeCloseTo(1, 2);
			expect(u.lossesTakenOff).toBe(true);
		}
	});

	test.each<[string, (trial: Trial) => unknown]>([
		["overview", (t) => t.table],
		["readings", readings],
		["frame of flasks", flaskFrame],
		["frame of readings", readingFrame],
		["solutions", (t) => concentrations(t).table],
		["reagent blanks", (t) => reagentBlanks(t).table],
		["calibration lines", calibrationLines],
		["drift", (t) => calibrationLines(t).drift],
		["residues", (t) => residues(t).table],
		["recoveries", (t) => recoveries(t).table],
		["uptakes", (t) => uptakes(t).table],
		["balances", (t) => uptakes(t).balances],
		["frame of uptakes", uptakeFrame],
		["iodine numbers", iodineNumbers],
		["points of an isotherm", isothermPoints],
		["method", (t) => methodTable(compareTreatments(t, options))],
		["next steps", (t) => nextSteps(compareTreatments(t, options))],
		["residue and uptake", figures.residueAndUptake],
		["ladder", figures.balanceLadder],
		[
			"flasks against control",
			(t) => figures.flasksAgainstControl(compareTreatments(t, options)),
		],
	])("%s, with a flask of each kind left out too", (_, step) => {
		for (const t of [
			trial,
			...Object.keys(kinds).map((kind) =>
				trialOf([
					{
						flask: `steam ${kind}`,
						"what happened": "cracked",
						handling: "leave out",
					},
				]),
			),
		]) {
			const found = step(t);
			expect(found).toBeDefined();
			expect(JSON.stringify(found) ?? "").not.toMatch(/NaN|Infinity|undefined/);
		}
	});

	test("a flask that is left out is out whatever showed its residue", () => {
		for (const kind of Object.keys(kinds)) {
			const marked = trialOf([
				{
					flask: `steam ${kind}`,
					"what happened": "cracked",
					handling: "leave out",
				},
			]);
			expect(uptakes(marked).map((u) => u.flask.name)).not.toContain(
				`steam ${kind}`,
			);
			expect(uptakes(marked)).toHaveLength(5);
		}
	});
});
