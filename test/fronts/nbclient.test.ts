import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { CodeCell } from "../../kernel-lib/notebook/ipynb";
import { makeEnvironment, root } from "./environment.mjs";
import {
	errorsOf,
	inSlowFronts,
	openWorkshop,
	ranByUs,
	readExecuted,
	resultsIn,
	resultsOf,
	templates,
	type Workshop,
} from "./workshop";

let workshop: Workshop;
const environment = makeEnvironment();

beforeAll(() => {
	workshop = openWorkshop();
	const plain = join(workshop.folder, ".jupyter/data/kernels/plain-tslab");
	mkdirSync(plain, { recursive: true });
	writeFileSync(
		join(plain, "kernel.json"),
		JSON.stringify({
			argv: [
				process.execPath,
				join(root, "node_modules/tslab/bin/tslab"),
				"kernel",
				"--config-path",
				"{connection_file}",
			],
			display_name: "tslab",
			language: "typescript",
		}),
	);
});
afterAll(() => workshop.close());

function execute(notebook: string, kernel: string, ...more: string[]): string {
	const out = join(workshop.folder, `executed-by-${kernel}.ipynb`);
	const done = spawnSync(
		environment.binary("python"),
		[join(root, "test/fronts/execute.py"), notebook, kernel, out, ...more],
		{ encoding: "utf8", env: workshop.surroundings },
	);
	expect(done.status, done.stderr.slice(-3000)).toBe(0);
	return out;
}

const resultsByUs = (template: string): ReturnType<typeof resultsIn> =>
	resultsIn(join(ranByUs(template), "results.json"));

describe.each(templates)("%s", (template) => {
	it("gives the same results.json under nbclient as under our runner", () => {
		const path = join(workshop.folder, "notebooks", template);
		const executed = readExecuted(execute(path, "charledger"));
		expect(errorsOf(executed)).toBe("");
		expect(resultsOf(executed)).toEqual(resultsByUs(template));
	});
});

describe.each(inSlowFronts)("%s", (template) => {
	it("runs on plain tslab with the same results.json", () => {
		const path = join(workshop.folder, "notebooks", template);
		const executed = readExecuted(execute(path, "plain-tslab"));
		expect(resultsOf(executed)).toEqual(resultsByUs(template));
	});

	it("is turned into HTML by nbconvert", () => {
		const out = join(workshop.folder, "out", template);
		mkdirSync(out, { recursive: true });
		const done = spawnSync(
			environment.binary("jupyter"),
			[
				"nbconvert",
				"--to",
				"html",
				"--output",
				"converted",
				"--output-dir",
				out,
				join(ranByUs(template), template),
			],
			{ encoding: "utf8", env: workshop.surroundings },
		);
		expect(done.status, done.stderr).toBe(0);
		const html = readFileSync(join(out, "converted.html"), "utf8");
		for (const { content } of resultsByUs(template).results)
			if (content.kind === "comparison")
				for (const { word } of content.verdicts) expect(html).toContain(word);
	});
});

describe("a notebook with errors under nbclient", () => {
	it("reports each error and runs every cell when errors are allowed", () => {
		const path = join(workshop.folder, "errors.ipynb");
		const sources = ['throw new RangeError("first")', "1 +", '"still here"'];
		writeFileSync(
			path,
			JSON.stringify({
				nbformat: 4,
				nbformat_minor: 5,
				metadata: {},
				cells: sources.map((source, i) => ({
					cell_type: "code",
					id: `c${i}`,
					metadata: {},
					source,
					outputs: [],
					execution_count: null,
				})),
			}),
		);
		const { cells } = readExecuted(execute(path, "charledger", "allow_errors"));
		const outputs = cells.map((c) => (c as CodeCell).outputs);
		expect(outputs[0]).toEqual([
			expect.objectContaining({ ename: "RangeError", evalue: "first" }),
		]);
		expect(outputs[1]).toEqual([
			expect.objectContaining({ ename: "TypeScript" }),
		]);
		expect(outputs[2]).toEqual([
			expect.objectContaining({ text: "still here\n" }),
		]);
	});
});
