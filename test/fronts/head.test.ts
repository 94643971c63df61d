/** The head of every page in a browser: its order, and that it is seen at once. */
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openBrowser, pictures, ranByUs, templates } from "./workshop";

let browser: Browser;
let page: Page;

beforeAll(async () => {
	browser = await openBrowser();
	page = await browser.newPage({ viewport: { width: 1000, height: 900 } });
});
afterAll(() => browser?.close());

/** The parts of a head, in order; not every notebook has all of them. */
const parts = [
	".stamp",
	"h1#answer",
	// What shows the answer: a figure, rows of verdicts, a table or sentences.
	".lead section[aria-labelledby=answer]",
	"#not-concluded",
	"#next",
	"#cautions",
];

/** Top and bottom of the first of such parts; null where there is none. */
async function placeOf(part: string): Promise<[number, number] | null> {
	const first = page.locator(part).first();
	if ((await first.count()) === 0) return null;
	const box = await first.boundingBox();
	return box === null ? null : [box.y, box.y + box.height];
}

describe.each(templates)("the head of %s", (template) => {
	it("has its parts in order, on one screen of 1000 x 900", async () => {
		const file = template.replace(/\.ipynb$/, ".html");
		await page.goto(pathToFileURL(join(ranByUs(template), file)).href);
		await page.screenshot({ path: join(pictures, `head-${template}.png`) });
		const places = await Promise.all(parts.map(placeOf));
		for (const needed of [0, 1, 2, 3]) expect(places[needed]).not.toBeNull();
		const tops = places.flatMap((place) => (place === null ? [] : place[0]));
		expect(tops).toEqual([...tops].sort((a, b) => a - b));
		const bottoms = places.flatMap((p) => (p === null ? [] : p[1]));
		expect(Math.max(...bottoms)).toBeLessThanOrEqual(900);
	});

	it("has the finding as its only title, and the notebook's own in the browser's", async () => {
		expect(await page.locator("h1").count()).toBe(1);
		const finding = await page.locator("h1").textContent();
		const own = await page.locator(".own").textContent();
		expect(finding).not.toBe(own);
		expect(await page.title()).toBe(`${finding} – ${own}`);
	});
});
