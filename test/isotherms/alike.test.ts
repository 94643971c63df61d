import { describe, expect, test } from "vitest";
import { readTrial } from "../../kernel-lib/bench/index";
import { isotherms as figure } from "../../kernel-lib/figures/index";
import {
	averagedTable,
	fitIsotherm,
	fitTables,
	isothermPoints,
	langmuir,
	plainPoints,
	rankIsotherms,
} from "../../kernel-lib/isotherms/index";

const pathOf = (name: string): string =>
	new URL(`../../data/${name}`, import.meta.url).pathname;
const trial = readTrial(pathOf("demo-isotherm/isotherm.csv"));
const other = readTrial(pathOf("demo-dose/distilled.csv"));
const [points] = isothermPoints(trial);
const [others] = isothermPoints(other);
const residues = [10, 30, 90, 190, 390];
const uptakes = [51, 74.5, 90.4, 94.6, 97.6];
const typed = plainPoints("typed", residues, uptakes);
const blue = plainPoints("blue", residues, uptakes, {
	probe: "methylene blue",
});
const fitted = [points, others, typed, blue].map((p) =>
	fitIsotherm(langmuir, p),
);
const [own, stranger, plain, dye] = fitted;

describe("isotherms beside each other", () => {
	test("points know their trial by file and content; typed-in ones have none", () => {
		expect([points.file, points.hash]).toEqual([trial.file, trial.hash]);
		expect(points.hash).not.toBe("");
		expect([typed.file, typed.hash]).toEqual(["", ""]);
	});

	test("two probes are refused by their names, in a figure and in an average", () => {
		expect(() => figure([own, dye])).toThrow(
			/^figures\.isotherms: found isotherms of iodine and methylene blue together; expected isotherms of one probe/,
		);
		const ranked = [points, blue].map((p) =>
			rankIsotherms(p, { isotherms: [langmuir] }),
		);
		expect(() => averagedTable(ranked, 100)).toThrow(
			/^averagedTable: found isotherms of iodine and methylene blue together/,
		);
	});

	test("two trials are refused by their files", () => {
		expect(() => figure([own, stranger])).toThrow(
			/found isotherms of 2 trials together: isotherm\.csv \(content \w{8}\) and distilled\.csv/,
		);
		expect(figure([own, own]).layers.length).toBeGreaterThan(0);
	});

	test("typed-in points go with any, and a table of parameters holds several solutes", () => {
		expect(figure([own, plain]).layers.length).toBeGreaterThan(0);
		expect(fitTables(own, dye).table.rows).toHaveLength(4);
	});
});

test("fits of different confidence are refused in the name of the table, not of a column", () => {
	const ranked = [0.95, 0.9].map((confidence) =>
		rankIsotherms(typed, { isotherms: [langmuir], confidence }),
	);
	expect(() => averagedTable(ranked, 100)).toThrow(
		/^Uptake of solute averaged over the isotherms: found intervals of 95 % and 90 %/,
	);
});
