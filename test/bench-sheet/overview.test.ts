import { readFileSync } from "node:fs";
import { join } from "node:path";
import papaparse from "papaparse";
import { describe, expect, test } from "vitest";
import {
	columnGuide,
	frame,
	readings,
	readTrial,
	trialFromRows,
} from "../../kernel-lib/bench/index";
import { cellText, tableText } from "../../kernel-lib/quantity/index";
import { changed, char, soundFlasks, soundSolutions } from "./rows";

const trial = trialFromRows({
	...changed("c2", {
		soak: "s1",
		"lid colour": "red",
		lid: "yes",
		"dosed at": "2031-05-03 14:00",
		"titrated at": "2031-05-04 15:30",
		"titre 2 (mL)": 5.4,
	}),
	deviations: [{ flask: "p1", "what happened": "label washed off" }],
});

describe("overview", () => {
	const text = tableText(trial.table);
	test("counts what was read", () => {
		expect(text).toMatch(/control +2 flasks, from 1 soak, a control/);
		expect(text).toMatch(
			/potash +2 flasks, 1 left out, soaks not recorded, against control/,
		);
		expect(text).toMatch(/reagent blanks +1/);
		expect(text).toMatch(/leachates +1 \(potash\)/);
		expect(text).toMatch(/days +1/);
	});
	test("names solutions, deviations, assumptions and columns carried along", () => {
		expect(text).toMatch(
			/solution thio +sodium thiosulfate, stated 0.1 mol\/L/,
		);
		expect(text).toMatch(/deviation, flask p1 +label washed off/);
		expect(text).toMatch(/assumed +Flasks were made up with the char in them/);
		expect(text).toMatch(/carried along +flasks: "lid colour"/);
	});
	test("says what is not recorded, for which flasks, and what that limits", () => {
		expect(text).toMatch(
			/not recorded +lid \(flask c1, p2, i1, l1\): iodine may have been lost/,
		);
		expect(text).toMatch(
			/not recorded +moisture of the char: uptake is per gram as weighed/,
		);
		expect(text).not.toMatch(/not recorded +iodine blank/);
	});
});

describe("what is not recorded", () => {
	const gaps = (change: Parameters<typeof changed>[1]): string[] =>
		trialFromRows(changed("c1", change)).notRecorded.map((n) => n.what);
	test("blanks", () => {
		const without = trialFromRows({
			flasks: soundFlasks.slice(0, 4),
			solutions: soundSolutions,
		}).notRecorded.map((n) => n.what);
		expect(without).toEqual(
			expect.arrayContaining(["reagent blank", "iodine blank"]),
		);
		expect(gaps({})).not.toContain("reagent blank");
	});
	test("a stated concentration without uncertainty and date", () => {
		expect(gaps({})).toEqual(
			expect.arrayContaining([
				'uncertainty of "iodine"',
				'standardisation of "thio"',
			]),
		);
		const known = trialFromRows({
			flasks: [char("1", "control", 5)],
			solutions: soundSolutions.map((s) => ({
				...s,
				"uncertainty (%)": 0.2,
				"standardised on": "2031-05-01",
			})),
		}).notRecorded.map((n) => n.what);
		expect(known.join()).not.toMatch(/uncertainty|standardisation/);
	});
	test("a dry mass needs no moisture", () => {
		const dry = trialFromRows({
			flasks: [char("1", "control", 5, { "mass basis": "dry" })],
			solutions: soundSolutions,
		});
		expect(dry.notRecorded.map((n) => n.what)).not.toContain(
			"moisture of the char",
		);
	});
});

describe("readings", () => {
	const t = readings(trial);
	const column = (name: string): unknown[] =>
		t.rows.map((r) => r[t.columns.indexOf(name)]);
	test("stand as in the sheet, only columns with something in them", () => {
		expect(column("flask")).toEqual(soundFlasks.map((f) => f.flask));
		expect(column("titre 1 (mL)")).toEqual([5.2, 5.3, 4.2, 4.4, 0.1, 9.5, 2.1]);
		expect(column("titre 2 (mL)")[1]).toBe(5.4);
		expect(column("titre 2 (mL)")[0]).toBe("");
		expect(column("contact time (min)")[1]).toBe(1530);
		expect(column("dosed at")[1]).toBe("2031-05-03 14:00");
		expect(column("titrated at")[1]).toBe("2031-05-04 15:30");
		expect(column("lid colour")[1]).toBe("red");
		expect(t.columns).not.toContain("particle size");
	});
});

describe("column guide", () => {
	test("every column can be read under the head that the guide gives it", () => {
		const guide = columnGuide();
		for (const sheet of ["flasks", "solutions", "deviations", "glassware"]) {
			const heads = guide.rows
				.filter((r) => r[0] === sheet)
				.map((r) => String(r[1]));
			expect(new Set(heads).size).toBe(heads.length);
			const empty = Object.fromEntries(heads.map((h) => [h, ""]));
			const seen = trialFromRows({
				flasks: [
					{ ...(sheet === "flasks" ? empty : {}), ...char("1", "control", 5) },
				],
				solutions: soundSolutions.map((s) =>
					sheet === "solutions" ? { ...empty, ...s } : s,
				),
				deviations:
					sheet === "deviations"
						? [{ ...empty, flask: "1", "what happened": "nothing" }]
						: [],
				glassware:
					sheet === "glassware"
						? [
								{
									...empty,
									piece: "burette",
									"used for": "titre",
									"size (mL)": 50,
								},
							]
						: [],
			}).columns.filter((c) => c.sheet === sheet);
			for (const h of heads)
				expect(
					seen.find((c) => c.header === h)?.takenFor,
					`${sheet}: ${h}`,
				).not.toMatch(/carried along/);
		}
	});
});

test("readings keep the zeros at their end that were typed", () => {
	const file = join(import.meta.dirname, "../../data/demo-run/hazelnut.csv");
	const [heads, ...rows] = papaparse.parse<string[]>(
		readFileSync(file, "utf8"),
		{ skipEmptyLines: true },
	).data;
	const shown = readings(readTrial(file));
	for (const head of ["burette start 1 (mL)", "burette end 1 (mL)"]) {
		const at = shown.columns.indexOf(head);
		expect(shown.rows.map((r) => cellText(r[at], head))).toEqual(
			rows.map((r) => r[heads.indexOf(head)]),
		);
		// As numbers they are the same as ever.
		expect(frame(shown)[head].values).toEqual(
			rows.map((r) => Number(r[heads.indexOf(head)])),
		);
	}
	expect(tableText(shown)).toContain("24.50");
});
