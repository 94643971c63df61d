/** A comparison at another confidence than the usual one: nothing that is shown of it may state the usual one. */
import { expect, test } from "vitest";
import { bench, compare, figures, words } from "../../kernel-lib/index";
import { bundleOf } from "../../kernel-lib/notebook/display";
import type { Cell, Notebook } from "../../kernel-lib/notebook/ipynb";
import { pageHtml } from "../../kernel-lib/notebook/page/index";
import { resultMimeType } from "../../kernel-lib/notebook/reported";
import { type Reportable, resultOf } from "../../kernel-lib/notebook/result";
import { hostileNotebook } from "./samples";

const pathOf = (name: string): string =>
	new URL(`../../data/${name}`, import.meta.url).pathname;
const usual = /95[\s\u00a0\u202f]*(?:%|per ?cent)|\b0\.95\b/;

function shownAt(sheet: string, margin: number, confidence: number) {
	const trial = bench.readTrial(pathOf(sheet));
	const options = { margin: compare.marginOf(margin), confidence };
	const comparison = compare.compareTreatments(trial, options);
	return new Map<string, Reportable>([
		["verdict", comparison],
		["comparison", words.comparisonTable(comparison)],
		["method", words.methodTable(comparison)],
		["second opinion", compare.secondOpinionTable(comparison)],
		["differences", figures.differences(comparison)],
		["flasks", figures.flasksAgainstControl(comparison)],
		["next steps", words.nextSteps(comparison)],
	]);
}

function pageOf(shown: ReadonlyMap<string, Reportable>): string {
	const frame: Notebook = hostileNotebook();
	const cells = [...shown].map(
		([name, value], i): Cell => ({
			cell_type: "code",
			id: `c${i}`,
			metadata: {},
			source: "",
			execution_count: i + 1,
			outputs: [
				{
					output_type: "display_data",
					metadata: {},
					data: {
						...(Array.isArray(value)
							? {}
							: (bundleOf(value) as Record<string, unknown>)),
						[resultMimeType]: resultOf(name, value, ""),
					},
				},
			],
		}),
	);
	// without the scripts of the page, which hold numbers of their own
	return pageHtml({ ...frame, cells }, { plotly: "" })
		.replace(/<style[\s\S]*?<\/style>/g, "")
		.replace(/<script(?![^>]*json)[\s\S]*?<\/script>/g, "");
}

test.each([
	["demo-run/hazelnut.csv", 25],
	["demo-dye/dye-doses.csv", 4],
] as const)("%s at 90 %", (sheet, margin) => {
	const page = pageOf(shownAt(sheet, margin, 0.9));
	expect(page).toContain("90 %");
	// with what stands around it, to be found again
	expect(
		[...page.matchAll(new RegExp(usual, "g"))].map(({ index }) =>
			page.slice(index - 80, index + 20),
		),
	).toEqual([]);
	// the same words do state the usual one where it is asked for
	expect(pageOf(shownAt(sheet, margin, 0.95))).toMatch(usual);
});
