/** A virtual environment with JupyterLab and our kernel in it, in `.venv`. Made once, brought up to date on every call. */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../..", import.meta.url));
const folder = join(root, ".venv");
const binaries = join(folder, process.platform === "win32" ? "Scripts" : "bin");
const requirements = join(root, "test", "fronts", "requirements.txt");

/** @returns {boolean} whether this Python can make a virtual environment */
function canMakeEnvironments(python) {
	const check =
		"import sys, venv, ensurepip; sys.exit(sys.version_info < (3, 9))";
	return spawnSync(python, ["-c", check], { stdio: "ignore" }).status === 0;
}

function findPython() {
	const candidates = ["python3", "/usr/bin/python3", "python"];
	const found = candidates.find(canMakeEnvironments);
	if (found === undefined)
		throw new Error(
			"No Python 3.9 or newer that can make virtual environments was found. On Debian: apt-get install python3-venv",
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

/** @returns {{ folder: string, binary(name: string): string }} */
export function makeEnvironment() {
	const wanted = createHash("sha256")
		.update(readFileSync(requirements))
		.digest("hex");
	const stamp = join(folder, "charledger-requirements");
	if (!existsSync(stamp) || readFileSync(stamp, "utf8") !== wanted) {
		run(findPython(), ["-m", "venv", "--clear", folder]);
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
	run(process.execPath, [
		join(root, "kernel-lib", "dist", "cli.js"),
		"kernel",
		"install",
		"--prefix",
		folder,
	]);
	return { folder, binary: (name) => join(binaries, name) };
}
