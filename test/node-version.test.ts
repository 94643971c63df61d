import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { isNodeInRange, nodeRange } from "../kernel-lib/node-version";

const root = join(import.meta.dirname, "..");

test("the range is the one that package.json states", () => {
	const { engines } = JSON.parse(
		readFileSync(join(root, "package.json"), "utf8"),
	);
	expect(engines.node).toBe(nodeRange);
});

test.each([
	["18.20.8", false],
	["20.18.3", false],
	["20.19.0", true],
	["21.7.3", false],
	["22.11.0", false],
	["22.12.0", true],
	["23.0.0", true],
	["24.1.0", true],
])("Node %s is within the range: %s", (version, fits) => {
	expect(isNodeInRange(version)).toBe(fits);
});

test.each(["cli.js", "notebook/kernel/main.js"])(
	"%s looks at the version before it loads anything else",
	(program) => {
		const text = readFileSync(join(root, "kernel-lib/dist", program), "utf8");
		const [first] = [...text.matchAll(/require\("([^"]+)"\)/g)];
		expect(first[1]).toMatch(/\/require-node$/);
	},
);
