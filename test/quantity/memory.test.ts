import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const here = (name: string): string =>
	fileURLToPath(new URL(name, import.meta.url));

test("ten thousand flasks with their whole trace stay below 200 MB, shared errors as columns and not as a matrix", () => {
	const out = execFileSync(
		process.execPath,
		["--expose-gc", here("../bench/run.mjs"), here("many-flasks.ts"), "10000"],
		{ encoding: "utf8" },
	);
	const held = JSON.parse(out.trim().split("\n").at(-1) ?? "{}") as Record<
		string,
		number
	>;
	expect(held.nodes).toBeGreaterThanOrEqual(60);
	expect(held.meanUncertainty).toBeGreaterThan(0);
	expect(held.ownVariances).toBe(10_000);
	expect(held.sharedInputs).toBe(6);
	expect(held.megabytes).toBeLessThan(200);
});
