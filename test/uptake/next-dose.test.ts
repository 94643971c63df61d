import { describe, expect, test } from "vitest";
import { charRow, plainSolutions, type Row, steps } from "./sheets";

const adviceFor = (change: Row, solutions: Row[] = plainSolutions): string =>
	steps([charRow("a", { "titre (mL)": 0, ...change })], solutions).uptakes[0]
		.nextDose;

describe("a flask that ran dry is dosed with what a good titre of 10 mL needs", () => {
	// 10 mL of 0.1 mol/L are 0.5 mmol of I2 in the aliquot
	test.each<[string, Row, string]>([
		// 0.5 x 100/50 = 1 mmol: 20 mL of 0.05 mol/L, 253.8 mg
		[
			"a larger aliquot",
			{ "aliquot (mL)": 50 },
			'20 mL more of "iodine" (254 mg',
		],
		// 0.5 x 200/25 = 4 mmol
		[
			"more liquid",
			{ "made up to (mL)": 200 },
			'80 mL more of "iodine" (1015 mg',
		],
	])("%s", (_, change, words) => {
		expect(adviceFor(change)).toContain(`Add at least ${words} iodine)`);
	});

	test("a stronger titrant needs more, a stronger dose less of it", () => {
		const [iodine, thiosulfate] = plainSolutions;
		expect(
			adviceFor({}, [iodine, { ...thiosulfate, "concentration (mol/L)": 0.2 }]),
		).toContain('80 mL more of "iodine" (1015 mg');
		expect(
			adviceFor({}, [{ ...iodine, "concentration (mol/L)": 0.1 }, thiosulfate]),
		).toContain('20 mL more of "iodine" (508 mg');
	});

	test("what was dosed is named, water that came first is not", () => {
		const [iodine, thiosulfate] = plainSolutions;
		const { uptakes } = steps(
			[
				{
					flask: "a",
					treatment: "control",
					"char mass (g)": 1,
					"liquid added 1 (mL)": 10,
					"dose 2 (mL)": 40,
					"dose 2 of": "strong iodine",
					"made up to (mL)": 100,
					"char in when made up": "no",
					"aliquot (mL)": 25,
					"titre (mL)": 0,
				},
			],
			[
				iodine,
				{
					...iodine,
					solution: "strong iodine",
					"concentration (mol/L)": 0.1,
				},
				thiosulfate,
			],
		);
		expect(uptakes[0].nextDose).toContain(
			'20 mL more of "strong iodine" (508 mg',
		);
	});
});
