import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import {
	answerOf,
	cellsOf,
	type Executed,
	executed,
	statementsOf,
} from "./executed";

let usual: Executed;
/** Nothing known of a second solute. */
let oneOnly: Executed;

beforeAll(() => {
	usual = executed("dose-in-a-mixture");
	oneOnly = executed("dose-in-a-mixture", { secondSolute: "" });
}, 240_000);

test("the mixture needs more than the solute alone, and the answer says how much", () => {
	const [alone, beside] = cellsOf(usual, "dose in a mixture");
	expect(Number(beside[1])).toBeGreaterThan(Number(alone[1]));
	const { finding, tables, figure } = answerOf(usual);
	const said =
		/^A forecast, not measured: beside "leaf brown", about ([\d.]+) g \(([\d.]+) to ([\d.]+)\) of char per litre takes "iodine" from 250 to 25 mg\/L, ([\d.]+) times as much as alone\.$/.exec(
			finding,
		);
	expect(said?.slice(1, 4)).toEqual(beside.slice(1));
	expect(Number(said?.[4])).toBeGreaterThan(1);
	expect(tables[0].rows).toHaveLength(2);
	expect(figure).toContain("iodine beside leaf brown");
});

test("both inputs are on the page, and each number says where it comes from", () => {
	for (const words of statementsOf(usual, "the first solute alone"))
		expect(words).toContain("demo-dose/distilled.csv");
	expect(usual.page).toContain("Input: distilled.csv");
	expect(usual.page).toContain("Input: leaf-brown.csv");
	const solutes = cellsOf(usual, "isotherms of the solutes alone");
	expect(new Set(solutes.map((row) => row[0]))).toEqual(
		new Set(["fired twice", "leaf brown"]),
	);
});

test("without a second solute it is said, and the dose is that of the first alone", () => {
	expect(answerOf(oneOnly).finding).toMatch(
		/^Nothing is known of a second solute\. Alone: About [\d.]+ g \([\d.]+ to [\d.]+\) of the char "fired twice" takes one litre of this water/,
	);
	expect(oneOnly.results.has("dose in a mixture")).toBe(false);
	expect(usual.results.has("dose in a mixture")).toBe(true);
});

test("limits, next steps and cautions speak of the mixture; no number is missing", () => {
	for (const name of ["not concluded", "what to do next"])
		expect(statementsOf(usual, name).join(" ")).toContain("mixture");
	expect(statementsOf(usual, "cautions").join(" ")).toMatch(
		/certifies.*dispose of it by the local rules/s,
	);
	for (const ran of [usual, oneOnly])
		expect(ran.page.replace(/<script[\s\S]*?<\/script>/g, "")).not.toMatch(
			/\bNaN\b|\bundefined\b|\bInfinity\b/,
		);
});

test("cells build no tables and no statistics, and the demo is told in a cell of its own", () => {
	const notebook = JSON.parse(
		readFileSync(
			join(import.meta.dirname, "../../notebooks/dose-in-a-mixture.ipynb"),
			"utf8",
		),
	) as { cells: { source: string[]; metadata: { tags?: string[] } }[] };
	expect(notebook.cells.length).toBeLessThan(30);
	const invented = notebook.cells.filter((c) =>
		c.source.join("").includes("**invented**"),
	);
	expect(invented.map((c) => c.metadata.tags)).toEqual([["demo-sheet"]]);
});
