import { describe, expect, test, vi } from "vitest";
import {
	isAsStated,
	publicFunctions,
	runExample,
	statedForm,
	statedValues,
} from "./examples";

const { functions, messages } = publicFunctions();

function isDocumented(name: string): boolean {
	const found = functions.find((f) => f.name === name);
	return (
		found !== undefined && found.meaning !== "" && found.examples.length > 0
	);
}

test("every public function has a docstring and an example", () => {
	expect(
		functions.map((f) => f.name).filter((name) => !isDocumented(name)),
	).toEqual([]);
});

test("the names at hand are what the examples think they are", () => {
	expect(messages.get("the names at hand") ?? []).toEqual([]);
});

test.each(functions.filter((f) => f.examples.length > 0))(
	"the example of $name runs as it says",
	async ({ name, examples, returnsNothing }) => {
		expect(messages.get(name) ?? [], "the compiler refuses it").toEqual([]);
		expect(examples.join("\n"), "does not call it").toContain(name);
		vi.spyOn(console, "log").mockImplementation(() => {});
		for (const example of examples) {
			await runExample(example);
			expect(
				statedValues(example) > 0 || returnsNothing,
				"states no value with // =>",
			).toBe(true);
		}
		vi.restoreAllMocks();
	},
);

describe("an example that is not true fails", () => {
	test.each([
		["another number", "quantity.normal(1.25).standardUncertainty // => 4"],
		["another text", '"a" // => "b"'],
		["a value missing in an object", '({ a: 1 }) // => { "a": 1, "b": 2 }'],
		["a value beside a declaration", "const a = 1; // => 1"],
		["something thrown", "bench.readTrial('nowhere.csv');"],
	])("%s", async (_, example) => {
		await expect(runExample(example)).rejects.toThrow();
	});

	test("one that is true passes, over several lines and promises", async () => {
		await runExample(
			"const two = 2;\nquantity.normal(\n\ttwo,\n\t1,\n).standardUncertainty // => 2\nPromise.resolve([two / 3]) // => [0.666667]\ntrial.flasks.length > 0 // => true",
		);
	});

	test("numbers agree to six digits, no fewer", () => {
		expect(isAsStated(0.12345649, 0.123456)).toBe(true);
		expect(isAsStated(0.1234571, 0.123456)).toBe(false);
		expect(isAsStated(1e-9, 0)).toBe(false);
		expect(isAsStated("1", 1)).toBe(false);
		expect(isAsStated([1], { 0: 1 })).toBe(false);
	});

	test("a table is its title, what is undefined is left out", () => {
		const table = { title: "T", columns: [], rows: [], notes: [] };
		expect(statedForm({ table, gone: undefined })).toEqual({ table: "T" });
	});
});
