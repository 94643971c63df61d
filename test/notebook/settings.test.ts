import { describe, expect, test } from "vitest";
import { withoutStaleDemo } from "../../kernel-lib/notebook/demo-cells";
import type { Notebook } from "../../kernel-lib/notebook/ipynb";
import { copyOfTemplate } from "../../kernel-lib/notebook/new-notebook";
import { pageHtml } from "../../kernel-lib/notebook/page/index";
import {
	parametersOf,
	parametersTag,
} from "../../kernel-lib/notebook/parameters";
import { withParameters } from "../../kernel-lib/notebook/run/parameters";
import {
	isDemo,
	settingsOf,
	withTemplateDefaults,
} from "../../kernel-lib/notebook/settings";
import { valueOrThrow } from "../../kernel-lib/quantity/index";

function notebookOf(parameters: string): Notebook {
	return {
		nbformat: 4,
		nbformat_minor: 5,
		metadata: {},
		cells: [
			{
				cell_type: "markdown",
				id: "demo",
				metadata: { tags: ["demo-sheet"] },
				source: "These data are **invented**.",
			},
			{
				cell_type: "code",
				id: "settings",
				metadata: { tags: ["parameters"] },
				source: parameters,
				outputs: [],
				execution_count: null,
			},
		],
	};
}

describe("settings of a notebook", () => {
	test("are plain values, or the code that works them out", () => {
		const found = settingsOf(
			notebookOf(
				'let a = -2, b = "x";\nconst c = true;\nlet d = { "5 °C": 5, k: [1, null] };\nlet e = 2 * 3;',
			),
		);
		expect(found.map((s) => (s.is === "value" ? s.value : s))).toEqual([
			-2,
			"x",
			true,
			{ "5 °C": 5, k: [1, null] },
			{ name: "e", setBy: "notebook", is: "computed", code: "2 * 3" },
		]);
	});

	test("tell who set them: the notebook, the template, or the user", () => {
		const by = (notebook: Notebook): string[] =>
			settingsOf(notebook).map((s) => s.setBy);
		const template = notebookOf("let margin = 25;\nlet dose = 1;");
		expect(by(template)).toEqual(["notebook", "notebook"]);
		const copy = withTemplateDefaults(
			template,
			parametersOf(template, parametersTag),
		);
		expect(by(copy)).toEqual(["template", "template"]);
		const set = valueOrThrow(withParameters(copy, new Map([["dose", "1"]])));
		expect(by(set)).toEqual(["template", "user"]);
		const edited = {
			...notebookOf("let margin = 30;\nlet dose = 1;"),
			metadata: copy.metadata,
		};
		expect(by(edited)).toEqual(["user", "template"]);
	});
});

describe("demo data", () => {
	const assets = { plotly: "" };

	test.each([
		['let sheet = "../data/demo-run/hazelnut.csv";', true],
		['let sheet = "data/demo-run/hazelnut.csv";', true],
		['let sheet = "mine.csv"; let other = "data/demo-run/hazelnut.csv";', true],
		['let sheet = "data/demo-run/" + "hazelnut.csv";', true],
		['let sheet = "hazelnut.csv";', false],
		['let sheet = "data/mine.csv";', false],
		['let sheet = "mydata/demo-run/x.csv";', false],
	])("are known by the path in the settings: %s", (parameters, demo) => {
		const notebook = notebookOf(parameters);
		expect(isDemo(notebook)).toBe(demo);
		expect(/invented/i.test(pageHtml(notebook, assets))).toBe(demo);
		expect(withoutStaleDemo(notebook).cells).toHaveLength(demo ? 2 : 1);
	});

	test("are called invented where a notebook has no cell that says so", () => {
		const bare = notebookOf('let sheet = "../data/demo-run/hazelnut.csv";');
		const page = pageHtml({ ...bare, cells: bare.cells.slice(1) }, assets);
		expect(page).toMatch(/<header>[\s\S]*Invented demo data[\s\S]*<\/header>/);
	});
});

describe("a copy of a template", () => {
	const template = notebookOf(
		'let sheet = "../data/demo-run/hazelnut.csv";\nlet other = "../data/demo-dye/dye.csv";\nlet margin = 25;',
	);

	test("keeps the demo data and the cell that calls them invented", () => {
		const copy = copyOfTemplate(template, "");
		expect(copy.cells).toHaveLength(2);
		expect(settingsOf(copy)).toMatchObject([
			{ value: "data/demo-run/hazelnut.csv", setBy: "template" },
			{ value: "data/demo-dye/dye.csv", setBy: "template" },
			{ value: 25, setBy: "template" },
		]);
		expect(pageHtml(copy, { plotly: "" })).toContain("invented");
	});

	test("with a sheet of the user's own has neither", () => {
		const copy = copyOfTemplate(template, "../sheets/mine.csv");
		expect(copy.cells).toHaveLength(1);
		expect(settingsOf(copy)).toMatchObject([
			{ value: "../sheets/mine.csv", setBy: "user" },
			{ value: "", setBy: "template" },
			{ value: 25, setBy: "template" },
		]);
		expect(pageHtml(copy, { plotly: "" })).not.toMatch(/invented/i);
	});
});
