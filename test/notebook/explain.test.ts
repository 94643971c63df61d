import { describe, expect, it } from "vitest";
import {
	explainDiagnostics,
	explainThrown,
	plainMessage,
} from "../../kernel-lib/notebook/kernel/explain";
import { ProblemError, problem } from "../../kernel-lib/quantity/index";

describe("errors of a cell in words", () => {
	it("say which kind of quantity stands where which is needed", () => {
		expect(
			plainMessage(
				"Argument of type 'Quantity<\"volume\">' is not assignable to parameter of type 'Quantity<\"mass\">'.",
			),
		).toBe("this is a volume, and a mass is needed here.");
		expect(plainMessage("Cannot find name 'x'.")).toBe("Cannot find name 'x'.");
	});

	it("give each fault of the compiler once, with the line and the details below", () => {
		const at = { line: 2, column: 3, code: 1 };
		const error = explainDiagnostics(
			[
				{ ...at, message: "First." },
				{ ...at, message: "Why." },
				{ line: 3, column: 1, code: 1, message: "Second." },
			],
			"one\n  two\nthree",
		);
		expect(error.evalue).toBe("Line 2, column 3: First.");
		expect(error.traceback).toEqual([
			"Line 2, column 3: First.",
			"    two",
			"    Why.",
			"Line 3, column 1: Second.",
			"    three",
		]);
	});

	it("that were told in words stand without a class in front and without a hunt through the library", () => {
		const cells = {
			current: "cell-1",
			sourceOf: () => "bench.readRun(sheet)",
			titleOf: () => "",
			placeOf: (script: string) =>
				script === "cell-1" ? { cell: "cell-1", line: 1, column: 1 } : null,
		};
		const thrownIn = (error: Error): readonly string[] => {
			error.stack = `x\n    at inner (library.js:1:1)\n    at cell-1:1:1`;
			return explainThrown(error, cells).traceback;
		};
		const told = new ProblemError([
			problem("code", { file: "trial.csv" }, "a thing", "another", "Mend it."),
		]);
		expect(thrownIn(told)).toEqual([
			"trial.csv: found a thing; expected another. Mend it.",
			"  at line 1 of this cell:  bench.readRun(sheet)",
		]);
		expect(thrownIn(new RangeError("too far"))[2]).toContain("1 call inside");
	});

	it("are complete for what is no Error", () => {
		const cells = {
			current: "cell-1",
			sourceOf: () => "",
			titleOf: () => "",
			placeOf: () => null,
		};
		expect(explainThrown(undefined, cells)).toEqual({
			ename: "Thrown",
			evalue: "undefined",
			traceback: ["Thrown: undefined"],
		});
	});
});
