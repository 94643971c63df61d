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
import { escapeHtml } from "../../kernel-lib/quantity/index";
import {
	answerCells,
	answerOf,
	cellsOf,
	type Executed,
	executed,
	statementsOf,
} from "./executed";

const data = join(import.meta.dirname, "../../data/demo-isotherm");
let usual: Executed;
/** The same trial with the boiling in acid left out and nobody having noted how fine the char was. */
let skipped: Executed;
const folder = mkdtempSync(join(tmpdir(), "charledger-iodine-"));

beforeAll(() => {
	usual = executed("iodine-number");
	cpSync(data, folder, { recursive: true });
	const sheet = join(folder, "iodine-number.csv");
	const rows = readFileSync(sheet, "utf8");
	const changed = rows.replaceAll(",yes,yes,yes,yes,yes,", ",yes,yes,no,,yes,");
	expect(changed).not.toBe(rows);
	writeFileSync(sheet, changed);
	skipped = executed("iodine-number", { sheet, scaledDownSheet: "" });
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const interval = (text: string): [number, number] => {
	const found = /\((\d+) to (\d+)\)/.exec(text);
	if (!found) throw new Error(`No interval in: ${text}`);
	return [Number(found[1]), Number(found[2])];
};

test("the answer stands at the head: the iodine number with its interval, its line, and the scaled-down figure by another name", () => {
	const { finding, figure } = answerOf(usual);
	expect(finding).toMatch(
		/^Iodine number of "fired twice": \d+ mg\/g \(\d+ to \d+\); 9 of 9 conditions/,
	);
	expect(figure).toContain("Iodine number (ASTM D4607)");
	const [number, scaled] = answerCells(usual);
	expect(number[0]).toBe("fired twice, iodine-number.csv");
	expect(number[3]).toBe("iodine number");
	expect(scaled[0]).toBe("fired twice, bench-scale.csv");
	expect(scaled[3]).toBe("not an iodine number");
	const head = usual.page.slice(0, usual.page.indexOf('id="contents"'));
	expect(head).toContain(`<h1 id="answer">${escapeHtml(finding)}</h1>`);
});

test("the true uptakes of the invented chars lie in both intervals", () => {
	const scenario = JSON.parse(
		readFileSync(join(data, "scenario.json"), "utf8"),
	) as Record<
		"iodineNumber" | "benchScale",
		{ chars: { isotherm: { parameters: [number, number] } }[] }
	>;
	const answers = answerCells(usual).map((row) => row[1]);
	(["iodineNumber", "benchScale"] as const).forEach((trial, i) => {
		const [k, n] = scenario[trial].chars[0].isotherm.parameters;
		// 0.02 N is 0.01 mol/L of I2, 2538.09 mg/L.
		const truth = k * 2538.09 ** n;
		const [low, high] = interval(answers[i]);
		expect(truth).toBeGreaterThan(low);
		expect(truth).toBeLessThan(high);
		expect(high - low).toBeLessThan(0.1 * truth);
	});
});

test("every condition is listed; a boil that was left out and a grinding that nobody noted take the name away", () => {
	const states = (run: Executed): Map<string, string> =>
		new Map(
			cellsOf(run, 'conditions, "fired twice"').map(([c, state]) => [c, state]),
		);
	expect(states(usual).size).toBeGreaterThanOrEqual(9);
	expect(new Set(states(usual).values())).toEqual(new Set(["met"]));
	expect(states(skipped).get("boiled in the acid before dosing")).toBe(
		"not met",
	);
	expect(
		states(skipped).get(
			"ground fine (95 % through 45 µm; from memory, check your copy)",
		),
	).toBe("not recorded");
	expect(answerOf(skipped).finding).toMatch(
		/^"fired twice" took up .* by the standard this is no iodine number: of 9 conditions 1 is not met and 1 is not recorded\.$/,
	);
	expect(answerCells(skipped)).toHaveLength(1);
	expect(statementsOf(skipped, "scaled-down version")).toEqual([
		"No second sheet is set.",
	]);
	expect(statementsOf(skipped, "not concluded").join(" ")).toContain(
		"Not met: boiled in the acid before dosing",
	);
	expect(statementsOf(skipped, "what to do next").join(" ")).toContain(
		"boiled in the acid",
	);
});

test("the page gives the next masses, the single dosages, the figures and the limits", () => {
	expect(cellsOf(usual, 'char to weigh, "fired twice"')).toHaveLength(3);
	expect(cellsOf(usual, "each dosage by itself")).toHaveLength(3);
	const figure = usual.results.get('line of "fired twice"');
	expect(figure?.kind === "figure" && figure.alt).toMatch(
		/^Iodine number \(ASTM D4607\), "fired twice": 367\.6 mg/,
	);
	const limits = statementsOf(usual, "not concluded").join(" ");
	for (const words of [
		"It is not an iodine number",
		"drinking water",
		"no surface area",
	])
		expect(limits).toContain(words);
	expect(usual.page).toContain("This is not a surface area");
	expect(statementsOf(usual, "cautions").length).toBeGreaterThan(2);
});
