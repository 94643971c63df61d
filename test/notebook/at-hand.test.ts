import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { successorInMessage } from "../../kernel-lib/notebook/kernel/gone-names";
import type { Session } from "../../kernel-lib/notebook/kernel/tslab";

/** What the compiler of the cells tells a person who is typing, with the library as it is installed. */
let session: Session;

beforeAll(async () => {
	const distribution = join(import.meta.dirname, "../../kernel-lib/dist");
	const { openSession } = createRequire(import.meta.url)(
		join(distribution, "notebook/kernel/tslab.js"),
	) as typeof import("../../kernel-lib/notebook/kernel/tslab");
	session = openSession(tmpdir(), [
		{
			name: "charledger",
			main: join(distribution, "index.js"),
			types: join(distribution, "index.d.ts"),
		},
	]);
	await session.execute('import * as charledger from "charledger";', "first");
	await session.execute(
		'import { bench, compare, quantity, uptake } from "charledger";',
		"second",
	);
}, 60_000);
afterAll(() => session?.close());

describe("completion", () => {
	test("after the library's name: the namespaces in alphabetical order", () => {
		const { candidates } = session.complete("charledger.", 11);
		expect(candidates).toEqual(
			expect.arrayContaining(["bench", "compare", "residue", "uptake"]),
		);
	});
	test("of half a word: the functions that begin with it", () => {
		expect(session.complete("compare.marg", 12).candidates).toContain(
			"marginOf",
		);
	});
	test("of an option: its name", () => {
		const code = 'compare.compareTreatments(bench.readTrial("a.csv"), { mar';
		expect(session.complete(code, code.length).candidates).toContain("margin");
	});
});

describe("hover", () => {
	test("over a function: its meaning and what it throws", () => {
		const text = session.inspect("compare.compareTreatments", 15);
		expect(text).toContain("Treatments of a trial against their controls");
		expect(text).toContain("ProblemError");
	});
	test("over an option: meaning, unit or default", () => {
		const code =
			'compare.compareTreatments(bench.readTrial("a.csv"), { margin: compare.marginOf(25), confidence: 0.9 })';
		const text = session.inspect(code, code.indexOf("confidence") + 3);
		expect(text).toMatch(/0\.95 unless told otherwise/);
		expect(session.inspect(code, code.indexOf("marginOf") + 2)).toContain("mg");
	});
});

describe("wrong units are red", () => {
	test.each([
		[
			"grams plus millilitres",
			'const m = quantity.input("mass", 1, "g", quantity.exact, {});\nconst v = quantity.input("volume", 1, "mL", quantity.exact, {});\nquantity.plus(m, v)',
		],
		[
			"a volume in grams",
			'quantity.input("volume", 1, "g", quantity.exact, {})',
		],
	])("%s", async (_, code) => {
		const outcome = await session.execute(code, "cell-wrong");
		expect(outcome.is).toBe("rejected");
		if (outcome.is === "rejected") {
			const [{ message }] = outcome.diagnostics;
			expect(message).toMatch(/mass|volume|"g"/);
			expect(message).not.toMatch(/undefined|\[object/);
		}
	});
});

describe("names of earlier versions", () => {
	test("are refused with the name of their successor", async () => {
		const outcome = await session.execute(
			'bench.readRun("trial.csv")',
			"cell-old",
		);
		expect(outcome.is).toBe("rejected");
		if (outcome.is === "rejected")
			expect(successorInMessage(outcome.diagnostics[0].message)).toBe(
				"bench.readRun is now bench.readTrial(path).",
			);
	});
});
