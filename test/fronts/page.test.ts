import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import AxeBuilder from "@axe-core/playwright";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
	installedAssets,
	pageHtml,
} from "../../kernel-lib/notebook/page/index";
import { hostileNotebook } from "../notebook/samples";
import {
	inSlowFronts,
	openBrowser,
	openWorkshop,
	pictures,
	ranByUs,
	templates,
	type Workshop,
} from "./workshop";

const hostile = "hostile.ipynb";
let browser: Browser;
let workshop: Workshop;

beforeAll(async () => {
	browser = await openBrowser();
	workshop = openWorkshop();
});
afterAll(async () => {
	await browser?.close();
	workshop?.close();
});

function pageFile(name: string): string {
	if (name !== hostile)
		return join(ranByUs(name), name.replace(/\.ipynb$/, ".html"));
	const file = join(workshop.folder, "hostile.html");
	writeFileSync(file, pageHtml(hostileNotebook(), installedAssets()));
	return file;
}

interface Opened {
	readonly page: Page;
	/** What the browser complained about. */
	readonly complaints: string[];
	/** Addresses that were asked for, the page's own file aside. */
	readonly requests: string[];
}

async function open(
	name: string,
	options: BrowserContextOptions = {},
): Promise<Opened> {
	const context = await browser.newContext({
		viewport: { width: 1200, height: 900 },
		...options,
	});
	const page = await context.newPage();
	const complaints: string[] = [];
	const requests: string[] = [];
	page.on("console", (m) => {
		if (m.type() !== "log") complaints.push(m.text());
	});
	page.on("pageerror", (error) => complaints.push(error.message));
	const address = pathToFileURL(pageFile(name)).href;
	page.on("request", (r) => {
		if (r.url() !== address && !r.url().startsWith("data:"))
			requests.push(r.url());
	});
	await page.goto(address);
	return { page, complaints, requests };
}

/** On a phone nothing is drawn: the still pictures stay. */
async function figuresDrawn(page: Page): Promise<void> {
	const wide = (page.viewportSize()?.width ?? 0) >= 600;
	await expect
		.poll(() => page.locator("figure.chart:not(.drawn)").count())
		.toBe(wide ? 0 : await page.locator("figure.chart").count());
}

async function looksRight(
	name: string,
	look: string,
	options: BrowserContextOptions,
	rules: "all" | string[],
): Promise<void> {
	const { page } = await open(name, options);
	await figuresDrawn(page);
	await page.screenshot({ path: join(pictures, `page-${name}-${look}.png`) });
	const beside = await page.evaluate(
		"document.documentElement.scrollWidth - innerWidth",
	);
	expect(beside).toBeLessThanOrEqual(0);
	const axe = new AxeBuilder({ page });
	const { violations } = await (rules === "all"
		? axe
		: axe.withRules(rules)
	).analyze();
	expect(
		violations.map((v) => `${v.id}: ${v.nodes[0].html.slice(0, 200)}`),
	).toEqual([]);
	await page.context().close();
}

describe.each([...templates, hostile])("the page of %s", (name) => {
	it("draws its figures, runs no foreign script, asks for nothing", async () => {
		const { page, complaints, requests } = await open(name);
		await figuresDrawn(page);
		await expect
			.poll(() => page.locator("figure.chart .still:visible").count())
			.toBe(0);
		expect(await page.evaluate("window.harmed")).toBeUndefined();
		expect(complaints).toEqual([]);
		expect(requests).toEqual([]);
		await page.context().close();
	});

	it("is whole without scripts", async () => {
		const { page } = await open(name, { javaScriptEnabled: false });
		const images = page.locator("figure.chart img");
		for (let i = 0; i < (await images.count()); i++) {
			expect(await images.nth(i).isVisible()).toBe(true);
			expect(await images.nth(i).getAttribute("alt")).not.toBe("");
		}
		await page.screenshot({
			path: join(pictures, `page-${name}-no-script.png`),
		});
		await page.context().close();
	});

	it("has no fault that axe can find, and nothing beside the screen", async () => {
		await looksRight(name, "light", { colorScheme: "light" }, "all");
	});

	it("is small enough to be sent by mail", () => {
		expect(readFileSync(pageFile(name)).length).toBeLessThan(6_000_000);
	});
});

describe.each([...inSlowFronts, hostile])(
	"the page of %s elsewhere",
	(name) => {
		// Those rules alone that another look can break, for axe takes ten seconds a page.
		it.each([
			["dark", { colorScheme: "dark" }, ["color-contrast"]],
			[
				"phone",
				{ viewport: { width: 375, height: 800 } },
				["target-size", "scrollable-region-focusable"],
			],
			["wall", { viewport: { width: 2560, height: 1400 } }, ["target-size"]],
		] as [string, BrowserContextOptions, string[]][])(
			"has no fault that axe can find, and nothing beside the screen: %s",
			(look, options, rules) => looksRight(name, look, options, rules),
		);

		it("prints on A4 and on Letter with its still figures", async () => {
			const { page } = await open(name);
			await figuresDrawn(page);
			for (const format of ["A4", "Letter"]) {
				const pdf = await page.pdf({ format });
				writeFileSync(join(pictures, `page-${name}-${format}.pdf`), pdf);
				expect(pdf.length).toBeGreaterThan(10_000);
			}
			await page.emulateMedia({ media: "print" });
			expect(await page.locator(".live:visible").count()).toBe(0);
			expect(await page.locator(".still:visible").count()).toBe(
				await page.locator("figure.chart, figure.shown").count(),
			);
			await page.context().close();
		});
	},
);

describe("hostile names in the browser", () => {
	it("are text where a reader meets them", async () => {
		const { page } = await open(hostile);
		expect(await page.locator("main img[src='x']").count()).toBe(0);
		await expect(page.locator("h1").textContent()).resolves.toContain(
			"<img src=x",
		);
		// The download keeps its name as a name.
		expect(
			await page.locator("a[download]").first().getAttribute("download"),
		).toContain("<img src=x");
		await page.context().close();
	});
});

describe("a margin of the reader's own", () => {
	const name = "compare-treatments.ipynb";

	it("is answered on the page, by keyboard alone, with the words of the verdict at the verdict's margin", async () => {
		const { page, complaints, requests } = await open(name);
		const input = page.getByLabel("The words at a margin of your own");
		await input.focus();
		const answers = page.locator(".ask li");
		await page.keyboard.type("25");
		const told = await page
			.locator(".lead .verdicts tr.row")
			.evaluateAll((rows) =>
				rows.map((r) => [
					r.querySelector("th")?.firstChild?.textContent,
					r.querySelector("strong")?.lastChild?.textContent?.trim(),
				]),
			);
		expect(told.length).toBeGreaterThan(3);
		const words = (await answers.allTextContents()).map((t) =>
			t.replace(/ \(.*\)$/, ""),
		);
		expect(words).toEqual(
			told.map(([treatment, word]) => `${treatment}: ${word}`),
		);
		await input.fill("much");
		expect(await answers.allTextContents()).toEqual([
			"Write a number above 0 in mg/g, such as 15 or 2.5.",
		]);
		await input.fill("");
		expect(await answers.count()).toBe(0);
		expect(complaints).toEqual([]);
		expect(requests).toEqual([]);
		await page.emulateMedia({ media: "print" });
		expect(await input.isVisible()).toBe(false);
		await page.context().close();
	});

	it("is not asked for without scripts", async () => {
		const { page } = await open(name, { javaScriptEnabled: false });
		expect(await page.locator(".ask").isVisible()).toBe(false);
		await page.context().close();
	});
});
