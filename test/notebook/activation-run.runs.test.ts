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

const data = join(import.meta.dirname, "../../data/demo-activation");
const truth = JSON.parse(readFileSync(join(data, "truth.json"), "utf8")) as {
	runs: readonly {
		name: string;
		charYield: number;
		burnOff?: number;
		splashed: number;
	}[];
	flasks: readonly { flask: string; run: string; uptake: number }[];
};
let usual: Executed;
/** A cleaner target, and prices that are all nothing. */
let other: Executed;
let nothing: Executed;
/** The firings of the demo without its flasks. */
let alone: Executed;
const folder = mkdtempSync(join(tmpdir(), "charledger-kiln-"));

beforeAll(() => {
	usual = executed("activation-run");
	other = executed("activation-run", {
		targetMicrosiemens: 13,
		currency: "shells",
	});
	nothing = executed("activation-run", { targetMicrosiemens: 0 });
	const sheet = join(folder, "my kiln.csv");
	copyFileSync(join(data, "kiln.activation.csv"), sheet);
	copyFileSync(
		join(data, "kiln.glassware.csv"),
		join(folder, "my kiln.glassware.csv"),
	);
	alone = executed("activation-run", { sheet });
}, 300_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const valueIn = (text: string, word: string): number => {
	const found = new RegExp(`${word} \\(?([\\d.]+)`).exec(text);
	if (!found) throw new Error(`No ${word} in: ${text}`);
	return Number(found[1]);
};

/** What each run gave, behind the finding. */
const saidOfRuns = (run: Executed): readonly string[] =>
	answerOf(run).statements.slice(-truth.runs.length);

test("the head names the highest run per gram of char and per gram of feedstock, as the truth has them", () => {
	const { finding, figure } = answerOf(usual);
	const yields = new Map(truth.runs.map((r) => [r.name, r.charYield]));
	const ofFeedstock = ({
		run,
		uptake,
	}: (typeof truth.flasks)[number]): number =>
		uptake *
		(yields.get(run) ?? 0) *
		(/^(steam|potash)/.test(run) ? (yields.get("lid 1") ?? 0) : 1);
	const highest = (of: (f: (typeof truth.flasks)[number]) => number): string =>
		truth.flasks.reduce((a, b) => (of(a) >= of(b) ? a : b)).run;
	expect(finding).toContain(
		`per gram of char: "${highest((f) => f.uptake)}", `,
	);
	expect(finding).toContain(
		`per gram of dry "hazelnut shell": "${highest(ofFeedstock)}", `,
	);
	expect(finding).toContain('not ranked: "potash 1", because its weighings');
	expect(figure).toContain("six lots of char");
	const head = usual.page.slice(0, usual.page.indexOf('id="contents"'));
	expect(head).toContain(`<h1 id="answer">${escapeHtml(finding)}</h1>`);
});

test("behind it stands every run's yield, near its truth", () => {
	const answers = saidOfRuns(usual);
	expect(answers[1]).toContain("per gram of dry feedstock");
	for (const [i, { name, charYield, burnOff }] of truth.runs.entries()) {
		expect(answers[i].startsWith(`"${name}": `)).toBe(true);
		// Half a percent of moisture and the balance's error: well within one part in a hundred.
		expect(valueIn(answers[i], "char yield") / (100 * charYield)).toBeCloseTo(
			1,
			2,
		);
		if (burnOff !== undefined)
			expect(
				Math.abs(valueIn(answers[i], "burn-off") - 100 * burnOff),
			).toBeLessThan(1);
	}
});

test("the run that lost a splash is told at the head, in the balance, in the limits and in what to do next; no other is", () => {
	for (const answer of saidOfRuns(usual))
		expect(answer.includes("does not close")).toBe(
			answer.startsWith('"potash 1": '),
		);
	const open = cellsOf(usual, "mass balance").filter(
		(row) => row[row.length - 1] === "does not close",
	);
	expect(open.map((row) => row.slice(0, 2))).toEqual([
		["potash 1", "washing and drying"],
	]);
	expect(statementsOf(usual, "not concluded")[0]).toContain(
		'yield of "potash 1" is not to be relied on',
	);
	expect(statementsOf(usual, "what to do next")[0]).toContain("splashes");
});

test("a target of nothing is refused in a sentence, and the page is whole", () => {
	expect(
		statementsOf(nothing, "rinses needed and agent left").join("\n"),
	).toContain("no water conducts so little");
	expect(answerOf(nothing)).toEqual(answerOf(usual));
});

test("a mass by difference shows no digits that the balance has not", () => {
	const words = statementsOf(usual, "balances in words").join("\n");
	expect(words).toMatch(/By difference that is [\d.]+ g/);
	// Weighed to 0.01 g.
	for (const [, digits] of words.matchAll(/\d\.(\d+) g/g))
		expect(digits.length).toBeLessThanOrEqual(2);
});

test("rinses still needed, and a target that the water itself does not reach", () => {
	const said = statementsOf(usual, "rinses needed and agent left").join("\n");
	expect(said).toMatch(
		/"potash 1" to 50 µS\/cm: 2 rinses of 200 mL still needed/,
	);
	expect(said).toMatch(/Agent still in "potash 1" after 4 rinses: at least/);
	expect(
		statementsOf(other, "rinses needed and agent left").join("\n"),
	).toContain("the rinse water itself stands at 14 µS/cm");
});

test("dry, not dry, and too few weighings", () => {
	expect(usual.page).toContain("Drying of &quot;potash 0.5&quot;: dry;");
	const next = statementsOf(usual, "what to do next").join("\n");
	expect(next).toContain('Drying of "potash 1": not dry');
	expect(next).toContain('"phosphoric 1": weigh the drying more often');
	expect(next).not.toContain('Drying of "potash 0.5"');
});

test("every uptake carries its run; per feedstock it is uptake times yields; costs carry the label typed in", () => {
	const uptakes = cellsOf(usual, "uptakes and their firings");
	expect(uptakes.map((row) => [row[0], row[2]])).toEqual(
		truth.flasks.map((f) => [f.flask, f.run]),
	);
	const yields = new Map(truth.runs.map((r) => [r.name, r.charYield]));
	for (const row of cellsOf(usual, "per feedstock")) {
		const flask = truth.flasks.find((f) => f.flask === row[0]);
		if (flask === undefined) throw new Error(row[0]);
		const expected = row[1]
			.split(", ")
			.reduce((q, run) => q * (yields.get(run) ?? 0), flask.uptake);
		expect(Number.parseFloat(row[4]) / expected).toBeCloseTo(1, 1);
	}
	for (const [run, label] of [
		[usual, "EUR"],
		[other, "shells"],
	] as const)
		for (const row of cellsOf(run, "cost per gram taken up"))
			expect(row[4]).toContain(`${label}/g`);
});

test("figures in words, cautions of kiln, steam, acid and alkali, and what it does not show", () => {
	for (const name of [
		'washing curve of "potash 1"',
		'drying curve of "potash 1"',
		"uptake and burn-off",
	]) {
		const figure = usual.results.get(name);
		expect(figure?.kind === "figure" && figure.alt.length).toBeGreaterThan(80);
	}
	const cautions = statementsOf(usual, "cautions").join("\n");
	for (const words of [
		"carbon monoxide",
		"glow inside",
		"Steam scalds",
		"acid fumes",
		"water on alkali and char while they are hot",
		"Char dust",
		"Iodine stains",
		"local codes",
	])
		expect(cautions).toContain(words);
	const limits = statementsOf(usual, "not concluded").join("\n");
	expect(limits).toContain("drinking water");
	expect(limits).toContain("Each firing was done once");
});

test("a sheet of firings alone gives the same yields, says that there are no flasks, and calls no data invented", () => {
	expect(cellsOf(alone, "yields and ratios")).toEqual(
		cellsOf(usual, "yields and ratios"),
	);
	expect(cellsOf(alone, "uptakes and their firings")).toEqual([]);
	const word = "my kiln.csv holds no flasks";
	expect(answerOf(alone).finding).toMatch(/^No flask belongs/);
	expect(answerOf(alone).statements.join("\n")).toContain(word);
	expect(answerOf(usual).statements.join("\n")).not.toContain("no flasks");
	expect(usual.page).toContain("<strong>invented</strong>");
	expect(alone.page).not.toContain("<strong>invented</strong>");
});

test("a firing that a deviation leaves out enters no mean of the dataframe", () => {
	const meanWithoutAgent = ({ page }: Executed): number =>
		Number(
			/precursor mass \(g\)_mean.*?<td><\/td><td[^>]*>([\d.]+)</s.exec(
				page,
			)?.[1],
		);
	// 250.01, 15.01 and 15.00 g without an agent; without the second, 132.5 g
	const all = meanWithoutAgent(alone);
	writeFileSync(
		join(folder, "my kiln.deviations.csv"),
		"firing,what happened,handling\nsteam 30,kettle ran dry,leave out\n",
	);
	const without = executed("activation-run", {
		sheet: join(folder, "my kiln.csv"),
	});
	expect(meanWithoutAgent(without)).toBeGreaterThan(all * 1.2);
}, 60_000);
