import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { type Flask, readTrial, trialFromRows } from "../../kernel-lib/bench";
import { cellText } from "../../kernel-lib/quantity";
import { reagentBlanks } from "../../kernel-lib/residue";
import { charRow, plainSolutions, type Row, steps } from "../uptake/sheets";

const blank = (flask: string, day: string, titre: number): Row => ({
	flask,
	contents: "reagent blank",
	day,
	"aliquot (mL)": 25,
	"titre (mL)": titre,
});
const flasks = [charRow("a", { day: "1" }), charRow("b", { day: "2" })];

const table = (rows: Row[], deviations: Row[] = []): string[][] =>
	reagentBlanks(steps(rows, undefined, { deviations }).trial).table.rows.map(
		(row) => row.map((cell) => cellText(cell, "")),
	);

test("a line a day, with the blanks that it is taken from", () => {
	const [one, two, ...more] = table([...flasks, blank("r", "1", 0.1)]);
	expect(more).toEqual([]);
	expect([one[0], one[2]]).toEqual(["1", "the same day: flask r"]);
	expect(one[1]).toMatch(/^\(?0\.10/);
	expect([two[0], two[2]]).toEqual(["2", "the other days: flask r"]);
});

test("without a blank nothing is taken off", () => {
	expect(table(flasks)).toEqual([
		["1", "none", "nothing is taken off"],
		["2", "none", "nothing is taken off"],
	]);
});

test("a blank that a deviation leaves out counts nowhere", () => {
	const rows = [...flasks, blank("r1", "1", 9), blank("r2", "1", 0.1)];
	const out = [
		{ flask: "r1", "what happened": "cracked", handling: "leave out" },
	];
	expect(table(rows)[0][2]).toBe("the same day: flask r1, r2");
	expect(table(rows, out)[0][2]).toBe("the same day: flask r2");
	expect(
		table([...flasks, blank("r1", "1", 9)], out).map((row) => row[2]),
	).toEqual(["nothing is taken off", "nothing is taken off"]);
});

test("a blank that was read is taken off the readings, not off titres", () => {
	const dye = readTrial(
		join(import.meta.dirname, "../../data/demo-dye/dye.csv"),
	);
	const shown = (rows: readonly Flask[]): unknown[][] =>
		reagentBlanks({ ...dye, flasks: rows }).table.rows.map((r) => r.slice(1));
	expect(shown(dye.flasks)).toEqual([
		["read, not titrated", "the same day: flask W1"],
		["read, not titrated", "the same day: flask W2"],
	]);
	expect(shown(dye.flasks.filter((f) => f.name !== "W2"))).toEqual([
		["read, not titrated", "the same day: flask W1"],
		["read, not titrated", "the other days: flask W1"],
	]);
	const without = (name: string): Flask[] =>
		dye.flasks.map((f) =>
			f.name === name
				? {
						...f,
						marks: [{ whatHappened: "fell", handling: "leave out" }] as never,
					}
				: f,
		);
	expect(shown(without("W2"))).toEqual([
		["read, not titrated", "the same day: flask W1"],
		["read, not titrated", "the other days: flask W1"],
	]);
	expect(
		shown(dye.flasks.filter((f) => f.contents !== "reagent blank")),
	).toEqual([
		["none", "nothing is taken off"],
		["none", "nothing is taken off"],
	]);
});

test("a day that no flask has gives none", () => {
	const { trial } = steps([...flasks, blank("r", "1", 0.1)]);
	expect(reagentBlanks(trial).forDay("9").is).toBe("none");
});

describe("blanks that lie further apart than reading them explains", () => {
	const notes = (rows: Row[]): readonly string[] =>
		reagentBlanks(steps(rows).trial).table.notes;

	test("are told once, however many days they serve", () => {
		expect(
			notes([...flasks, blank("r1", "1", 0.1), blank("r2", "1", 0.9)]),
		).toEqual([
			expect.stringMatching(
				/^Titres of the reagent blanks \(r1, r2\) lie from 0\.1 to 0\.9 mL/,
			),
		]);
	});

	test("one blank titrated twice is one blank", () => {
		const twice: Row = {
			...blank("r", "1", 0.1),
			"titre (mL)": "",
			"titre 1 (mL)": 0.1,
			"titre 2 (mL)": 0.9,
		};
		expect(notes([...flasks, twice])).toEqual([
			expect.stringMatching(/^Titres of the reagent blank \(r\) lie/),
		]);
	});

	test("those that agree are not spoken of, nor is a day without any", () => {
		expect(
			notes([...flasks, blank("r1", "1", 0.1), blank("r2", "1", 0.1)]),
		).toEqual([]);
		expect(notes(flasks)).toEqual([]);
	});
});

test("a day on which every flask is left out has no line", () => {
	const out = [
		{ flask: "b", "what happened": "cracked", handling: "leave out" },
	];
	expect(
		table([...flasks, blank("r", "1", 0.1)], out).map((row) => row[0]),
	).toEqual(["1"]);
});

test("a blank that was read serves no titre, nor a day that was titrated", () => {
	const read: Row = {
		flask: "w",
		contents: "reagent blank",
		day: "1",
		"absorbance 1": 0.01,
	};
	const coloured = charRow("c", {
		day: "2",
		"aliquot (mL)": "",
		"titre (mL)": "",
		"absorbance 1": 0.2,
	});
	const { forDay, table } = reagentBlanks(
		trialFromRows({
			flasks: [charRow("a", { day: "1" }), coloured, read],
			solutions: plainSolutions,
		}),
	);
	expect(table.rows).toEqual([
		["1", "none", "nothing is taken off"],
		["2", "read, not titrated", "the other days: flask w"],
	]);
	expect(forDay("1").is).toBe("none");
});
