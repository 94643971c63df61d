import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import {
	answerOf,
	cellsOf,
	type Executed,
	executed,
	statementsOf,
} from "./executed";

const demo = join(import.meta.dirname, "../../data/demo-temperature");
const truth = JSON.parse(readFileSync(join(demo, "truth.json"), "utf8")) as {
	enthalpy_kJ_mol: number;
	entropy_J_mol_K: number;
	isotherms: { isotherm: { parameters: [number, number] } }[];
};

let usual: Executed;
beforeAll(() => {
	usual = executed("temperature-series");
}, 120_000);

/** Printed numbers have a minus sign of their own. */
const numberIn = (text: string): number => Number(text.replace("−", "-"));

const intervalOf = (sentence: string): [number, number] => {
	const found = /interval ([−-]?[\d.]+) to ([−-]?[\d.]+)/.exec(sentence);
	if (!found) throw new Error(sentence);
	return [numberIn(found[1]), numberIn(found[2])];
};

test("the title says how much less it holds, with an interval that holds the truth", () => {
	const { finding, tables, figure } = answerOf(usual);
	const found =
		/^Yes: with (\d+) mg\/L left in the water, the char held (\d+) % less iodine at 35 °C than at 5 °C \((\d+) to (\d+) %\)\.$/.exec(
			finding,
		);
	if (!found) throw new Error(finding);
	const [residue, , low, high] = found.slice(1).map(Number);
	const [cold, , , warm] = truth.isotherms.map(({ isotherm }) => {
		const [plateau, affinity] = isotherm.parameters;
		return (plateau * affinity * residue) / (1 + affinity * residue);
	});
	expect(low).toBeLessThan(100 * (1 - warm / cold));
	expect(high).toBeGreaterThan(100 * (1 - warm / cold));
	expect(tables[0].rows).toHaveLength(4);
	expect(figure).toContain("four fitted curves");
});

test("behind it: enthalpy and entropy with intervals that hold the truth, and what the sign means", () => {
	const [enthalpy, sign] = answerOf(usual).statements;
	const [low, high] = intervalOf(enthalpy);
	expect(low).toBeLessThan(truth.enthalpy_kJ_mol);
	expect(high).toBeGreaterThan(truth.enthalpy_kJ_mol);
	expect(high - low).toBeLessThan(8);
	expect(sign).toContain("the more weakly the warmer it is");
	const [, entropy] = cellsOf(usual, "enthalpy and entropy");
	expect(numberIn(entropy[4])).toBeLessThan(truth.entropy_J_mol_K);
	expect(numberIn(entropy[5])).toBeGreaterThan(truth.entropy_J_mol_K);
	expect(usual.page).toContain("molar mass 253.8 g/mol");
});

test("the heat at each uptake is near the enthalpy, for the plateau does not change here", () => {
	for (const row of cellsOf(usual, "heat at constant uptake")) {
		expect(numberIn(row[3])).toBeLessThan(truth.enthalpy_kJ_mol);
		expect(numberIn(row[4])).toBeGreaterThan(truth.enthalpy_kJ_mol);
	}
});

test("the usual mistakes are refused on the page, and two temperatures have no interval", () => {
	for (const words of [
		"without a molar mass",
		"without a unit",
		"Take the isosteric heat",
		"write 278.15 K",
		"Two temperatures only",
	])
		expect(usual.page).toContain(words);
	expect(usual.page).not.toMatch(/>not refused</);
});

test("treatments whose names stand for no temperature are named, with what to add", () => {
	const folder = mkdtempSync(join(tmpdir(), "charledger-no-temperature-"));
	const sheet = join(folder, "own.csv");
	try {
		const read = (ending: string): string =>
			readFileSync(join(demo, `four-temperatures${ending}.csv`), "utf8");
		writeFileSync(
			sheet,
			read("").replaceAll(",15 °C,", ",cellar,").replaceAll(",5 °C,", ",box,"),
		);
		for (const sister of [".solutions", ".glassware"])
			writeFileSync(join(folder, `own${sister}.csv`), read(sister));
		expect(() => executed("temperature-series", { sheet })).toThrow(
			/2 problems.*the treatment "box", which has no temperature in `celsius`.*the treatment "cellar", which/s,
		);
		// From the command line; the other two names say their temperatures.
		const told = executed("temperature-series", {
			sheet,
			celsius: "box: 5; cellar: 15",
		});
		const [named, asBefore] = [told, usual].map(answerOf);
		expect(named.finding).toBe(asBefore.finding);
		expect(named.statements).toEqual(asBefore.statements);
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
}, 120_000);

test("cautions and limits are there; no number is missing", () => {
	expect(statementsOf(usual, "cautions").join(" ")).toContain(
		"dispose of it by the local rules",
	);
	expect(statementsOf(usual, "not concluded").join(" ")).toContain(
		"belong to the convention",
	);
	expect(usual.page.replace(/<script[\s\S]*?<\/script>/g, "")).not.toMatch(
		/\bNaN\b|\bundefined\b|\bInfinity\b/,
	);
});
