/** Every template as `charledger new` makes it, run where it was made: with its demo data, and with a sheet of the user's own. */
import { spawnSync } from "node:child_process";
import {
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";

const root = join(import.meta.dirname, "../..");
const cli = join(root, "kernel-lib/dist/cli.js");
const folder = mkdtempSync(join(tmpdir(), "charledger-new-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** With FRONTS=few, as in CI, templates of three kinds: iodine, dye, many doses. The ordinary tests run every template with its demo data. */
const few = ["compare-treatments", "dye-uptake", "dose-for-a-target"];

const templates = readdirSync(join(root, "notebooks"))
	.filter((file) => file.endsWith(".ipynb"))
	.map((file) => basename(file, ".ipynb"))
	.filter((name) => process.env.FRONTS !== "few" || few.includes(name));

function charledger(at: string, ...args: string[]): void {
	const done = spawnSync(process.execPath, [cli, ...args], {
		cwd: at,
		encoding: "utf8",
	});
	if (done.status !== 0) throw new Error(done.stderr + done.stdout);
}

/** What a person sets in the copy beside the sheet, because a sheet with several chars asks which is meant. */
const settings: Readonly<Record<string, readonly string[]>> = {
	"why-not-straight-lines": ["--set", "treatment=fired twice"],
};

/** The page of a template that was made and run in a folder of its own. */
function pageIn(at: string, template: string, ...sheet: string[]): string {
	mkdirSync(at, { recursive: true });
	charledger(at, "new", template, ...sheet);
	charledger(
		at,
		"run",
		`${template}.ipynb`,
		"--out",
		"out",
		...(settings[template] ?? []),
	);
	return readFileSync(join(at, "out", `${template}.html`), "utf8");
}

/** The demo sheet of a template under a name of the user's, with its sister files, without the word that it is invented. */
function ownSheet(template: string, at: string): string {
	const text = readFileSync(
		join(root, "notebooks", `${template}.ipynb`),
		"utf8",
	);
	const demo = /let sheet = \\"\.\.\/(data\/[^"\\]+)\\"/.exec(text)?.[1];
	if (demo === undefined) throw new Error(`no demo sheet in ${template}`);
	const stem = basename(demo, ".csv");
	mkdirSync(at, { recursive: true });
	for (const file of readdirSync(join(root, dirname(demo))))
		if (file.startsWith(`${stem}.`) && file.endsWith(".csv"))
			writeFileSync(
				join(at, file.replace(stem, "mine")),
				readFileSync(join(root, dirname(demo), file), "utf8").replaceAll(
					/"?invented[^\n",]*(?:,[^\n"]*")?/gi,
					(words) => (words.startsWith('"') ? '""' : ""),
				),
			);
	return "mine.csv";
}

describe.each(templates)("charledger new %s", (template) => {
	test("runs with its demo data, and says that they are invented", () => {
		const page = pageIn(join(folder, `${template}-demo`), template);
		expect(page).toMatch(/<header>[\s\S]*Invented[\s\S]*<\/header>/);
	}, 240_000);

	test("runs with a sheet of the user's own, and calls nothing of it invented", () => {
		const at = join(folder, `${template}-own`);
		const page = pageIn(at, template, "--sheet", ownSheet(template, at));
		expect(page).toContain("mine.csv");
		expect(
			[...page.matchAll(/.{0,80}invented.{0,40}/gi)].map(([words]) => words),
		).toEqual([]);
	}, 240_000);
});
