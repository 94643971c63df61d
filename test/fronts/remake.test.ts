import { spawnSync } from "node:child_process";
import {
	cpSync,
	mkdirSync,
	mkdtempSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { environmentWith, root } from "./environment.mjs";

const reference = join(root, "data", "reference");
const { binary } = environmentWith(
	".venv-remake",
	join(reference, "remake", "requirements.txt"),
	11,
);
let folder = "";

beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), "charledger-remake-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The scripts' runner with one script and the files that it covers; no R. */
beforeEach(() => {
	rmSync(folder, { recursive: true, force: true });
	mkdirSync(join(folder, "remake"), { recursive: true });
	for (const name of ["run.py", "arithmetic.py"])
		cpSync(join(reference, "remake", name), join(folder, "remake", name));
	for (const name of [
		"activation-yields",
		"char-properties",
		"iodine-number",
		"iodometry",
		"molar-masses",
		"solutions",
	])
		cpSync(join(reference, `${name}.json`), join(folder, `${name}.json`));
});

function remade(): { readonly status: number | null; readonly said: string } {
	const done = spawnSync(
		binary("python"),
		["-B", join(folder, "remake", "run.py")],
		{ encoding: "utf8" },
	);
	return { status: done.status, said: done.stdout + done.stderr };
}

function change(name: string, from: string, to: string): void {
	const path = join(folder, name);
	const text = readFileSync(path, "utf8");
	expect(text).toContain(from);
	writeFileSync(path, text.replace(from, to));
}

test("values that their scripts make again pass", () => {
	const { status, said } = remade();
	expect(said).toContain(" 0 wrong.");
	expect(status).toBe(0);
});

test("a value that differs fails, and both values are told", () => {
	change("molar-masses.json", "248.172", "248.173");
	const { status, said } = remade();
	expect(said).toMatch(/the file says 248\.173, made again 248\.172/);
	expect(status).toBe(1);
});

test("a number that no script covers fails, and so does a whole file", () => {
	change("solutions.json", '"volume_mL": 1000', '"volume_mL": 1000, "more": 3');
	writeFileSync(join(folder, "another.json"), '{ "value": 1 }');
	const { status, said } = remade();
	expect(said).toContain("dilution/more: covered by no script");
	expect(said).toMatch(/another\.json +covered by no script/);
	expect(status).toBe(1);
});

test("a place that a script names and the file lacks fails", () => {
	change("iodometry.json", '"char_g": 0.5123,', "");
	const { status, said } = remade();
	expect(said).toMatch(/arithmetic\.py failed|has no such value/);
	expect(status).toBe(1);
});
