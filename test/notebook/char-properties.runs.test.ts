import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { escapeHtml } from "../../kernel-lib/quantity/index";
import {
	answerCells,
	answerOf,
	cellsOf,
	type Executed,
	executed,
	statementsOf,
} from "./executed";

const truth = JSON.parse(
	readFileSync(
		join(import.meta.dirname, "../../data/demo-properties/truth.json"),
		"utf8",
	),
) as {
	chars: readonly {
		sample: string;
		moisture: number;
		ash: number;
		volatile: number;
	}[];
};
let usual: Executed;
let withoutLimit: Executed;
/** One weighing of one char, and no other sheet. */
let own: Executed;
const folder = mkdtempSync(join(tmpdir(), "charledger-properties-"));

beforeAll(() => {
	usual = executed("char-properties");
	withoutLimit = executed("char-properties", { ashLimitPercent: 0 });
	const sheet = join(folder, "mine.csv");
	writeFileSync(
		sheet,
		"determination,sample,property,dish (g),dish and sample (g),dish after (g)\nM1,my char,moisture,23.0991,33.1979,32.7674\n",
	);
	own = executed("char-properties", { sheet, flasks: "" });
}, 180_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** "4.157 (3.757 to 4.557)". */
function interval(cell: string): [number, number] {
	const found = /^[\d.]+ \(([\d.]+) to ([\d.]+)\)$/.exec(cell);
	if (!found) throw new Error(`No interval in: ${cell}`);
	return [Number(found[1]), Number(found[2])];
}

test("the answer at the head takes a gram of every char apart, with intervals that hold the truth", () => {
	const rows = answerCells(usual);
	expect(rows.map((row) => row[0])).toEqual(truth.chars.map((c) => c.sample));
	for (const [i, { moisture, ash }] of truth.chars.entries())
		for (const [j, value] of [
			100 * moisture,
			100 * ash,
			100 / (1 - ash),
		].entries()) {
			const [low, high] = interval(rows[i][j + 1]);
			expect(low).toBeLessThan(value);
			expect(high).toBeGreaterThan(value);
		}
	const { finding, figure } = answerOf(usual);
	// 1 - ash - volatile matter of the dry gram, times 1 - moisture
	const [water] = truth.chars;
	const carbon = 100 * (1 - water.ash - water.volatile) * (1 - water.moisture);
	expect(
		Number(/as weighed: ([\d.]+) % \("water"\)/.exec(finding)?.[1]) - carbon,
	).toBeCloseTo(0, -0.5);
	expect(figure).toMatch(/^What is in a gram of char, as weighed/);
	const head = usual.page.slice(0, usual.page.indexOf('id="contents"'));
	expect(head).toContain(`<h1 id="answer">${escapeHtml(finding)}</h1>`);
});

test("the ash that was taken out early is told at the head and in what to do next, where a limit is given", () => {
	expect(answerOf(usual).finding).toContain(
		'; total ash of "potash" is not settled: its determinations disagree.',
	);
	expect(statementsOf(usual, "not concluded")[0]).toBe(
		'Nothing should lean on the mean of determinations that disagree: total ash of "potash".',
	);
	expect(statementsOf(usual, "what to do next")[0]).toMatch(
		/^Total ash of "potash": .*two more determinations/,
	);
	expect(answerOf(withoutLimit).finding).not.toContain("disagree");
});

test("the dust lost on sieving the potash char is told; the other char lost none to speak of", () => {
	const lost = statementsOf(usual, "what to do next").filter((s) =>
		s.includes("missing after sieving"),
	);
	expect(lost).toHaveLength(2);
	for (const s of lost) expect(s).toMatch(/^"potash", /);
});

test("per gram of dry, ash-free char the uptakes are higher, and a bound stays a bound", () => {
	const rows = cellsOf(usual, "uptake per gram of what");
	expect(rows.map((r) => r[1])).toEqual([
		...Array(5).fill("water"),
		...Array(5).fill("potash"),
	]);
	const number = (text: string): number =>
		Number(/[\d.]+/.exec(text)?.[0] ?? Number.NaN);
	const ash = { water: 0.032, potash: 0.1 };
	for (const row of rows) {
		expect(row[2]).toBe("dry char");
		const factor = number(row[5]) / number(row[3]);
		expect(factor).toBeCloseTo(1 / (1 - ash[row[1] as "water"]), 2);
		expect(row[5].startsWith("at least")).toBe(row[3].startsWith("at least"));
	}
	expect(rows.some((r) => r[3].startsWith("at least"))).toBe(true);
});

test("a sheet of one weighing runs through: no interval, and every step that needs more says what is missing", () => {
	expect(answerOf(own).finding).toBe(
		'"my char": moisture 4.26 % (determined once).',
	);
	for (const step of [
		"particle sizes",
		"grain densities",
		"uptake per gram of what",
		"if floating grains had been left out",
	])
		expect(statementsOf(own, step)[0], step).toMatch(/^No /);
	expect(own.page).not.toContain("potash&quot;:");
	expect(JSON.stringify([...own.results])).not.toContain("hazelnut.csv");
});

test("the page has the figure, the windows of density, the bias of floating grains, the cautions and the limits", () => {
	const { page } = usual;
	expect(page.includes("60 % finer: d60")).toBe(true);
	expect(
		cellsOf(usual, 'grain densities of "potash"').map((r) => r[0]),
	).toEqual([
		"floats in salt brine",
		"sinks in salt brine, floats in calcium chloride brine",
		"sinks in calcium chloride brine",
	]);
	expect(
		cellsOf(usual, "if floating grains had been left out").map((r) => r[0]),
	).toEqual(["0.5 times", "2 times"]);
	const cautions = statementsOf(usual, "cautions").join("\n");
	for (const word of [/crucible/, /dust/i, /brines/, /local codes/])
		expect(cautions).toMatch(word);
	expect(statementsOf(usual, "not concluded").at(-1)).toBe(
		"No property in this table shows that a char is fit for any use.",
	);
	const everything = JSON.stringify([...usual.results]);
	expect(/NaN|undefined|Infinity|\[object/.test(everything)).toBe(false);
});
