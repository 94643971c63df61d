/** From the numbers of a head to a cell of the sheet in at most three clicks, by plain links, without scripts. */
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openBrowser, ranByUs, templates } from "./workshop";

let browser: Browser;

beforeAll(async () => {
	browser = await openBrowser();
});
afterAll(async () => {
	await browser?.close();
});

async function open(name: string, javaScriptEnabled = false): Promise<Page> {
	const context = await browser.newContext({
		viewport: { width: 1000, height: 900 },
		javaScriptEnabled,
	});
	const page = await context.newPage();
	const file = join(ranByUs(name), name.replace(/\.ipynb$/, ".html"));
	await page.goto(pathToFileURL(file).href);
	return page;
}

/** What the target of a link shows: itself, or of a heading the part that it begins. */
const region = `(id) => {
	const target = document.getElementById(id);
	return target === null ? null : /^H[1-6]$/.test(target.tagName) ? target.closest("section") || target : target;
}`;

/** Links of the head that do not lead to a cell within three clicks, and numbers of its table that are none. */
const strayed = `(() => {
	const region = ${region};
	const isCell = (id) => document.getElementById(id)?.closest("table.sheet") != null || id === "sheets";
	const next = (id) => [...(region(id)?.querySelectorAll('a[href^="#"]') ?? [])].map((a) => a.getAttribute("href").slice(1));
	const reaches = (id, clicks) => isCell(id) || (clicks > 1 && next(id).some((n) => reaches(n, clicks - 1)));
	const head = document.querySelector('.lead section[aria-labelledby="answer"]');
	const links = [...head.querySelectorAll('a[href^="#"]')].map((a) => a.getAttribute("href").slice(1));
	const bare = [...head.querySelectorAll("td.number, .numbers")].filter((n) => /\\d/.test(n.textContent) && n.closest("a") === null && n.querySelector("a") === null);
	return {
		links: links.length,
		lost: [...new Set(links)].filter((id) => !reaches(id, 3)),
		bare: bare.map((n) => n.textContent),
	};
})()`;

describe.each(templates)("the head of %s", (name) => {
	it("leads every number to a cell of a sheet in at most three clicks", async () => {
		const page = await open(name);
		const found = await page.evaluate(strayed);
		expect(found).toEqual({
			links: expect.any(Number),
			lost: [],
			bare: [],
		});
		expect((found as { links: number }).links).toBeGreaterThan(0);
		await page.context().close();
	});
});

describe("the head of compare-treatments", () => {
	it("is followed by clicks and by keyboard to a marked cell, and back", async () => {
		const page = await open("compare-treatments.ipynb");
		await page.locator(".lead .numbers").first().click();
		const difference = page.locator("article.traced:target");
		expect(await difference.isVisible()).toBe(true);
		await difference.locator("tbody a").first().click();
		const flask = page.locator('article.traced[id^="flask-"]:target');
		expect(await flask.isVisible()).toBe(true);
		await flask.locator('a[href^="#cell-"]').first().focus();
		await page.keyboard.press("Enter");
		const look = await page.evaluate(`(() => {
			const cell = document.querySelector("td:target");
			const { top, bottom } = cell.getBoundingClientRect();
			return {
				inSight: top >= 0 && bottom <= window.innerHeight,
				marked: getComputedStyle(cell).backgroundColor,
			};
		})()`);
		expect(look).toEqual({ inSight: true, marked: "rgb(255, 243, 184)" });
		await page.goBack();
		expect(await flask.isVisible()).toBe(true);
		await page.goBack();
		expect(await difference.isVisible()).toBe(true);
		await page.context().close();
	});
});

describe("a figure of compare-treatments", () => {
	it("leads from a point that is pressed to its flask, and from a list for the keyboard", async () => {
		const page = await open("compare-treatments.ipynb", true);
		const figure = page.locator("figure.chart.drawn").first();
		const point = figure.locator(".scatterlayer .point").first();
		await point.scrollIntoViewIfNeeded();
		const box = await point.boundingBox();
		if (box === null) throw new Error("No point is drawn.");
		const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
		await page.mouse.move(x, y);
		await expect
			.poll(() => figure.locator(".hoverlayer text").count())
			.toBeGreaterThan(0);
		await page.mouse.click(x, y);
		await expect.poll(() => page.url()).toMatch(/#flask-/);
		expect(await page.evaluate("document.activeElement.id")).toMatch(/^flask-/);
		const listed = page.locator("figure.chart + details").first();
		await listed.locator("summary").click();
		await listed.locator("a").last().click();
		expect(await page.locator("article.traced:target").isVisible()).toBe(true);
		await page.context().close();
	});
});
