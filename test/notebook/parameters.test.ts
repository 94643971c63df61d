import { describe, expect, it } from "vitest";
import type { CodeCell, Notebook } from "../../kernel-lib/notebook/ipynb";
import { copyOfTemplate } from "../../kernel-lib/notebook/new-notebook";
import {
	withOtherSheet,
	withParameters,
} from "../../kernel-lib/notebook/run/parameters";
import { forOtherSheets, settingsOf } from "../../kernel-lib/notebook/settings";
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
	const source = `let sheet = "../data/demo-run/hazelnut.csv";
let second = "../data/demo-isotherm/bench-scale.csv"; // another
let name = "fired twice";
let heats = [60, 80];
let margin = 25;`;
	const template = {
		...notebook,
		metadata: { charledger: { otherSheet: { name: "", heats: [], gone: 1 } } },
		cells: [code("settings", source, ["parameters"])],
	};

	it("parameters that serve the demo alone do not speak for it", () => {
		expect(forOtherSheets(template)).toEqual({
			second: "",
			name: "",
			heats: [],
		});
		const set = withOtherSheet(template, new Map([["sheet", "mine.csv"]]));
		expect(Object.fromEntries(set)).toEqual({
			sheet: "mine.csv",
			second: "",
			name: "",
			heats: "",
		});
		const run = valueOrThrow(withParameters(template, set));
		expect(settingsOf(run)).toMatchObject([
			{ name: "sheet", value: "mine.csv", setBy: "user" },
			{ name: "second", value: "", setBy: "template" },
			{ name: "name", value: "", setBy: "template" },
			{ name: "heats", value: [], setBy: "template" },
			{ name: "margin", value: 25, setBy: "notebook" },
		]);
	});

	it("but what is set for the run counts, and the demo sheet keeps its own", () => {
		const set = withOtherSheet(
			template,
			new Map([
				["sheet", "mine.csv"],
				["name", "fine"],
			]),
		);
		expect(set.get("name")).toBe("fine");
		const demo = new Map([["sheet", "../data/demo-run/hazelnut.csv"]]);
		expect(withOtherSheet(template, demo)).toEqual(demo);
		expect(withOtherSheet(template, new Map())).toEqual(new Map());
	});

	it("nor in a copy, which remembers what they are for a further sheet", () => {
		const copy = copyOfTemplate(template, "mine.csv");
		expect(copy.cells[0].source).toContain(
			'let second = ""; // another\nlet name = "";\nlet heats = [];\nlet margin = 25;',
		);
		expect(settingsOf(copy).map((s) => s.setBy)).toEqual([
			"user",
			"template",
			"template",
			"template",
			"template",
		]);
		const demo = copyOfTemplate(template, "");
		expect(forOtherSheets(demo)).toEqual({ second: "", name: "", heats: [] });
	});

	it("and lists of numbers are set as such", () => {
		const set = (text: string) =>
			withParameters(template, new Map([["heats", text]]));
		const value = (text: string) =>
			settingsOf(valueOrThrow(set(text))).find((s) => s.name === "heats");
		expect(value("50, 70.5")).toMatchObject({ value: [50, 70.5] });
		expect(value("[50,70]")).toMatchObject({ value: [50, 70] });
		expect(set("50,,70").ok).toBe(false);
		expect(set("warm").ok).toBe(false);
	});
});
