import { createRequire } from "node:module";
import { expect, test } from "vitest";
import {
	flaskFrame,
	readTrial,
	trialFromRows,
} from "../../kernel-lib/bench/index";
import { changed } from "./rows";

const { cache } = createRequire(import.meta.url);
const loaded = (...names: string[]): boolean =>
	Object.keys(cache).some((path) =>
		names.some((name) => path.includes(`/node_modules/${name}/`)),
	);

test("the data frames and the workbook reader are loaded when they are asked for, and not before", () => {
	const trial = trialFromRows(changed("c1", {}));
	expect(trial.table.rows.length).toBeGreaterThan(0);
	expect(() => readTrial("no such sheet.csv")).toThrow(/no file/);
	expect(loaded("danfojs-node")).toBe(false);
	expect(loaded("xlsx", "@e965/xlsx")).toBe(false);
	flaskFrame(trial);
	expect(loaded("danfojs-node")).toBe(true);
	expect(loaded("xlsx", "@e965/xlsx")).toBe(true);
});
