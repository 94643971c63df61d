import { describe, expect, it } from "vitest";
import {
	explainDiagnostics,
	explainThrown,
	plainMessage,
} from "../../kernel-lib/notebook/kernel/explain";
import { nearest } from "../../kernel-lib/notebook/suggest";

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

describe("did you mean", () => {
	it("suggests what is near and nothing that is far", () => {
		expect(nearest("shet", ["sheet", "margin"])).toBe("sheet");
		expect(nearest("colour", ["sheet", "margin"])).toBe("");
	});
});
