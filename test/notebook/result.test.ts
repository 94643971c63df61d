import { Ajv2020 } from "ajv/dist/2020";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import published from "../../data/schemas/results.v2.json";
import { readTrial } from "../../kernel-lib/bench/index";
import {
	compareTreatments,
	marginOf,
	residueOf,
} from "../../kernel-lib/compare/index";
import { bundleOf, isShowable } from "../../kernel-lib/notebook/display";
import { reportedResults } from "../../kernel-lib/notebook/extract";
import { notebookText, readNotebook } from "../../kernel-lib/notebook/ipynb";
import { linesOf } from "../../kernel-lib/notebook/large/packed-ledger";
import { resultMimeType } from "../../kernel-lib/notebook/reported";
import { type Reportable, resultOf } from "../../kernel-lib/notebook/result";
import {
	ledgerText,
	resultsText,
} from "../../kernel-lib/notebook/results-file";
import { resultsFileSchema } from "../../kernel-lib/notebook/results-schema";
import type { StructuredTable } from "../../kernel-lib/notebook/structured-table";
import {
	budget,
	input,
	normal,
	ProblemError,
	type Quantity,
	table,
	valueOrThrow,
	withTable,
} from "../../kernel-lib/quantity/index";
import {
	comparison,
	hostile,
	hostileNotebook,
	massOf,
	ratioOfMasses,
} from "./samples";

/** What is reported, its ledger line by line. */
function reported(name: string, value: Reportable) {
	const { content, ledger } = resultOf(name, value, "");
	return { content, ledger: [...linesOf(ledger)] };
}

const validate = new Ajv2020({ strict: false, formats: {} }).compile(published);

describe("what a notebook reports", () => {
	it("carries value, unit, uncertainty and a 95 % interval for a quantity", () => {
		const mass: Quantity = input("mass", 2, "g", normal(0.1, 3), {});
		const { content } = resultOf("mass", mass, "");
		// Student's t at 0.975 with 3 degrees of freedom: 3.182 (any printed table).
		expect(content).toMatchObject({
			kind: "quantity",
			value: 2,
			unit: "g",
			standardUncertainty: 0.1,
		});
		const { interval } = content as Extract<
			typeof content,
			{ kind: "quantity" }
		>;
		expect(interval.coverageFactor).toBeCloseTo(3.182, 3);
		expect(interval.low).toBeCloseTo(2 - 0.3182, 4);
		expect(interval.high).toBeCloseTo(2 + 0.3182, 4);
	});

	it("is the table of a result that carries one, with the numbers in it alone", () => {
		const made = table("Masses", ["mass (g)"], [[massOf(1, "shown")]]);
		const list = withTable([massOf(2, "kept back")], () => made);
		const { content, ledger } = reported("masses", list);
		expect(content).toEqual(resultOf("masses", made, "").content);
		expect(ledger.map((row) => row.value)).toEqual([1]);
		expect(bundleOf(list)).toEqual(bundleOf(made));
		expect(isShowable(list)).toBe(true);
		expect(isShowable([massOf(2, "kept back")])).toBe(false);
	});

	it("shows a budget as the table that it carries, structure and all", () => {
		const found = budget(ratioOfMasses());
		expect(bundleOf(found)).toEqual(bundleOf(found.table));
	});

	it("keeps a bound a bound", () => {
		const content = resultOf(
			"uptake",
			{ is: "at least", quantity: massOf(1, "m"), because: "it ran dry" },
			"",
		).content;
		expect(content).toMatchObject({
			kind: "bound",
			side: "at least",
			because: "it ran dry",
			value: 1,
		});
	});

	it("has the words and the differences of a comparison", () => {
		const content = resultOf("verdict", comparison(), "").content;
		expect(content).toMatchObject({
			kind: "comparison",
			claim: "difference",
			probe: "iodine",
			confidence: 0.95,
			statedResidue: { is: "stated", value: 2500, unit: "mg/L" },
			margin: { value: 25, unit: "mg/g" },
			verdicts: [
				{ word: "higher", difference: { is: "estimate", low: 60.1 } },
				{ word: "cannot tell", difference: { is: "at least", limit: 180 } },
			],
		});
	});

	it("has the stated residue, the confidence and the flasks of a comparison of a trial", () => {
		const trial = readTrial("data/demo-isotherm/isotherm.csv");
		const compared = compareTreatments(trial, {
			margin: marginOf(25),
			residue: residueOf(2000),
			confidence: 0.9,
		});
		const { content, ledger } = reported("verdict", compared);
		expect(content).toMatchObject({
			confidence: 0.9,
			statedResidue: { is: "stated", value: 2000, unit: "mg/L" },
		});
		const { scatter } = content as { scatter?: StructuredTable };
		expect(scatter?.title).toBe("Where the scatter comes from (mg/g)");
		expect(scatter?.rows.map(([where]) => where.text)).toContain(
			"flasks of one treatment",
		);
		const flasks = trial.flasks.filter((f) => f.contents === "char");
		for (const flask of flasks)
			expect(
				ledger.some(
					(row) => row.file === trial.file && row.row === flask.place.row,
				),
				flask.name,
			).toBe(true);
	});

	it("leads to its ancestors, down to the cell", () => {
		const { ledger } = reported("ratio", ratioOfMasses());
		expect(ledger.map((row) => row.symbol)).toEqual(["m_1", "m_2", "r"]);
		expect(ledger[2].inputs).toEqual([ledger[0].id, ledger[1].id]);
		expect(ledger[0]).toMatchObject({ row: 3, column: "char mass (g)" });
	});

	it("finds the quantities in the cells of a table", () => {
		const rows = table("t", ["a"], [[ratioOfMasses()], ["text"]]);
		expect(resultOf("t", rows, "").ledger).toHaveLength(3);
	});

	it("is refused when it cannot be written down", () => {
		expect(() => resultOf("", 1, "")).toThrow(
			'column "report": found no name; expected the name of the result first.',
		);
		expect(() => resultOf("x", Number.NaN, "")).toThrow(
			'found NaN as "x".content.value; expected finite numbers only',
		);
		expect(() => resultOf("x", new Date() as unknown as number, "")).toThrow(
			"found an object of another kind; expected a quantity, a bound",
		);
		expect(() => resultOf("x", true as unknown as number, "")).toThrow(
			ProblemError,
		);
		const broken = comparison();
		(broken.groups[0] as { mean: number }).mean = Number.POSITIVE_INFINITY;
		expect(() => resultOf("x", broken, "")).toThrow("groups.0.mean");
	});
});

describe("results.json", () => {
	it("is a function of the notebook file alone", () => {
		const again = valueOrThrow(
			readNotebook(notebookText(hostileNotebook()), "x.ipynb"),
		);
		expect(resultsText(again)).toBe(resultsText(hostileNotebook()));
	});

	it("is valid by its published schema, which can tell", () => {
		const file = JSON.parse(resultsText(hostileNotebook()));
		expect(validate(file), JSON.stringify(validate.errors)).toBe(true);
		file.results[0].content.verdicts[0].word = "better";
		expect(validate(file)).toBe(false);
	});

	it("has its published schema up to date", () => {
		expect(published).toEqual(resultsFileSchema());
	});

	it("names a result in the notebook that is not right", () => {
		const notebook = hostileNotebook();
		const output = (
			notebook.cells[3] as { outputs: { data: Record<string, unknown> }[] }
		).outputs[0];
		output.data[resultMimeType] = { formatVersion: 1 };
		const read = reportedResults(notebook);
		expect(read.ok ? [] : read.problems.map((p) => p.where.column)).toEqual([
			"results",
		]);
	});
});

describe("ledger.csv", () => {
	it("has every ancestor once and no cell that a spreadsheet would run", () => {
		const parsed = Papa.parse<string[]>(ledgerText(hostileNotebook()).trim());
		const ids = parsed.data.slice(1).map((row) => row[0]);
		expect(new Set(ids).size).toBe(ids.length);
		expect(parsed.data[0][0]).toBe("id");
		const texts = parsed.data.flat();
		expect(texts.some((text) => text === `'${hostile.formula}`)).toBe(true);
		for (const text of texts)
			expect(text).not.toMatch(/^[=+@]|^-(?![\d.]+(e-?\d+)?$)/);
	});
});
