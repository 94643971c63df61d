import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { cellsOf, type Executed, executed, statementsOf } from "./executed";

const truth = JSON.parse(
	readFileSync(
		join(import.meta.dirname, "../../data/demo-dose/truth.json"),
		"utf8",
	),
) as { question: { dose_g_L: number }; notAdsorbable_mg_L: number };

let usual: Executed;
/** A target that lies below what is not adsorbable. */
let hopeless: Executed;

beforeAll(() => {
	usual = executed("dose-for-a-target");
	hopeless = executed("dose-for-a-target", { targetMgPerL: 8 });
}, 240_000);

test("the answer at the head is a dose with an interval that holds the true one", () => {
	const [dose, barrel, background] = statementsOf(usual, "answer");
	const found =
		/^([\d.]+) g of char per litre .* interval ([\d.]+) to ([\d.]+)\) takes this water from 250 to 25 mg\/L in one stage/.exec(
			dose,
		);
	if (!found) throw new Error(dose);
	const [value, low, high] = found.slice(1).map(Number);
	expect(low).toBeLessThan(truth.question.dose_g_L);
	expect(high).toBeGreaterThan(truth.question.dose_g_L);
	expect(high - low).toBeLessThan(0.2 * value);
	expect(high - value).toBeGreaterThanOrEqual(value - low - 0.011);
	expect(barrel).toMatch(/^For the 200 litres of the barrel: 0\.8\d+ kg/);
	const share = /^About ([\d.]+) mg\/L .* interval ([\d.]+) to ([\d.]+)/.exec(
		background,
	);
	if (!share) throw new Error(background);
	expect(Number(share[2])).toBeLessThan(truth.notAdsorbable_mg_L);
	expect(Number(share[3])).toBeGreaterThan(truth.notAdsorbable_mg_L);
	expect(usual.page.slice(0, usual.page.indexOf('id="contents"'))).toContain(
		dose.slice(0, 30),
	);
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

test("the Hill form levels off below 99 %; the mixture needs more than the solute alone", () => {
	const rows = cellsOf(usual, "doses by the Hill form");
	expect(String(rows[2][1])).toBe("none");
	expect(String(rows[2][3])).toContain("levels off");
	const [mixed] = cellsOf(usual, "dose in a mixture");
	expect(Number(mixed[8])).toBeGreaterThan(1);
});

test("a target below what is not adsorbable has no dose, and the page still reads", () => {
	const [answer] = statementsOf(hopeless, "answer");
	expect(answer).toMatch(/^No dose takes this water from 250 to 8 mg\/L/);
	expect(answer).toContain("is not adsorbable");
	expect(statementsOf(hopeless, "what to do next")[0]).toMatch(/^Flasks/);
});

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
