import { spawnSync } from "node:child_process";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";

// In a process of its own, because only there can the collector be called.
const program = `
const { join } = require("node:path");
const { openSession } = require(join(process.argv[1], "notebook/kernel/tslab.js"));
(async () => {
	const session = openSession(require("node:os").tmpdir(), [
		{ name: "charledger", main: join(process.argv[1], "index.js"), types: join(process.argv[1], "index.d.ts") },
	]);
	await session.execute('import { bench } from "charledger"; const sheet = ' + JSON.stringify(process.argv[2]) + ";", "first");
	const inUse = () => { gc(); gc(); return process.memoryUsage().heapUsed / 1e6; };
	const seen = [];
	for (let i = 1; i <= 120; i++) {
		const outcome = await session.execute("const run = bench.readTrial(sheet); const flasks = run.flasks.length; const twice = (x: number): number => 2 * x;", "cell-" + i);
		if (outcome.is !== "done") throw new Error(JSON.stringify(outcome));
		if (i === 40 || i === 120) seen.push(inUse());
	}
	session.close();
	process.stdout.write(JSON.stringify(seen));
})();
`;

test("a cell that is run 120 times leaves nothing behind", () => {
	const root = join(import.meta.dirname, "../..");
	const done = spawnSync(
		process.execPath,
		[
			"--expose-gc",
			"-e",
			program,
			join(root, "kernel-lib/dist"),
			join(root, "data/demo-run/hazelnut.csv"),
		],
		{ cwd: tmpdir(), encoding: "utf8" },
	);
	expect(done.status, done.stderr).toBe(0);
	const [early, late] = JSON.parse(done.stdout) as [number, number];
	// A run of the demo sheet weighs about 0.3 MB: 80 that stayed would be 24 MB.
	expect(late - early).toBeLessThan(10);
}, 120_000);
