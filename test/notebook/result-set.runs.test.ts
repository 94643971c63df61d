/** A set of results, whatever happens while it is written: the earlier one or the new one, whole. */
import { spawnSync } from "node:child_process";
import {
	existsSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { hostname, tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { lock } from "../../kernel-lib/notebook/run/lock";
import { repair } from "../../kernel-lib/notebook/run/result-set";
import { systemErrorText } from "../../kernel-lib/notebook/run/system-error";

const faults = join(import.meta.dirname, "faults");
const files = ["job.html", "job.ipynb", "ledger.csv", "results.json"];
let folder = "";
beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), "charledger-set-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** An earlier set, and what a run that had stopped left. */
function earlier(): void {
	rmSync(folder, { recursive: true, force: true });
	mkdirSync(join(folder, "failed"), { recursive: true });
	for (const name of files) writeFileSync(join(folder, name), "old");
	writeFileSync(join(folder, "failed/job.html"), "stopped");
}

function write(text: string, fault: string) {
	return spawnSync(
		process.execPath,
		[
			"--require",
			join(faults, "at-call.cjs"),
			join(faults, "write-set.cjs"),
			folder,
			text,
		],
		{ encoding: "utf8", env: { ...process.env, FAULT: fault } },
	);
}

const held = (): string[] =>
	files.map((name) => readFileSync(join(folder, name), "utf8"));

/** What stands in the folder after the next start. */
function afterRepair(): string {
	repair(folder);
	const [text, ...others] = new Set(held());
	expect(others).toEqual([]);
	expect(existsSync(join(folder, "failed"))).toBe(text === "old");
	expect(readdirSync(folder).filter((n) => n.startsWith("."))).toEqual([]);
	return text;
}

describe("a set of results", () => {
	test("takes the place of the earlier one, and clears away what a run that stopped had left", () => {
		earlier();
		expect(write("new", "count").status).toBe(0);
		expect(held()).toEqual(files.map(() => "new"));
		expect(afterRepair()).toBe("new");
	});

	test("is the earlier or the new one, whole, wherever its process is killed", () => {
		earlier();
		const calls = Number(write("new", "count").stdout);
		expect(calls).toBeGreaterThan(20);
		const found = Array.from({ length: calls }, (_, i) => {
			earlier();
			expect(write("new", `kill ${i + 1}`).signal).toBe("SIGKILL");
			return afterRepair();
		});
		// Once the journal stands there it is the new one, and stays so.
		expect([...found].sort().reverse()).toEqual(found);
		expect(new Set(found)).toEqual(new Set(["old", "new"]));
	}, 60_000);

	test("is the earlier or the new one, whole, wherever the disk is full, and the failure is told", () => {
		earlier();
		const calls = Number(write("new", "count").stdout);
		for (let i = 1; i <= calls; i++) {
			earlier();
			const done = write("new", `ENOSPC ${i}`);
			if (done.status !== 0)
				expect(done.stderr).toContain("made up for a test");
			afterRepair();
		}
	}, 60_000);
});

describe("a set of results on a real disk", () => {
	interface OnDisk {
		readonly first: number;
		readonly second: { readonly status: number; readonly stderr: string };
		/** Of a whole run into it. */
		readonly cli?: { readonly status: number; readonly stderr: string };
		readonly after: readonly string[];
		readonly third: number;
		readonly afterNext: readonly string[];
		readonly left: readonly string[];
	}

	/** A disk of 256 kB that is made for the test alone; none where the system lets nobody mount one. Rights of files would not do: root writes into what is read-only for others. */
	function onDisk(fault: "full" | "read-only"): OnDisk | undefined {
		mkdirSync(folder, { recursive: true });
		const { stdout, error, stderr } = spawnSync(
			"unshare",
			[
				"--user",
				"--map-root-user",
				"--mount",
				process.execPath,
				join(faults, "real-disk.cjs"),
				folder,
				fault,
			],
			{ encoding: "utf8" },
		);
		const found = stdout ? JSON.parse(stdout) : { mounted: false };
		if (found.mounted) return found;
		process.stderr.write(
			`\nNOT TESTED: a disk that is ${fault}. This system mounts no disk for a test (${error?.message ?? found.because ?? stderr}).\n`,
		);
		return undefined;
	}

	test("that is full keeps the earlier set whole, and the next run goes through", (context) => {
		const found = onDisk("full");
		if (found === undefined) return context.skip();
		expect(found.first).toBe(0);
		expect(found.second.status).not.toBe(0);
		expect(found.second.stderr).toContain("ENOSPC");
		expect(found.after).toEqual(files.map(() => "old"));
		expect(found.third).toBe(0);
		expect(found.afterNext).toEqual(files.map(() => "third"));
		expect(found.left).toEqual([]);
	});

	test("that can be read only is told before the notebook is run, and keeps its set", (context) => {
		const found = onDisk("read-only");
		if (found === undefined) return context.skip();
		expect(found.second.stderr).toContain("EROFS");
		expect(found.cli).toMatchObject({ status: 2 });
		expect(found.cli?.stderr).toContain(
			"this disk can be read only. Choose a folder on another disk with --out",
		);
		expect(found.after).toEqual(files.map(() => "old"));
		expect(found.afterNext).toEqual(files.map(() => "third"));
		expect(found.left).toEqual([]);
	});
});

describe("the lock of a folder", () => {
	test("is given to one, and free again when that one is done", () => {
		earlier();
		const first = lock(folder);
		expect(first.isOurs()).toBe(true);
		expect(() => lock(folder)).toThrow(
			/another run that writes into this folder \(process \d+/,
		);
		first.release();
		lock(folder).release();
		expect(existsSync(join(folder, ".charledger-lock"))).toBe(false);
	});

	test("is taken over from a process that is dead, not from another machine's", () => {
		const dead = spawnSync(process.execPath, ["-e", ""]).pid;
		const since = "2031-05-03T10:00:00.000Z";
		const path = join(folder, ".charledger-lock");
		writeFileSync(
			path,
			JSON.stringify({ process: dead, host: hostname(), since }),
		);
		const taken = lock(folder);
		expect(taken.isOurs()).toBe(true);
		taken.release();
		writeFileSync(
			path,
			JSON.stringify({ process: dead, host: "elsewhere", since }),
		);
		expect(() => lock(folder)).toThrow(/on elsewhere, since 2031/);
		rmSync(path);
	});

	test("a lock that was cut short is nobody's; one that was taken away is not ours any more", () => {
		const path = join(folder, ".charledger-lock");
		writeFileSync(path, '{"process":');
		const taken = lock(folder);
		writeFileSync(path, "somebody else's");
		expect(taken.isOurs()).toBe(false);
		taken.release();
		expect(existsSync(path)).toBe(true);
		rmSync(path);
	});
});

test("errors of the system are sentences with a way out; others are none of its", () => {
	const of = (code: string) =>
		systemErrorText({ code, syscall: "open", path: "out/page.html" });
	expect(of("ENOSPC")).toBe(
		"out/page.html: the disk is full. Make room and run again; what was there before is whole.",
	);
	for (const code of [
		"EACCES",
		"EROFS",
		"EISDIR",
		"ENOTDIR",
		"EEXIST",
		"ENAMETOOLONG",
		"EBUSY",
	])
		expect(of(code)).toMatch(/^out\/page\.html: [a-z].*\. [A-Z].*\.$/);
	expect(
		systemErrorText({ code: "ENOENT", syscall: "mkdir", path: "nowhere" }),
	).toContain("nowhere: no folder can be made here");
	expect(of("ENOENT")).toContain("there is no such file");
	expect(of("EODD")).toContain("the system answered EODD");
	expect(systemErrorText(new Error("x"))).toBe("");
});
