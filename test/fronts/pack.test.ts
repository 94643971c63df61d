import { spawnSync } from "node:child_process";
import {
	existsSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	statSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { root } from "./environment.mjs";
import { errorsOf, ranByUs, readExecuted, resultsIn } from "./workshop";

/** A folder of somebody who has only Node, and installs the package. */
let folder = "";
const charledger = (): string =>
	join(folder, "node_modules", ".bin", "charledger");

function run(
	program: string,
	words: readonly string[],
	from = folder,
): { status: number | null; out: string; err: string } {
	const done = spawnSync(program, words, { cwd: from, encoding: "utf8" });
	return { status: done.status, out: done.stdout, err: done.stderr };
}

function must(
	program: string,
	words: readonly string[],
	from = folder,
): string {
	const { status, out, err } = run(program, words, from);
	expect(status, `${err}\n${out}`).toBe(0);
	return out;
}

beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), "charledger-pack-"));
	// The command has just built; packing must not build again beneath the other tests.
	must("npm", ["pack", "--ignore-scripts", "--pack-destination", folder], root);
	const [archive] = readdirSync(folder).filter((f) => f.endsWith(".tgz"));
	writeFileSync(join(folder, "package.json"), '{ "private": true }\n');
	must("npm", ["install", "--no-audit", "--no-fund", join(folder, archive)]);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the package in an empty folder", () => {
	it("asks nothing from outside the registry", () => {
		const lock = readFileSync(join(folder, "package-lock.json"), "utf8");
		expect(lock).not.toMatch(/sheetjs\.com|storage\.googleapis/);
		expect(existsSync(join(folder, "node_modules", "danfojs-node"))).toBe(
			false,
		);
	});

	it("lists its templates and copies one with its demo data", () => {
		expect(must(charledger(), ["new"])).toContain("compare-treatments");
		must(charledger(), ["new", "compare-treatments"]);
		expect(
			readFileSync(join(folder, "compare-treatments.ipynb"), "utf8"),
		).toContain('let sheet = \\"data/demo-run/hazelnut.csv\\"');
		expect(readdirSync(join(folder, "data/demo-run")).sort()).toEqual([
			"ABOUT.md",
			"hazelnut.csv",
			"hazelnut.deviations.csv",
			"hazelnut.glassware.csv",
			"hazelnut.solutions.csv",
		]);
	});

	it("overwrites nothing and says so", () => {
		const again = run(charledger(), ["new", "compare-treatments"]);
		expect(again.status).toBe(2);
		expect(again.err).toContain("Nothing was overwritten");
		const mistyped = run(charledger(), ["new", "compare-treatment"]);
		expect(mistyped.err).toContain('Did you mean "compare-treatments"?');
	});

	it("runs the copy with the results of the repository's own template, and prints it", () => {
		must(charledger(), [
			"run",
			"compare-treatments.ipynb",
			"--out",
			"o",
			"--pdf",
		]);
		const own = ranByUs("compare-treatments.ipynb");
		const copied = resultsIn(join(folder, "o/results.json"));
		const original = resultsIn(join(own, "results.json"));
		expect(copied.results).toEqual(original.results);
		expect(copied.runId).toBe(original.runId);
		// Only of the copy it is known that its settings are the template's.
		expect(copied.settings.map((s) => s.setBy)).toContain("template");
		const pdf = readFileSync(join(folder, "o/compare-treatments.pdf"));
		expect(pdf.subarray(0, 5).toString()).toBe("%PDF-");
		// Still figures are lines, no pictures.
		expect(pdf.toString("latin1")).not.toMatch(/\/Subtype ?\/Image/);
		// Small enough for mail; most of it names parts for screen readers, and the readings are printed whole.
		expect(pdf.length).toBeLessThan(4_000_000);
	});

	it("takes one's own sheet into the copy", () => {
		writeFileSync(
			join(folder, "trial.csv"),
			"flask,treatment,char mass (g),dose (mL),made up to (mL),aliquot (mL),titre (mL)\n1,control,1.02,40,100,25,5.35\n2,steam,1.01,40,100,25,4.10\n",
		);
		writeFileSync(
			join(folder, "trial.solutions.csv"),
			"solution,substance,concentration (N)\niodine,iodine,0.1\nthiosulfate,sodium thiosulfate,0.1\n",
		);
		must(charledger(), [
			"new",
			"compare-treatments",
			"--into",
			"mine",
			"--sheet",
			"trial.csv",
		]);
		must(charledger(), [
			"run",
			"mine/compare-treatments.ipynb",
			"--out",
			"mine/out",
		]);
		const executed = readExecuted(
			join(folder, "mine/out/compare-treatments.ipynb"),
		);
		expect(errorsOf(executed)).toBe("");
		expect(
			readFileSync(join(folder, "mine/out/results.json"), "utf8"),
		).toContain("steam");
	});

	it("gives data frames", () => {
		const script = `const { bench } = require("charledger");
const trial = bench.readTrial("trial.csv");
const frame = bench.flaskFrame(trial);
process.stdout.write(JSON.stringify([frame.shape, frame["char mass (g)"].mean()]));`;
		expect(JSON.parse(must(process.execPath, ["-e", script]))).toEqual([
			[2, expect.any(Number)],
			expect.closeTo(1.015, 12),
		]);
	});

	it("carries the licences of what is inside", () => {
		const inside = join(
			folder,
			"node_modules/charledger/kernel-lib/dist/bench/dataframe-backend",
		);
		expect(statSync(join(inside, "danfojs-node.js")).size).toBeGreaterThan(
			1_000_000,
		);
		expect(
			readFileSync(join(inside, "danfojs-node.licences.txt"), "utf8"),
		).toMatch(/danfojs-node 1\.2\.0: MIT/);
	});

	it("says plainly where no browser can print", () => {
		const done = spawnSync(
			charledger(),
			["run", "compare-treatments.ipynb", "--pdf"],
			{
				cwd: folder,
				encoding: "utf8",
				env: { ...process.env, CHROMIUM: join(folder, "none") },
			},
		);
		expect(done.status).toBe(2);
		expect(done.stderr).toContain("print it to PDF");
	});
});
