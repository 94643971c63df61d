import { describe, expect, it } from "vitest";
import type { CodeCell, Notebook } from "../../kernel-lib/notebook/ipynb";
import {
	demoParameters,
	withParameters,
} from "../../kernel-lib/notebook/run/parameters";
import { problemText, valueOrThrow } from "../../kernel-lib/quantity/index";

const code = (id: string, source: string, tags: string[] = []): CodeCell => ({
	cell_type: "code",
	id,
	metadata: { tags },
	source,
	outputs: [],
	execution_count: null,
});

const notebook: Notebook = {
	nbformat: 4,
	nbformat_minor: 5,
	metadata: {},
	cells: [
		code(
			"settings",
			'let sheet = "demo.csv"; // a comment\nconst marginMgPerG: number = -25, strict = false;\nvar twice = 2 * 3;',
			["parameters"],
		),
		code("use", "sheet"),
	],
};

const set = (...pairs: [string, string][]) =>
	withParameters(notebook, new Map(pairs));

const complaints = (...pairs: [string, string][]): string[] => {
	const result = set(...pairs);
	return result.ok ? [] : result.problems.map(problemText);
};

describe("parameters of a notebook", () => {
	it("are set in a cell of their own after the defaults, by their types", () => {
		const { cells } = valueOrThrow(
			set(["sheet", "a.csv"], ["marginMgPerG", "1e1"], ["strict", "true"]),
		);
		expect(cells.map((c) => c.id)).toEqual([
			"settings",
			"injected-parameters",
			"use",
		]);
		expect(cells[1].source).toBe(
			'let sheet = "a.csv";\nconst marginMgPerG = 10;\nconst strict = true;',
		);
		expect(cells[1].metadata.tags).toEqual(["injected-parameters"]);
	});

	it("replace those of an earlier run", () => {
		const once = valueOrThrow(set(["sheet", "a.csv"]));
		const twice = valueOrThrow(
			withParameters(once, new Map([["sheet", "b.csv"]])),
		);
		expect(twice.cells).toHaveLength(3);
		expect(twice.cells[1].source).toBe('let sheet = "b.csv";');
	});

	it("cannot smuggle code in", () => {
		// biome-ignore lint/suspicious/noTemplateCurlyInString: the point is that nobody takes it for one
		const text = '"; process.exit(1); "\n\\" ${x} `';
		const { cells } = valueOrThrow(set(["sheet", text]));
		const run = new Function(`${cells[1].source}; return sheet;`);
		expect(run()).toBe(text);
	});

	it("are refused, all at once, when the notebook does not have them or they do not fit", () => {
		expect(
			complaints(
				["shet", "a"],
				["marginMgPerG", "25 mg"],
				["strict", "yes"],
				["twice", "3"],
			),
		).toEqual([
			expect.stringContaining('Did you mean "sheet"?'),
			expect.stringContaining("expected a number"),
			expect.stringContaining("true or false"),
			expect.stringContaining("computed"),
		]);
		expect(complaints(["marginMgPerG", ""])).toHaveLength(1);
		expect(complaints(["colour", "red"])[0]).toContain('"marginMgPerG"');
	});

	it("need a cell that is tagged", () => {
		const bare = { ...notebook, cells: notebook.cells.slice(1) };
		const result = withParameters(bare, new Map([["sheet", "a.csv"]]));
		expect(result.ok ? [] : result.problems[0].code).toBe("no-parameters");
		expect(withParameters(bare, new Map())).toEqual({ ok: true, value: bare });
	});
});

describe("with a sheet of one's own", () => {
	it("demo data named by other parameters do not speak for it", () => {
		const source = `let sheet = "../data/demo-run/hazelnut.csv";
let second = "../data/demo-isotherm/bench-scale.csv"; // another
let name = "fired twice";
let margin = 25;`;
		expect(
			demoParameters({
				...notebook,
				cells: [code("settings", source, ["parameters"])],
			}),
		).toEqual(["second"]);
	});
});
