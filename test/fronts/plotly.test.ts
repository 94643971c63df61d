import { createRequire } from "node:module";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { plotlyFigure } from "../../kernel-lib/figures/index";
import { sampleFigures } from "../figures/samples";
import { openBrowser } from "./workshop";

/** The full build: the only one that carries the schema which every key and value of a figure is checked against. */
const fullBuild = createRequire(import.meta.url).resolve(
	"plotly.js-dist/plotly.js",
);

interface Complaint {
	readonly code: string;
	readonly msg: string;
}

let browser: Browser;
/** The library takes seconds to load: once for all figures. */
let page: Page;
beforeAll(async () => {
	browser = await openBrowser();
	page = await browser.newPage();
	await page.addScriptTag({ path: fullBuild });
});
afterAll(async () => {
	await browser?.close();
});

describe("every sample figure, by the schema of the full Plotly build", () => {
	it.each([...sampleFigures()])("%s", async (_name, description) => {
		for (const theme of ["light", "dark"] as const) {
			const { data, layout } = plotlyFigure(description, theme);
			const complaints = await page.evaluate(
				([d, l]) =>
					(
						globalThis as unknown as {
							Plotly: {
								validate(data: unknown, layout: unknown): Complaint[];
							};
						}
					).Plotly.validate(d, l) ?? [],
				[data, layout] as const,
			);
			expect(complaints.map((c) => `${c.code}: ${c.msg}`)).toEqual([]);
		}
	});
});
