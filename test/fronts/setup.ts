import { spawn } from "node:child_process";
import { rmSync } from "node:fs";
import { join } from "node:path";
import { makeEnvironment, root } from "./environment.mjs";
import { extent, runs, templates } from "./places.mjs";

/** Runs a template with our own runner; what it says of a failure goes to the terminal. */
function run(template: string): Promise<void> {
	const words = [
		join(root, "kernel-lib/dist/cli.js"),
		"run",
		join(root, "notebooks", template),
		"--out",
		join(runs, template),
	];
	return new Promise((resolve) => {
		spawn(process.execPath, words, {
			stdio: ["ignore", "ignore", "inherit"],
		}).once("exit", () => resolve());
	});
}

async function runAll(waiting: string[]): Promise<void> {
	for (let next = waiting.shift(); next; next = waiting.shift())
		await run(next);
}

/** Once, before all tests of real front ends: the Python environment, and every template run by our own runner, two at a time. */
export async function setup(): Promise<void> {
	console.log(extent);
	makeEnvironment();
	rmSync(runs, { recursive: true, force: true });
	const waiting = [...templates];
	await Promise.all([runAll(waiting), runAll(waiting)]);
}

export function teardown(): void {
	console.log(extent);
}
