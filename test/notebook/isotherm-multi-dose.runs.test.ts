import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { escapeHtml } from "../../kernel-lib/quantity/index";
import { cellsOf, type Executed, executed, statementsOf } from "./executed";

const data = join(import.meta.dirname, "../../data");

interface Scenario {
	readonly isotherm: {
		readonly residue: number;
		readonly chars: readonly {
			readonly name: string;
			readonly isotherm: { readonly parameters: readonly [number, number] };
		}[];
	};
}

const scenario: Scenario = JSON.parse(
	readFileSync(join(data, "demo-isotherm/scenario.json"), "utf8"),
);
const { residue, chars } = scenario.isotherm;
const trueUptake = ([plateau, affinity]: readonly [number, number]): number =>
	(plateau * affinity * residue) / (1 + affinity * residue);
const trueDifference =
	trueUptake(chars[1].isotherm.parameters) -
	trueUptake(chars[0].isotherm.parameters);

let usual: Executed;
/** The main notebook on the same sheet, and on its own with one dose. */
let main: Executed;
let oneDose: Executed;
/** A residue that no flask reached. */
let outside: Executed;

beforeAll(() => {
	usual = executed("isotherm-multi-dose");
	outside = executed("isotherm-multi-dose", { residueMgPerL: "9000" });
	main = executed("compare-treatments", {
		marginMgPerG: 25,
		sheet: join(data, "demo-isotherm/isotherm.csv"),
		residueMgPerL: String(residue),
	});
	oneDose = executed("compare-treatments");
}, 300_000);

interface Verdict {
	readonly word: string;
	readonly sentence: string;
	readonly comparableDose: string;
	readonly difference: {
		readonly is: string;
		readonly low: number;
		readonly high: number;
	};
}

function verdictsOf({ results }: Executed): readonly Verdict[] {
	const content = results.get("verdict");
	if (content?.kind !== "comparison") throw new Error("no comparison");
	return content.verdicts as unknown as readonly Verdict[];
}

test("the answer stands at the head of the page, with the residue in it, and holds the invented truth", () => {
	const [verdict] = verdictsOf(usual);
	expect(verdict.word).toBe("higher");
	expect(verdict.sentence).toContain("at 2.5 g/L iodine left");
	expect(verdict.sentence).toContain("in these lots");
	expect(verdict.difference.low).toBeLessThan(trueDifference);
	expect(verdict.difference.high).toBeGreaterThan(trueDifference);
	const head = usual.page.slice(0, usual.page.indexOf('id="contents"'));
	expect(head).toContain(escapeHtml(verdict.sentence));
	expect(head).toContain("Before you quote this");
	expect(head).toContain("Safety.");
});

test("parameters to quote hold the truth", () => {
	const rows = cellsOf(usual, "isotherm parameters");
	expect(rows.map((r) => [r[0], r[2]])).toEqual(
		chars.flatMap((c) => [
			[c.name, "q_max"],
			[c.name, "K_L"],
		]),
	);
	rows.forEach((row, i) => {
		// the profile interval
		const [from, to] = row[9].split(" to ");
		const truth = chars[Math.floor(i / 2)].isotherm.parameters[i % 2];
		expect(Number(from)).toBeLessThan(truth);
		expect(Number(to)).toBeGreaterThan(truth);
	});
});

test("the fit report says what it must: correlation, criteria, lack of fit, runs, normality, leverage", () => {
	const what = cellsOf(usual, "checks of the fits").map((r) => r[1]);
	for (const wanted of [
		"scatter",
		"correlation of the parameters",
		"BIC",
		"lack of fit",
		"runs",
		"normality",
		"largest leverage",
	])
		expect(what.filter((w) => w === wanted)).toHaveLength(2);
});

test("the ranking puts Langmuir first, and the averaged uptakes hold the truth", () => {
	for (const c of chars)
		expect(cellsOf(usual, `ranking, "${c.name}"`)[0][0]).toBe("Langmuir");
	cellsOf(usual, "averaged uptakes").forEach((row, i) => {
		const [low, high] = row[3].split(" to ").map(Number);
		const truth = trueUptake(chars[i].isotherm.parameters);
		expect(low).toBeLessThan(truth);
		expect(high).toBeGreaterThan(truth);
	});
});

test("a curve of one's own says the same as the catalogue's", () => {
	const [verdict] = verdictsOf(usual);
	expect(
		usual.page.split(escapeHtml(verdict.sentence)).length - 1,
	).toBeGreaterThanOrEqual(2);
});

test("what may not be concluded", () => {
	const texts = statementsOf(usual, "not concluded").join(" ");
	for (const wanted of [
		"these lots of char only",
		"drinking water",
		"breathing",
		"no surface area",
		"the curve is a guess",
	])
		expect(texts).toContain(wanted);
});

test("a residue that no flask reached: cannot tell, and the dose that would make it comparable", () => {
	const [verdict] = verdictsOf(outside);
	expect(verdict.word).toBe("cannot tell");
	expect(verdict.sentence).toContain("9 g/L lies outside the residues");
	expect(verdict.comparableDose).toContain("mg of iodine (I2)");
});

test("the main notebook takes the isotherms when the run has several doses, and says so", () => {
	const [there] = verdictsOf(usual);
	const [here] = verdictsOf(main);
	expect(here.sentence).toBe(there.sentence);
	expect(main.page).toContain("The run has several doses");
});

test("with one dose each flask is carried to the residue, and the page says why", () => {
	expect(oneDose.page).toContain("not enough doses for isotherms");
	expect(oneDose.page).toContain("No isotherm was used");
	expect(
		verdictsOf(oneDose).every((v) => v.sentence.includes("iodine left")),
	).toBe(true);
});
