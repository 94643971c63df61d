// @ts-check
/**
 * Measures large trials: `npm run test:large` (1,000 flasks), `npm run test:large -- 1000 10000`. Runs `compare-treatments` on an invented sheet, opens its page in Chromium, prints a line for each, and fails where a limit is
 * broken. Memory is that of the larger of the two processes, runner and kernel, at its highest (Linux). CHROMIUM names the browser.
 */
import { spawn } from "node:child_process";
import {
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	statSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { writeLargeSheet } from "./sheet.mjs";

const root = fileURLToPath(new URL("../..", import.meta.url));
const megabyte = 1_000_000;

/** Limits by the number of flasks: MB of the page, seconds until it stands, MB of memory. That of 10,000 flasks is aimed at and was not yet held. */
const limits = new Map([
	[1000, { page: 6, seconds: 3, memory: Number.POSITIVE_INFINITY }],
	[10000, { page: 8, seconds: 3, memory: 600 }],
]);

/** Highest memory of a process and those that it started, MB; 0 where the system does not tell. @param {number} pid @returns {number} */
function highestMemory(pid) {
	try {
		const own = /VmHWM:\s+(\d+)/.exec(
			readFileSync(`/proc/${pid}/status`, "utf8"),
		);
		const children = readFileSync(
			`/proc/${pid}/task/${pid}/children`,
			"utf8",
		).trim();
		return Math.max(
			own === null ? 0 : (Number(own[1]) * 1024) / megabyte,
			...(children === "" ? [] : children.split(" ")).map((child) =>
				highestMemory(Number(child)),
			),
		);
	} catch {
		return 0;
	}
}

/** @param {string} sheet @param {string} out @returns {Promise<{ seconds: number, memory: number }>} */
function run(sheet, out) {
	const began = performance.now();
	const child = spawn(
		process.execPath,
		[
			"kernel-lib/dist/cli.js",
			...["run", "notebooks/compare-treatments.ipynb", "--sheet", sheet],
			...["--set", "marginMgPerG=25", "--out", out, "--timeout", "3600"],
		],
		{ cwd: root, stdio: ["ignore", "ignore", "inherit"] },
	);
	let memory = 0;
	const watch = setInterval(() => {
		memory = Math.max(memory, highestMemory(child.pid ?? 0));
	}, 100);
	return new Promise((resolve, reject) => {
		child.once("close", (code) => {
			clearInterval(watch);
			if (code !== 0) reject(new Error(`The run ended with ${code}.`));
			else resolve({ seconds: (performance.now() - began) / 1000, memory });
		});
	});
}

/** Seconds until the page stands with its figures drawn, the least of three. @param {string} page */
async function opening(page) {
	const browser = await chromium.launch({
		executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
		args: ["--no-sandbox"],
	});
	const times = [];
	for (let i = 0; i < 3; i++) {
		const tab = await browser.newPage();
		const began = performance.now();
		await tab.goto(pathToFileURL(page).href, { waitUntil: "load" });
		await tab.waitForFunction(
			() => document.querySelectorAll("figure.chart:not(.drawn)").length === 0,
		);
		times.push((performance.now() - began) / 1000);
		await tab.close();
	}
	await browser.close();
	return Math.min(...times);
}

/** @param {number} flasks */
async function measure(flasks) {
	const folder = mkdtempSync(join(tmpdir(), "charledger-large-"));
	try {
		const out = join(folder, "results");
		const { seconds, memory } = await run(writeLargeSheet(flasks, folder), out);
		const page = join(out, "compare-treatments.html");
		const size = statSync(page).size / megabyte;
		const opens = await opening(page);
		const notebook =
			statSync(join(out, "compare-treatments.ipynb")).size / megabyte;
		console.log(
			`${flasks} flasks: page ${size.toFixed(2)} MB, opens in ${opens.toFixed(1)} s; notebook ${notebook.toFixed(1)} MB; run ${seconds.toFixed(0)} s; memory ${memory.toFixed(0)} MB; files ${readdirSync(out).length}`,
		);
		const limit = limits.get(flasks);
		return (
			limit === undefined ||
			(size < limit.page && opens < limit.seconds && memory < limit.memory)
		);
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
}

const asked = process.argv.slice(2).map(Number);
for (const flasks of asked.length > 0 ? asked : [1000])
	if (!(await measure(flasks))) {
		console.error(`${flasks} flasks: a limit is broken.`);
		process.exitCode = 1;
	}
