import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { expect, test } from "vitest";
import { sheetFiles } from "../../kernel-lib/bench/index";

test("a sheet in CSV consists of itself and the sisters that are there; a workbook of itself", () => {
	const folder = mkdtempSync(join(tmpdir(), "charledger-files-"));
	const names = [
		"trial.csv",
		"trial.solutions.csv",
		"trial.calibration.csv",
		"trial.activation.csv",
		"other.csv",
		"trial.truth.csv",
		"trial.xlsx",
	];
	for (const name of names) writeFileSync(join(folder, name), "");
	const of = (name: string): string[] =>
		sheetFiles(join(folder, name))
			.map((f) => basename(f))
			.sort();
	const all = [
		"trial.activation.csv",
		"trial.calibration.csv",
		"trial.csv",
		"trial.solutions.csv",
	];
	expect(of("trial.csv")).toEqual(all);
	expect(of("trial.activation.csv")).toEqual(all);
	expect(of("trial.xlsx")).toEqual(["trial.xlsx"]);
	expect(of("missing.csv")).toEqual(["missing.csv"]);
	rmSync(folder, { recursive: true });
});
