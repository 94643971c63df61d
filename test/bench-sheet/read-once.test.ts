import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { readTrial } from "../../kernel-lib/bench/index";
import { readSolute } from "../../kernel-lib/mixtures/index";

const reads = vi.hoisted(() => new Map<string, number>());

/** Every file is spoiled as soon as it has been read, as by a program that saves it at that moment. */
vi.mock("node:fs", async (original) => {
	const fs = await original<typeof import("node:fs")>();
	return {
		...fs,
		readFileSync: (path: string, ...rest: never[]) => {
			const content = fs.readFileSync(path, ...rest);
			if (String(path).includes("charledger-once")) {
				reads.set(path, (reads.get(path) ?? 0) + 1);
				fs.writeFileSync(path, "saved meanwhile\n");
			}
			return content;
		},
	};
});

const texts = {
	"trial.csv":
		"flask,treatment,char mass (g),dose (mL),made up to (mL),aliquot (mL),titre (mL)\n1,control,1.02,40,100,25,5.35\n2,steam,1.01,40,100,25,4.10\n",
	"trial.solutions.csv":
		"solution,substance,concentration (N)\niodine,iodine,0.1\nthiosulfate,sodium thiosulfate,0.1\n",
	"brown.csv":
		"solute,molar mass (g/mol),residue (mg/L),uptake (mg/g)\nbrown,500,1,10\nbrown,500,5,20\nbrown,500,20,30\n",
};
let folder = "";
beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), "charledger-once-"));
	for (const [name, text] of Object.entries(texts))
		writeFileSync(join(folder, name), text);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test.each([
	["trial.csv", ["trial.csv", "trial.solutions.csv"], readTrial],
	["brown.csv", ["brown.csv"], readSolute],
] as const)(
	"%s is read once: what is passed on is what was computed with, whatever is saved meanwhile",
	(name, files, read) => {
		const { sources } = read(join(folder, name));
		expect(
			Object.fromEntries(
				sources.map(({ file, content }) => [
					file,
					Buffer.from(content).toString("utf8"),
				]),
			),
		).toEqual(Object.fromEntries(files.map((file) => [file, texts[file]])));
		for (const file of files) expect(reads.get(join(folder, file))).toBe(1);
	},
);
