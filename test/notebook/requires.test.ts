import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { readTrial, trialFromRows } from "../../kernel-lib/bench/index";
import {
	compareTreatments,
	mostComparisons,
} from "../../kernel-lib/compare/index";
import {
	checkNeed,
	type NotebookNeed,
	notebookNeeds,
} from "../../kernel-lib/notebook/needs";
import { requires } from "../../kernel-lib/notebook/requires";
import { ProblemError } from "../../kernel-lib/quantity/index";
import { soundFlasks, soundSolutions } from "../bench-sheet/rows";

const data = join(import.meta.dirname, "../../data");
const hazelnut = readTrial(join(data, "demo-run/hazelnut.csv"));
const dye = readTrial(join(data, "demo-dye/dye.csv"));
const isotherm = readTrial(join(data, "demo-isotherm/isotherm.csv"));
const kiln = readTrial(join(data, "demo-activation/kiln.csv"));

beforeEach(() => {
	vi.spyOn(console, "log").mockImplementation(() => {});
});
afterEach(() => vi.restoreAllMocks());

describe("what a sheet holds", () => {
	const there = (trial: typeof hazelnut): NotebookNeed[] =>
		notebookNeeds.filter((need) => checkNeed(trial, need).is === "there");

	test("is read from the trial alone", () => {
		expect(there(hazelnut)).toEqual(
			expect.arrayContaining([
				"flasks",
				"a control",
				"titrations",
				"deviations",
			]),
		);
		expect(there(isotherm)).toContain("several doses");
		expect(there(hazelnut)).not.toContain("several doses");
		expect(there(hazelnut)).not.toContain("a calibration line");
		expect(there(hazelnut)).not.toContain("firings");
		expect(there(dye)).toEqual(
			expect.arrayContaining(["readings", "a calibration line"]),
		);
		expect(there(dye)).not.toContain("titrations");
		expect(there(kiln)).toContain("firings");
	});
});

describe("what a notebook requires", () => {
	test("is said in one sentence, with what the sheet lacks", () => {
		requires(hazelnut, { needs: ["flasks", "a control"], uses: ["firings"] });
		expect(console.log).toHaveBeenCalledExactlyOnceWith(
			"This notebook needs flasks with char and a control, and uses firings where the sheet has them. The sheet hazelnut.csv has no firings: what rests on that is left out.",
		);
	});

	test("calls blanks without char by the probe that was dosed", () => {
		requires(dye, { needs: ["flasks"], uses: ["iodine blanks", "firings"] });
		expect(console.log).toHaveBeenCalledExactlyOnceWith(
			"This notebook needs flasks with char, and uses methylene blue blanks and firings where the sheet has them. The sheet dye.csv has no firings: what rests on that is left out.",
		);
	});

	test("tells why an only treatment has not several doses", () => {
		const one = {
			...hazelnut,
			flasks: hazelnut.flasks.filter(
				(f) => f.contents !== "char" || f.treatment === "water",
			),
		};
		expect(checkNeed(one, "several doses")).toMatchObject({
			is: "lacking",
			because: expect.stringContaining("clearly different residue"),
		});
		expect(checkNeed(hazelnut, "several doses")).toMatchObject({
			is: "lacking",
			because: "",
		});
	});

	test("stops the notebook where it cannot do without", () => {
		expect(() => requires(hazelnut, { needs: ["firings"] })).toThrow(
			new ProblemError([
				{
					code: "sheet-lacks",
					where: { file: "hazelnut.csv", sheet: "", row: 0, column: "" },
					found: "a sheet with no firings",
					expected:
						"what the notebook cannot do without. This notebook needs firings",
					mend: "Take another notebook for this sheet, or add to the sheet what it lacks.",
				},
			]),
		);
		expect(console.log).not.toHaveBeenCalled();
	});

	test("is checked: words that nobody can need get the nearest", () => {
		expect(() => requires(hazelnut, { need: ["flasks"] } as never)).toThrow(
			'Did you mean "needs"?',
		);
		expect(() => requires(hazelnut, { needs: ["flask" as never] })).toThrow(
			'"flasks"',
		);
	});
});

describe("too much for a notebook", () => {
	const treatments = (count: number) =>
		trialFromRows({
			solutions: soundSolutions,
			flasks: Array.from({ length: count + 1 }, (_, i) => ({
				...soundFlasks[0],
				flask: String(i),
				treatment: i === 0 ? "water" : `soak ${i}`,
				control: i === 0 ? "" : "water",
			})),
		});

	test(`${mostComparisons} treatments to compare are taken, one more is told before anything is computed, with a way out`, () => {
		requires(treatments(mostComparisons), { needs: ["a control"] });
		const more = treatments(mostComparisons + 1);
		expect(() => requires(more, { needs: ["a control"] })).toThrow(
			/501 treatments to compare at once; expected at most 500\. Divide the sheet/,
		);
		// What compares nothing takes them.
		requires(more, { needs: ["flasks"] });
	});

	test("a comparison without such a cell says the same", () => {
		expect(() => compareTreatments(treatments(mostComparisons + 1))).toThrow(
			"501 treatments to compare at once",
		);
	});
});
