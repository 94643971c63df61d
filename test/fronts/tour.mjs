// @ts-check
/**
 * Pictures of every template's page, for whoever changes how pages look: `npm run tour`, or `npm run tour -- FOLDER NAME ...` for another folder than results/tour and for some of the templates. Of each page its head, and the
 * whole of it in parts, at three widths, light and dark, and as it is printed. CHROMIUM names the browser.
 */
import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const root = fileURLToPath(new URL("../..", import.meta.url));
const [given = join(root, "results", "tour"), ...wanted] =
	process.argv.slice(2);
const folder = resolve(given);
const names = readdirSync(join(root, "notebooks"))
	.filter((file) => file.endsWith(".ipynb"))
	.map((file) => basename(file, ".ipynb"))
	.filter((name) => wanted.length === 0 || wanted.includes(name));
if (names.length === 0) throw new Error(`No such template: ${wanted}.`);

/** @type {("light" | "dark")[]} */
const schemes = ["light", "dark"];
const looks = [
	...[1000, 768, 375].flatMap((width) =>
		schemes.map((scheme) => ({
			name: `${width}-${scheme}`,
			width,
			height: 900,
			scheme,
			media: /** @type {const} */ ("screen"),
		})),
	),
	// A4 less its margins, at 96 pixels an inch.
	{
		name: "paper",
		width: 680,
		height: 1000,
		scheme: schemes[0],
		media: /** @type {const} */ ("print"),
	},
];

/** Taller pictures are cut, for browsers draw no taller ones. */
const tallest = 6000;

/** @param {string} name */
function pageOf(name) {
	const out = join(folder, "runs", name);
	const { status, stderr } = spawnSync(
		process.execPath,
		[
			join(root, "kernel-lib", "dist", "cli.js"),
			"run",
			join(root, "notebooks", `${name}.ipynb`),
			"--out",
			out,
		],
		{ encoding: "utf8" },
	);
	if (status !== 0) throw new Error(`${name} did not run: ${stderr}`);
	return pathToFileURL(join(out, `${name}.html`)).href;
}

const browser = await chromium.launch({
	executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
	args: ["--no-sandbox"],
});
for (const name of names) {
	const address = pageOf(name);
	mkdirSync(join(folder, name), { recursive: true });
	for (const { name: look, width, height, scheme, media } of looks) {
		const page = await browser.newPage({
			viewport: { width, height },
			colorScheme: scheme,
		});
		await page.emulateMedia({ media });
		await page.goto(address);
		await page.waitForTimeout(1000);
		/** @param {string} part @param {number} y @param {number} tall */
		const shoot = (part, y, tall) =>
			page.screenshot({
				path: join(folder, name, `${look}-${part}.png`),
				fullPage: true,
				clip: { x: 0, y, width, height: tall },
			});
		const lead = (await page.locator(".lead").boundingBox()) ?? {
			y: 0,
			height,
		};
		await shoot("head", 0, Math.min(tallest, lead.y + lead.height));
		const whole = Number(
			await page.evaluate("document.documentElement.scrollHeight"),
		);
		for (let part = 0; part * tallest < whole; part++)
			await shoot(
				`part-${part + 1}`,
				part * tallest,
				Math.min(tallest, whole - part * tallest),
			);
		await page.close();
	}
	console.log(`${name}: ${join(folder, name)}`);
}
await browser.close();
