import {
	cpSync,
	mkdtempSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { cellsOf, type Executed, executed, statementsOf } from "./executed";

const data = join(import.meta.dirname, "../../data/demo-dye");
let usual: Executed;
/** The same trial with flask V3 diluted as the others were and read again. */
let mended: Executed;
const folder = mkdtempSync(join(tmpdir(), "charledger-dye-"));

beforeAll(() => {
	usual = executed("dye-uptake");
	cpSync(data, folder, { recursive: true });
	const sheet = join(folder, "dye.csv");
	const rows = readFileSync(sheet, "utf8");
	const changed = rows.replace(
		/^(V3,.*,yes,)25,250,[^,]*,[^,]*,[^,]*,/m,
		"$15,250,0.366,0.365,0.001,",
	);
	expect(changed).not.toBe(rows);
	writeFileSync(sheet, changed);
	mended = executed("dye-uptake", { sheet, residueMgPerL: 85 });
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test("the answer stands at the head: steam is higher, wood vinegar cannot be told while a flask is only a bound", () => {
	const head = usual.page.slice(0, usual.page.indexOf('id="contents"'));
	expect(head).toContain(
		"&quot;second firing in steam&quot;: at 85 mg/L methylene blue left, higher than its control",
	);
	expect(head).toContain("cannot tell: flask V3 gave only a bound");
});

test("read again within the standards, the same flask makes wood vinegar no difference that matters", () => {
	const head = mended.page.slice(0, mended.page.indexOf('id="contents"'));
	expect(head).toContain("no difference that matters");
	expect(head).not.toContain("only a bound");
});

test("the flask above the line is a bound, never a number read on along the line", () => {
	expect(usual.page).toContain("at least 40.00 (u 0.60)");
	expect(usual.page).toContain("read higher than the highest standard");
	const bounds = JSON.stringify(
		cellsOf(usual, "left in solution").find(([flask]) => flask === "V3"),
	);
	expect(bounds).toContain("at least");
	// 1.81 read on along the line would be 8.7 mg/L in the cuvette.
	expect(bounds).not.toMatch(/\b8\.[67]/);
});

test("line, checks, limits by their definition, drift and recovery are on the page", () => {
	for (const words of [
		"lack of fit",
		"Mandel",
		"DIN 32645",
		"working range",
		"Did the instrument drift?",
		"Recovery of methylene blue without char",
		"order of magnitude",
		"GB/T 12496.10",
		"from memory",
	])
		expect(usual.page).toContain(words);
});

test("the other definition of the limit of detection, on request", () => {
	const other = executed("dye-uptake", { limitDefinition: "ISO 11843" });
	expect(other.page).toContain("ISO 11843, from the calibration");
}, 60_000);

test("cautions name the dye; what may not be concluded names water, breathing and poisoning, and no iodine", () => {
	expect(statementsOf(usual, "cautions").join("\n")).toContain(
		"Warning, methylene blue: Dyes stain",
	);
	const not = statementsOf(usual, "not concluded").join("\n");
	for (const words of ["drinking water", "breathing", "poisoning"])
		expect(not).toContain(words);
	expect(not).toContain("Uptake of methylene blue stands for");
	expect(usual.page).not.toContain("Uptake of iodine");
	expect(JSON.stringify([...usual.results.values()])).not.toMatch(
		/undefined|NaN|Infinity|null/,
	);
});
