import { describe, expect, test } from "vitest";
import {
	successorAt,
	successorInMessage,
	successorText,
} from "../../kernel-lib/notebook/kernel/gone-names";
import { successors } from "../../kernel-lib/notebook/kernel/successors";

const known = {
	"bench.readRun": "bench.readTrial(path)",
	"bench.sheetFiles": "internal now; trial.sources lists the files.",
};

describe("a name that is gone", () => {
	test("is told with its successor", () => {
		expect(successorText("bench.readRun", known)).toBe(
			"bench.readRun is now bench.readTrial(path).",
		);
		expect(successorText("bench.sheetFiles", known)).toBe(
			"bench.sheetFiles is gone: internal now; trial.sources lists the files.",
		);
		expect(
			["f(g(x), { y }).sentence", "f(x) says g(y)"].map((next) =>
				successorText("a.b", { "a.b": next }),
			),
		).toEqual([
			"a.b is now f(g(x), { y }).sentence.",
			"a.b is gone: f(x) says g(y).",
		]);
		expect(successorText("bench.readTrial", known)).toBe("");
		expect(successorText("toString", known)).toBe("");
	});

	test("is recognised in the compiler's messages, on every system", () => {
		for (const message of [
			`Property 'readRun' does not exist on type 'typeof import("/home/a/charledger/kernel-lib/dist/bench/index")'.`,
			`Property 'readRun' does not exist on type 'typeof import("C:/a/dist/bench/public")'. Did you mean 'readTrial'?`,
			`Namespace '"/a/dist/bench/public"' has no exported member 'readRun'.`,
		])
			expect(successorInMessage(message, known)).toBe(
				"bench.readRun is now bench.readTrial(path).",
			);
		expect(successorInMessage("Cannot find name 'readRun'.", known)).toBe("");
		expect(
			successorInMessage(
				`Property 'readRun' does not exist on type 'Trial'.`,
				known,
			),
		).toBe("");
	});

	test("is told too where a whole namespace is gone", () => {
		for (const message of [
			`Module '"charledger"' has no exported member 'curves'.`,
			`Property 'curves' does not exist on type 'typeof import("/home/a/kernel-lib/dist/index")'.`,
			`Property 'curves' does not exist on type 'typeof import("C:/a/dist/index")'.`,
		])
			expect(successorInMessage(message)).toBe(
				"curves is gone: what it held is now in isotherms, dose, temperature and mixtures.",
			);
		for (const message of [
			`Module '"charledger"' has no exported member 'toString'.`,
			`Module '"charledger"' has no exported member 'curvess'.`,
			`Module '"other"' has no exported member 'curves'.`,
			`Property 'curves' does not exist on type 'Trial'.`,
		])
			expect(successorInMessage(message)).toBe("");
	});

	test("is recognised under the pointer", () => {
		const source = "const run = charledger.bench.readRun(sheet);";
		const at = source.indexOf("readRun");
		expect(successorAt(source, at + 2, known)).toContain("bench.readTrial");
		expect(successorAt(source, source.indexOf("sheet"), known)).toBe("");
		expect(successorAt("bench.readRun", 13, known)).toContain(
			"bench.readTrial",
		);
	});
});

test("the list of successors is in alphabetical order, and no name leads to itself", () => {
	const names = Object.keys(successors);
	expect(names).toEqual([...names].sort());
	for (const [name, next] of Object.entries(successors)) {
		expect(name).toMatch(/^\w+\.\w+$/);
		expect(next).not.toBe("");
		expect(next.replace(/\(.*/, "")).not.toBe(name);
	}
});
