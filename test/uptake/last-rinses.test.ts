import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import { lastRinses } from "../../kernel-lib/uptake/last-rinses";
import { charRow, plainSolutions, type Row } from "./sheets";

const rinsesOf = (flasks: Row[], deviations: Row[] = []) =>
	lastRinses(trialFromRows({ flasks, solutions: plainSolutions, deviations }));

const acid: Row = { "last rinse pH": 6 };
const alkaline: Row = { "last rinse pH": 9 };

describe("what the last rinses of a treatment showed", () => {
	test("is the mean of its flasks, those without a reading aside", () => {
		const { pH, conductivity } = rinsesOf([
			charRow("a", { ...acid, "last rinse conductivity (µS/cm)": 50 }),
			charRow("b", {
				"last rinse pH": 6.4,
				"last rinse conductivity (mS/cm)": 0.11,
			}),
			charRow("c"),
		]);
		expect(pH("control")).toEqual({ recorded: true, value: 6.2 });
		const mean = conductivity("control");
		expect(mean.recorded && mean.value).toBeCloseTo(80, 9);
	});

	test("other treatments, leachates and blanks play no part in it", () => {
		const { pH } = rinsesOf([
			charRow("a", acid),
			charRow("t", { treatment: "treated", control: "control", ...alkaline }),
			charRow("l", {
				contents: "leachate",
				"leachate (mL)": 50,
				"leachate taken (mL)": 25,
				...alkaline,
			}),
		]);
		expect(pH("control")).toEqual({ recorded: true, value: 6 });
		expect(pH("treated")).toEqual({ recorded: true, value: 9 });
	});

	test("a flask that is left out is out here too", () => {
		const { pH } = rinsesOf(
			[charRow("a", acid), charRow("b", alkaline)],
			[{ flask: "b", "what happened": "spilt", handling: "leave out" }],
		);
		expect(pH("control")).toEqual({ recorded: true, value: 6 });
	});

	test("without a reading it is not recorded, which is no number", () => {
		const { pH, conductivity } = rinsesOf([charRow("a", acid)]);
		expect(conductivity("control")).toEqual({ recorded: false });
		expect(pH("another")).toEqual({ recorded: false });
	});
});
