import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { makeEnvironment } from "./environment.mjs";
import {
	errorsOf,
	inSlowFronts,
	openBrowser,
	openWorkshop,
	pictures,
	ranByUs,
	readExecuted,
	resultsIn,
	resultsOf,
	type Workshop,
} from "./workshop";

let workshop: Workshop;
let browser: Browser;
let server: ChildProcess;
let address = "";

function setting(plugin: string, values: object): void {
	const [name, part] = plugin.split(":");
	const folder = join(
		workshop.surroundings.JUPYTERLAB_SETTINGS_DIR ?? "",
		name,
	);
	mkdirSync(folder, { recursive: true });
	writeFileSync(
		join(folder, `${part}.jupyterlab-settings`),
		JSON.stringify(values),
	);
}

/** Starts JupyterLab on a free port; resolves with its address once it answers. */
function startLab(): Promise<string> {
	server = spawn(
		makeEnvironment().binary("jupyter"),
		[
			"lab",
			"--no-browser",
			"--allow-root",
			"--ServerApp.port=0",
			"--ServerApp.ip=127.0.0.1",
			"--IdentityProvider.token=tested",
			`--ServerApp.root_dir=${workshop.folder}`,
		],
		{ env: workshop.surroundings, stdio: ["ignore", "ignore", "pipe"] },
	);
	return new Promise((resolve, reject) => {
		let log = "";
		server.stderr?.on("data", (chunk) => {
			log += String(chunk);
			const port = /http:\/\/127\.0\.0\.1:(\d+)\/lab/.exec(log)?.[1];
			if (port !== undefined) resolve(`http://127.0.0.1:${port}`);
		});
		server.once("exit", () => reject(new Error(log)));
	});
}

beforeAll(async () => {
	workshop = openWorkshop();
	// All cells in the document at once, so that they can be looked at; no questions about news.
	setting("@jupyterlab/notebook-extension:tracker", { windowingMode: "none" });
	setting("@jupyterlab/apputils-extension:notification", {
		fetchNews: "false",
		checkForUpdates: false,
	});
	address = await startLab();
	browser = await openBrowser();
});

afterAll(async () => {
	await browser?.close();
	server?.kill("SIGTERM");
	workshop?.close();
});

/** Width of a picture in its own pixels; 0 where it could not be drawn. */
function naturalWidth(image: Locator): Promise<number> {
	return image.evaluate(
		(element) =>
			(element as unknown as { readonly naturalWidth: number }).naturalWidth,
	);
}

async function openLab(path: string): Promise<Page> {
	const page = await browser.newPage({
		viewport: { width: 1400, height: 1000 },
	});
	await page.goto(`${address}/lab/${path}?token=tested&reset`);
	await page.waitForSelector("#jp-main-dock-panel");
	return page;
}

describe("JupyterLab", () => {
	it("offers the kernel with its picture", async () => {
		const page = await openLab("");
		const card = page.locator('.jp-LauncherCard[title="Charledger"]').first();
		await card.waitFor();
		const picture = card.locator("img");
		await expect.poll(() => naturalWidth(picture)).toBeGreaterThan(0);
		await page.screenshot({ path: join(pictures, "lab-launcher.png") });
		await page.close();
	});
});

describe.each(inSlowFronts)("JupyterLab runs %s", (template) => {
	it("without an error, shows what our runner found, and saves the same results", async () => {
		const expected = resultsIn(join(ranByUs(template), "results.json"));
		const page = await openLab(`tree/notebooks/${template}`);
		await page.waitForSelector(".jp-Notebook .jp-CodeCell");
		// Asked to run before it has its kernel, JupyterLab would ask which one: wait as a person does.
		await page.waitForSelector(
			'#jp-main-statusbar >> text="Charledger | Idle"',
		);
		await page.click('.lm-MenuBar-item:has-text("Run")');
		await page.click('[data-command="runmenu:run-all"]');
		const prompts = page.locator(".jp-CodeCell .jp-InputArea-prompt");
		await expect
			.poll(
				async () =>
					(await prompts.allTextContents()).filter(
						(text) => !/\[\d+\]/.test(text),
					).length,
				{ timeout: 240_000, interval: 500 },
			)
			.toBe(0);
		await page.keyboard.press("Control+s");
		const saved = join(workshop.folder, "notebooks", template);
		await expect
			.poll(() => resultsOf(readExecuted(saved)), { timeout: 60_000 })
			.toEqual(expected);
		expect(errorsOf(readExecuted(saved))).toBe("");
		expect(
			await page
				.locator('[data-mime-type="application/vnd.jupyter.error"]')
				.count(),
		).toBe(0);
		const text = await page.locator(".jp-Notebook").textContent();
		for (const { content } of expected.results)
			if (content.kind === "comparison")
				for (const { sentence } of content.verdicts)
					expect(text).toContain(sentence);
		// Every figure that the notebook holds is a picture that was drawn.
		const images = page.locator(".jp-OutputArea-output img");
		for (const image of await images.all())
			expect(await naturalWidth(image)).toBeGreaterThan(0);
		const last = page.locator(".jp-Cell").last();
		await last.scrollIntoViewIfNeeded();
		await page.screenshot({ path: join(pictures, `lab-${template}-end.png`) });
		await page
			.locator(".jp-OutputArea-output img")
			.last()
			.scrollIntoViewIfNeeded()
			.catch(() => {});
		await page.screenshot({
			path: join(pictures, `lab-${template}-figure.png`),
		});
		await page.close();
	});
});
