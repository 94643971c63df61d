/** Virtual environments of Python: one with JupyterLab and our kernel (`.venv`), others for what asks. Made once, brought up to date on every call. */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../..", import.meta.url));

/** @returns {boolean} whether this Python can make a virtual environment and is no older than 3.`minor` */
function serves(python, minor) {
	const check = `import sys, venv, ensurepip; sys.exit(sys.version_info < (3, ${minor}))`;
	return spawnSync(python, ["-c", check], { stdio: "ignore" }).status === 0;
}

function findPython(minor) {
	const candidates = ["python3", "/usr/bin/python3", "python"];
	const found = candidates.find((python) => serves(python, minor));
	if (found === undefined)
		throw new Error(
			`No Python 3.${minor} or newer that can make virtual environments was found. On Debian: apt-get install python3-venv`,
		);
	return found;
}

function run(program, words) {
	const done = spawnSync(program, words, {
		stdio: ["ignore", "inherit", "inherit"],
	});
	if (done.status !== 0)
		throw new Error(`${program} ${words.join(" ")} failed.`);
}

/**
 * An environment with what a file of requirements names, made again when the file has changed.
 *
 * @param {string} name of its folder in the root of the tree
 * @param {string} requirements path of the file
 * @param {number} minor the oldest Python 3 that serves
 * @returns {{ folder: string, binary(name: string): string }}
 */
export function environmentWith(name, requirements, minor) {
	const folder = join(root, name);
	const binaries = join(
		folder,
		process.platform === "win32" ? "Scripts" : "bin",
	);
	const wanted = createHash("sha256")
		.update(readFileSync(requirements))
		.digest("hex");
	const stamp = join(folder, "charledger-requirements");
	if (!existsSync(stamp) || readFileSync(stamp, "utf8") !== wanted) {
		run(findPython(minor), ["-m", "venv", "--clear", folder]);
		run(join(binaries, "python"), [
			"-m",
			"pip",
			"install",
			"--quiet",
			"--disable-pip-version-check",
			"--requirement",
			requirements,
		]);
		writeFileSync(stamp, wanted);
	}
	return { folder, binary: (program) => join(binaries, program) };
}

/** @returns {{ folder: string, binary(name: string): string }} */
export function makeEnvironment() {
	const environment = environmentWith(
		".venv",
		join(root, "test", "fronts", "requirements.txt"),
		9,
	);
	run(process.execPath, [
		join(root, "kernel-lib", "dist", "cli.js"),
		"kernel",
		"install",
		"--prefix",
		environment.folder,
	]);
	return environment;
}
