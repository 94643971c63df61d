/** The log of analyses: what is told at the head of a page of the analyses before it. */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readNotebook } from "../../kernel-lib/notebook/ipynb";
import {
	type Analysis,
	analysesText,
	readAnalyses,
	withAnalysis,
} from "../../kernel-lib/notebook/run/analyses";
import { stripped } from "../../kernel-lib/notebook/strip";
import { valueOrThrow } from "../../kernel-lib/quantity";

const asked: Analysis["asked"] = {
	margin: "25 mg/g",
	claim: "difference",
	confidence: "95 %",
	residue: "not stated",
	decisions: "as usual",
};

const one = (
	runId: string,
	more: Partial<Analysis["asked"]> = {},
	sheet: Partial<Analysis["sheet"]> = {},
): Analysis => ({
	formatVersion: 1,
	runId,
	date: "2031-05-03T10:00:00.000Z",
	notebook: "compare-treatments.ipynb",
	sheet: { file: "mine.csv", hash: "a", ...sheet },
	asked: { ...asked, ...more },
	words: [{ treatment: "steam", word: "higher" }],
});

const told = (...log: readonly Analysis[]) =>
	analysesText(log, log[log.length - 1]);

describe("what is told of the analyses of a sheet", () => {
	test("nothing of the first, nor of one that stands beside those of other sheets", () => {
		expect(told(one("1"))).toBe("");
		expect(
			told(one("1", {}, { file: "other.csv", hash: "other" }), one("2")),
		).toBe("");
	});

	test("a sheet whose cells were changed is the same sheet, and so is one under another name", () => {
		expect(told(one("1"), one("2", {}, { hash: "b" }))).toBe(
			"Second analysis of this sheet; what the sheet holds changed after the first.",
		);
		expect(
			told(one("1"), one("2", { margin: "15 mg/g" }, { file: "copy.csv" })),
		).toBe(
			"Second analysis of this sheet; margin changed from 25 mg/g to 15 mg/g after the first.",
		);
	});

	test("decisions that were taken otherwise are a change, and a log begun before they were written down had the usual ones", () => {
		expect(told(one("1"), one("2", { decisions: '"scatter alike"' }))).toBe(
			'Second analysis of this sheet; decisions changed from as usual to "scatter alike" after the first.',
		);
		const { decisions: _, ...before } = asked;
		const line = JSON.stringify({ ...one("1"), asked: before });
		expect(valueOrThrow(readAnalyses(line, "log"))).toEqual([one("1")]);
	});

	test("which one it is, and what changed after which", () => {
		expect(
			told(
				one("1"),
				one("2", { margin: "15 mg/g" }),
				one("3", { margin: "15 mg/g", claim: "at least the margin more" }),
			),
		).toBe(
			'Third analysis of this sheet; margin changed from 25 mg/g to 15 mg/g after the first; claim changed from "difference" to "at least the margin more" after the second.',
		);
		expect(told(one("1"), one("2"))).toBe(
			"Second analysis of this sheet; margin, claim, confidence, residue and decisions as before, something else changed after the first.",
		);
		expect(told(one("1", { margin: "not set" }), one("2"))).toContain(
			"margin changed from not set to 25 mg/g after the first",
		);
	});

	test("an analysis that is run again keeps its place, and tells of those after it", () => {
		const log = [one("1"), one("2", { margin: "15 mg/g" })];
		expect(withAnalysis(log, one("1"))).toBe(log);
		expect(analysesText(log, one("1"))).toBe(
			"First of 2 analyses of this sheet; margin changed from 25 mg/g to 15 mg/g after the first.",
		);
	});

	test("ten are counted in words, the eleventh in digits", () => {
		const many = (n: number) =>
			told(...Array.from({ length: n }, (_, i) => one(String(i))));
		expect(many(10)).toMatch(/^Tenth analysis/);
		expect(many(11)).toMatch(/^No\. 11 analysis/);
	});
});

test("a damaged line is named, and nothing of the log is taken", () => {
	const line = JSON.stringify(one("1"));
	expect(valueOrThrow(readAnalyses(`${line}\n\n`, "log"))).toEqual([one("1")]);
	expect(() =>
		valueOrThrow(readAnalyses(`${line}\n{"runId": 3}\nno\n`, "log")),
	).toThrow(/2 problems[\s\S]*row 2[\s\S]*row 3/);
});

test("runs of one sheet into one folder: the head tells of a margin that was changed, not of a run that was repeated", () => {
	const root = join(import.meta.dirname, "../..");
	const out = mkdtempSync(join(tmpdir(), "charledger-analyses-"));
	const run = (margin: number) => {
		const done = spawnSync(
			process.execPath,
			[
				join(root, "kernel-lib/dist/cli.js"),
				"run",
				join(root, "notebooks/compare-treatments.ipynb"),
				"--sheet",
				join(root, "data/demo-run/small-trial.csv"),
				"--set",
				`marginMgPerG=${margin}`,
				"--out",
				out,
			],
			{ encoding: "utf8" },
		);
		return {
			...done,
			lead: () => read("compare-treatments.html").split('id="answer"')[0],
		};
	};
	const read = (file: string) => readFileSync(join(out, file), "utf8");
	const lines = () => read("analyses.jsonl").trim().split("\n");
	try {
		expect(run(25).lead()).not.toContain("analysis of this sheet");
		const first = read("results.json");
		expect(JSON.parse(first).analyses).toBe("");
		expect(lines()).toHaveLength(1);
		expect(run(25).lead()).not.toContain("analysis of this sheet");
		expect(lines()).toHaveLength(1);
		const before = read("analyses.jsonl");
		expect(run(15).lead()).toContain(
			"Second analysis of this sheet; margin changed from 25 mg/g to 15 mg/g after the first.",
		);
		expect(lines().map((l) => JSON.parse(l).asked.margin)).toEqual([
			"25 mg/g",
			"15 mg/g",
		]);
		expect(JSON.parse(lines()[0]).runId).toBe(JSON.parse(first).runId);
		const executed = valueOrThrow(
			readNotebook(read("compare-treatments.ipynb"), ""),
		);
		expect(executed.cells[0].source).toContain("Second analysis");
		expect(JSON.parse(read("results.json")).analyses).toContain(
			"margin changed from 25 mg/g to 15 mg/g",
		);
		expect(JSON.parse(read("results.json")).inputs.at(-1)).toMatchObject({
			file: "analyses.jsonl",
			sha256: createHash("sha256").update(before).digest("hex"),
		});
		expect(stripped(executed).cells[0].source).not.toContain(
			"analysis of this",
		);
		writeFileSync(join(out, "analyses.jsonl"), "scribble\n");
		const damaged = run(10);
		expect(damaged.status).toBe(2);
		expect(damaged.stderr).toContain("a line that is no analysis");
	} finally {
		rmSync(out, { recursive: true, force: true });
	}
}, 240_000);
