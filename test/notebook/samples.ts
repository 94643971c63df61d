/** Notebooks for tests, as a kernel would have left them. All numbers and names are invented. */
import { readTrial } from "../../kernel-lib/bench/index";
import type { Comparison } from "../../kernel-lib/compare/index";
import { type Figure, figure } from "../../kernel-lib/figures/index";
import { isAnswer } from "../../kernel-lib/notebook/answer";
import { bundleOf } from "../../kernel-lib/notebook/display";
import type { Cell, Notebook } from "../../kernel-lib/notebook/ipynb";
import { reportBundle } from "../../kernel-lib/notebook/report";
import { resultMimeType } from "../../kernel-lib/notebook/reported";
import { type Reportable, resultOf } from "../../kernel-lib/notebook/result";
import { versionsHere } from "../../kernel-lib/notebook/versions";
import {
	exact,
	input,
	named,
	normal,
	per,
	type Quantity,
	table,
} from "../../kernel-lib/quantity/index";

/** Names that would do harm if anything took them for markup, a formula or code. */
export const hostile = {
	image: "<img src=x onerror=\"window.harmed='image'\">",
	script: "</script><script>window.harmed='script'</script>",
	formula: '=HYPERLINK("javascript:window.harmed=1","press")',
	// biome-ignore lint/suspicious/noTemplateCurlyInString: the point is that nobody takes it for one
	quote: "\"'`${window.harmed='quote'}<b>",
} as const;

export function massOf(value: number, symbol: string): Quantity<"mass"> {
	return input("mass", value, "g", normal(0.001), {
		symbol,
		meaning: hostile.image,
		source: {
			is: "cell",
			file: hostile.formula,
			hash: "0123456789abcdef",
			sheet: hostile.script,
			row: 3,
			column: "char mass (g)",
		},
	});
}

export function ratioOfMasses(): Quantity<"ratio"> {
	return named(
		per(massOf(1.02, "m_1"), massOf(0.98, "m_2")),
		"r",
		"ratio of masses",
	);
}

export function comparison(): Comparison {
	const verdict = {
		control: "water",
		obstacles: [],
		audited: [],
		residues: { is: "unknown" },
		units: { treated: 3, control: 3 },
		otherwise: "higher",
		soakAllowance: { low: 0, high: 0, complete: true, steps: [] },
		reckoned: { is: "nothing" },
		working: table("", [], []),
		margin: { is: "value", value: 25 },
		ground: {
			claim: "difference",
			judged: [],
			provable: "any",
			forbidden: [],
		},
		exceedsMargin: false,
		withoutDeviations: "higher",
		withDeviations: "cannot tell",
	} as const;
	return {
		trial: readTrial("data/demo-run/small-trial.csv"),
		flasks: [],
		compared: [],
		deviations: { flasks: ["7"], happened: [hostile.image], elsewhere: [] },
		probe: "iodine",
		confidence: 0.95,
		at: {
			is: "carried",
			residue: input("massConcentration", 2500, "mg/L", exact, {}),
			statedBy: "the experimenter",
			slopes: new Map(),
			flasks: [],
		},
		margin: {
			is: "uptake",
			uptake: input("uptake", 25, "mg/g", normal(0), { symbol: "margin" }),
		},
		claim: "difference",
		sameness: "one-sided tests",
		scope: "treatment",
		groups: [
			{
				treatment: "water",
				units: 3,
				flasks: 4,
				boundFlasks: [],
				mean: 601.2,
				low: 580,
				high: 622,
				residue: 410,
				left: 410,
				is: "value",
			},
			{
				treatment: hostile.image,
				units: 3,
				flasks: 3,
				boundFlasks: [],
				mean: 702.4,
				low: 680,
				high: 724,
				residue: 300,
				left: 300,
				is: "value",
			},
			{
				treatment: hostile.formula,
				units: 1,
				flasks: 1,
				boundFlasks: ["7"],
				mean: 811,
				low: 811,
				high: 811,
				residue: 0,
				left: 0,
				is: "at least",
			},
		],
		decisions: [],
		verdicts: [
			{
				...verdict,
				treatment: hostile.image,
				word: "higher",
				numbersSay: "higher",
				difference: {
					is: "estimate",
					estimate: 101.2,
					standardError: 15.2,
					low: 60.1,
					high: 142.3,
					oneSided: { low: 72.4, high: 130 },
					degreesOfFreedom: 7,
					adjustedP: 0.0004,
				},
				replicates: { is: "enough" },
			},
			{
				...verdict,
				treatment: hostile.formula,
				word: "cannot tell",
				numbersSay: "cannot tell",
				difference: {
					is: "at least",
					limit: 180,
					flasks: ["7"],
					without: { low: 180, high: 260 },
					atLimit: { low: 180, high: 260 },
				},
				replicates: {
					is: "at least",
					units: 5,
					from: { is: "spread between units", spread: 12, slopes: 0 },
				},
			},
		],
		method: {
			is: "carried",
			unit: "soak",
			units: new Map(),
			days: ["Monday", hostile.image],
			spread: {
				deviation: 11,
				degreesOfFreedom: 7,
				fromReadings: false,
				groups: new Map(),
			},
			simultaneous: {
				pairs: [],
				degreesOfFreedom: [7],
				criticalValues: [2.6],
				are: "computed",
			},
		},
		degreesOfFreedom: 7,
		pooledDeviation: 22.1,
	};
}

export function hostileFigure(): Figure {
	return figure({
		title: hostile.image,
		alt: `Uptake of ${hostile.script} and ${hostile.quote}`,
		x: {
			label: "treatment",
			unit: "",
			scale: { is: "categories", names: [hostile.image, hostile.script] },
		},
		y: { label: "uptake", unit: "mg/g", scale: { is: "linear" } },
		layers: [
			{
				is: "points",
				name: hostile.quote,
				ink: "blue",
				shape: "circle",
				points: [
					{ x: 0, y: 600, hover: hostile.image },
					{ x: 1, y: 700, hover: hostile.script },
				],
			},
		],
		notes: [hostile.image],
	});
}

function reported(name: string, value: Reportable): Record<string, unknown> {
	if (isAnswer(value)) return reportBundle(name, value, hostile.quote);
	const own =
		typeof value === "object" && !Array.isArray(value) && !("verdicts" in value)
			? (bundleOf(value) as Record<string, unknown>)
			: { "text/plain": name };
	return { ...own, [resultMimeType]: resultOf(name, value, hostile.quote) };
}

function code(
	id: string,
	source: string,
	...bundles: Record<string, unknown>[]
): Cell {
	return {
		cell_type: "code",
		id,
		metadata: {},
		source,
		execution_count: 1,
		outputs: bundles.map((data) => ({
			output_type: "display_data",
			data,
			metadata: {},
		})),
	};
}

/** An executed notebook that reports these, by name. */
export function notebookReporting(
	...results: readonly (readonly [string, unknown])[]
): Notebook {
	return {
		nbformat: 4,
		nbformat_minor: 5,
		metadata: {},
		cells: [
			code(
				"results",
				"report(...)",
				...results.map(([name, content]) => reported(name, content as never)),
			),
		],
	};
}

/** An executed notebook in which every name is hostile and every kind of result is reported. */
export function hostileNotebook(): Notebook {
	const names = table(
		hostile.script,
		["name", hostile.formula],
		[
			[hostile.image, massOf(1, "m")],
			[hostile.script, 2],
		],
		[hostile.quote],
	);
	return {
		nbformat: 4,
		nbformat_minor: 5,
		metadata: {},
		cells: [
			{
				cell_type: "markdown",
				id: "title",
				metadata: {},
				source: `# A trial with ${hostile.image}\n\nInvented. ${hostile.script} and [a link](javascript:window.harmed=1).`,
			},
			{
				cell_type: "markdown",
				id: "heading",
				metadata: {},
				source: `## ${hostile.image}\n\nWith $q = \\frac{n M}{m}$ and\n\n$$\\mathrm{I_2} + 2\\,\\mathrm{S_2O_3^{2-}} \\to 2\\,\\mathrm{I^-}$$\n\n| a | b |\n|---|---|\n| 1 | ${hostile.image} |`,
			},
			code("names", `const name = \`${hostile.script}\`;`, {
				...(bundleOf(names) as Record<string, unknown>),
				"text/html": hostile.image + hostile.script,
			}),
			code(
				"results",
				"report(...)",
				reported("verdict", comparison()),
				reported("not concluded", [hostile.image, "Nothing else."]),
				reported("cautions", ["Wear goggles."]),
				reported("ratio", ratioOfMasses()),
				reported("names", names),
				reported("figure", hostileFigure()),
				reported(hostile.formula, hostile.script),
			),
			code("html-only", "tslab.display.html(...)", {
				"text/html": hostile.script,
			}),
			code("attached", "attachSheet(sheet)", {
				"application/vnd.charledger.input+json": {
					formatVersion: 2,
					versions: versionsHere(),
					file: hostile.image,
					hash: "0123456789abcdef",
					bytes: 3,
					base64: "YWJj",
				},
				"text/plain": hostile.image,
			}),
		],
	};
}
