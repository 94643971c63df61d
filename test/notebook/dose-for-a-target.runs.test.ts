import {
	copyFileSync,
	mkdtempSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { escapeHtml } from "../../kernel-lib/quantity/index";
import {
	answerOf,
	cellsOf,
	type Executed,
	executed,
	statementsOf,
} from "./executed";

const demo = join(import.meta.dirname, "../../data/demo-dose");
const truth = JSON.parse(readFileSync(join(demo, "truth.json"), "utf8")) as {
	question: { dose_g_L: number };
	notAdsorbable_mg_L: number;
};

let usual: Executed;
/** A target that lies below what is not adsorbable. */
let hopeless: Executed;
/** A sheet with the jars of the demo twice, the second time under the name of another char. */
const folder = mkdtempSync(join(tmpdir(), "charledger-two-chars-"));
const twoChars = join(folder, "two-chars.csv");
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(() => {
	usual = executed("dose-for-a-target");
	hopeless = executed("dose-for-a-target", {
		targetMgPerL: 8,
	});
	const sheet = readFileSync(join(demo, "rain-barrel.csv"), "utf8").trimEnd();
	const again = sheet
		.split("\n")
		.filter((row) => row.startsWith("W"))
		.map((row) => row.replace("W", "V").replace("fired twice", "untreated"));
	writeFileSync(twoChars, `${[sheet, ...again].join("\n")}\n`);
	for (const sister of ["solutions", "glassware"])
		copyFileSync(
			join(demo, `rain-barrel.${sister}.csv`),
			join(folder, `two-chars.${sister}.csv`),
		);
}, 240_000);

test("the title is a dose with an interval that holds the true one, and the table has a row a plan", () => {
	const { finding, tables, figure, statements } = answerOf(usual);
	const found =
		/^About ([\d.]+) kg \(([\d.]+) to ([\d.]+)\) of the char "fired twice" takes 200 L of this water from 250 to 25 mg\/L of iodine\.$/.exec(
			finding,
		);
	if (!found) throw new Error(finding);
	const [value, low, high] = found.slice(1).map(Number);
	const kilograms = 0.2 * truth.question.dose_g_L;
	expect(low).toBeLessThan(kilograms);
	expect(high).toBeGreaterThan(kilograms);
	expect(high - low).toBeLessThan(0.2 * value);
	const texts = tables[0].rows.map((row) =>
		row.map((cell) => ("text" in cell ? cell.text : "")),
	);
	expect(texts.map((row) => row[0])).toEqual([
		"one stage",
		"2 stages, fresh char in each",
		"2 stages, char against the water",
	]);
	expect(texts[0][1]).toBe(found[1]);
	expect(figure).toMatch(/25 mg\/L with .* mg\/L stays at any dose/);
	const share = /^About ([\d.]+) mg\/L .* interval ([\d.]+) to ([\d.]+)/.exec(
		statements[0],
	);
	if (!share) throw new Error(statements[0]);
	expect(Number(share[2])).toBeLessThan(truth.notAdsorbable_mg_L);
	expect(Number(share[3])).toBeGreaterThan(truth.notAdsorbable_mg_L);
	expect(usual.page).toContain(`<h1 id="answer">${escapeHtml(finding)}</h1>`);
});

test("scenarios without an answer say why and what would tell", () => {
	const rows = cellsOf(usual, "scenarios");
	expect(rows).toHaveLength(6);
	const refused = rows.filter((r) => r.includes("none"));
	expect(refused.map((r) => String(r[r.length - 1])).join(" ")).toMatch(
		/not adsorbable.*|outside the residues/,
	);
	for (const r of refused) expect(String(r[r.length - 1])).toMatch(/Flasks/);
});

test("stages: each saves char, counter-current most", () => {
	const dose = new Map(
		cellsOf(usual, "stages").map((r) => [String(r[0]), Number(r[1])]),
	);
	const at = (plan: string): number => dose.get(plan) ?? Number.NaN;
	expect(at("2, cross-current")).toBeLessThan(at("one"));
	expect(at("2, cross-current")).toBeLessThan(
		at("2, cross-current, equal doses"),
	);
	expect(at("2, counter-current")).toBeLessThan(at("2, cross-current"));
	expect(at("3, counter-current")).toBeLessThan(at("2, counter-current"));
});

test("the Hill form levels off below 99 %", () => {
	const rows = cellsOf(usual, "doses by the Hill form");
	expect(String(rows[2][1])).toBe("none");
	expect(String(rows[2][3])).toContain("levels off");
});

test("a target below what is not adsorbable has no dose, and the page still reads", () => {
	const { finding, tables } = answerOf(hopeless);
	expect(finding).toMatch(
		/^No dose of the char "fired twice" answers by these flasks: about [\d.]+ mg\/L of this water is not adsorbable, so that no dose reaches 8 mg\/L\.$/,
	);
	expect(JSON.stringify(tables[0].rows)).toContain("none");
	expect(statementsOf(hopeless, "what to do next")[0]).toMatch(/^Flasks/);
});

test("a sheet with two chars: the one that is named is answered for, and without a name it is asked which", () => {
	const asked = { sheet: twoChars };
	expect(() => executed("dose-for-a-target", asked)).toThrow(
		/found 2 treatments .* one of "fired twice", "untreated"/,
	);
	const { finding } = answerOf(
		executed("dose-for-a-target", {
			...asked,
			treatment: "untreated",
			targetMgPerL: 300,
		}),
	);
	expect(finding).toBe(
		"This water needs no char: it holds 250 mg/L, and 300 mg/L may stay.",
	);
}, 120_000);

test("no char for less than no water", () => {
	expect(() => executed("dose-for-a-target", { barrelLitres: -1 })).toThrow(
		/found −1 litres .*Change the volume of the water/,
	);
}, 120_000);

test("cautions and limits are there, and nothing calls the water fit to drink", () => {
	expect(statementsOf(usual, "cautions").join(" ")).toMatch(
		/certifies.*dispose of it by the local rules/s,
	);
	expect(statementsOf(usual, "not concluded").join(" ")).toMatch(
		/drinking water/,
	);
	for (const ran of [usual, hopeless])
		expect(ran.page.replace(/<script[\s\S]*?<\/script>/g, "")).not.toMatch(
			/\bNaN\b|\bundefined\b|\bInfinity\b/,
		);
});

// Its treatments have flasks of one dose each: a law through them would be drawn from scatter.
test("a sheet of a dye with one dose a treatment is refused before a law is fitted", () => {
	expect(() =>
		executed("dose-for-a-target", {
			sheet: join(demo, "../demo-dye/dye.csv"),
			treatment: "second firing in steam",
			startMgPerL: 100,
			targetMgPerL: 10,
		}),
	).toThrow(
		/dye\.csv: found a sheet with no treatment at several doses.*and uses methylene blue blanks/,
	);
}, 120_000);

test("a dye's sheet with several doses gets a dose, in the dye's own words", () => {
	const dye = executed("dose-for-a-target", {
		sheet: join(demo, "../demo-dye/dye-doses.csv"),
		treatment: "wood vinegar, rinsed",
		startMgPerL: 150,
		targetMgPerL: 40,
	});
	const { finding, statements } = answerOf(dye);
	expect(finding).toMatch(
		/^About [\d.]+ kg \([\d.]+ to [\d.]+\) of the char "wood vinegar, rinsed" takes 200 L of this water from 150 to 40 mg\/L of methylene blue/,
	);
	expect([finding, ...statements].join(" ")).not.toContain("iodine");
}, 120_000);
