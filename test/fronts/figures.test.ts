/** Every figure of every template, measured where a reader sees it: on a phone, on a screen, on paper. */
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
	cutTexts,
	ownWidth,
	textsOutsidePictures,
	wrongTextsOfLiveFigures,
} from "./in-page.mjs";
import { printedSizes } from "./printed";
import { openBrowser, ranByUs, templates } from "./workshop";

let browser: Browser;
beforeAll(async () => {
	browser = await openBrowser();
});
afterAll(async () => {
	await browser?.close();
});

async function open(
	name: string,
	options: BrowserContextOptions,
): Promise<Page> {
	const page = await (await browser.newContext(options)).newPage();
	const file = join(ranByUs(name), name.replace(/\.ipynb$/, ".html"));
	await page.goto(pathToFileURL(file).href);
	return page;
}

describe.each(templates)("the page of %s", (name) => {
	it("shows its still figures on a phone, and no text of it is cut", async () => {
		const page = await open(name, { viewport: { width: 375, height: 800 } });
		expect(await page.locator(".js-plotly-plot").count()).toBe(0);
		const figures = page.locator("figure.chart img");
		for (let i = 0; i < (await figures.count()); i++) {
			expect(await figures.nth(i).isVisible()).toBe(true);
			// The one that is laid out for a phone.
			expect(await figures.nth(i).evaluate(ownWidth)).toBe(360);
		}
		expect(await page.evaluate(textsOutsidePictures)).toEqual([]);
		expect(await page.evaluate(cutTexts)).toEqual([]);
		expect(
			await page.evaluate("document.documentElement.scrollWidth"),
		).toBeLessThanOrEqual(375);
		await page.context().close();
	});

	it.each([620, 1000, 2560])(
		"has every text of its interactive figures whole and alone at %d px",
		async (width) => {
			const page = await open(name, { viewport: { width, height: 900 } });
			await expect
				.poll(() => page.locator("figure.chart:not(.drawn)").count())
				.toBe(0);
			expect(await page.evaluate(wrongTextsOfLiveFigures)).toEqual([]);
			await page.context().close();
		},
	);

	it("prints at 10.5 points on A4 and on Letter, whatever it holds", async () => {
		const page = await open(name, { viewport: { width: 1000, height: 900 } });
		for (const format of ["A4", "Letter"]) {
			const sizes = printedSizes(await page.pdf({ format, tagged: true }));
			// A page that is wider than the paper is made smaller as a whole, its text with it.
			expect(sizes.get(10.5) ?? 0, format).toBeGreaterThan(500);
			const readable = [...sizes].filter(([points]) => points < 5.5);
			expect(readable, format).toEqual([]);
		}
		await page.context().close();
	});
});
