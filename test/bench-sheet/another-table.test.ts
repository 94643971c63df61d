import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { checkRows, checkTrial } from "../../kernel-lib/bench/index";
import { readSolute } from "../../kernel-lib/mixtures/index";
import { readProperties } from "../../kernel-lib/properties/index";
import { problemText } from "../../kernel-lib/quantity/index";
import { soundFlasks, soundSolutions } from "./rows";

const data = join(import.meta.dirname, "../../data");
const told = (path: string): string[] => {
	const checked = checkTrial(path);
	return checked.ok ? [] : checked.problems.map(problemText);
};

describe("a table of another kind is one problem", () => {
	test("properties where flasks are expected", () => {
		expect(told(join(data, "demo-properties/chars.csv"))).toEqual([
			'chars.csv: found a table with the columns "determination", "sample", "property", "dish (g)" and 31 more; expected a bench sheet of flasks, with a column "flask". Give the file that holds it; or, if this is it, name its columns as they are named there, "flask" first.',
		]);
	});

	test.each([
		["flasks", "demo-run/hazelnut.csv"],
		["firings", "demo-activation/kiln.activation.csv"],
	])("%s where properties are expected", (_, file) => {
		expect(() => readProperties(join(data, file), {})).toThrow(
			/^\S+: found a table with the columns .*; expected a table of the kind "properties", with a column "determination"\./,
		);
	});

	test("flasks where a solute is expected", () => {
		expect(() => readSolute(join(data, "demo-run/hazelnut.csv"))).toThrow(
			/^hazelnut\.csv: found a table with the columns .* with a column "residue"\./,
		);
	});
});

describe("it is the table expected, with something wrong, where two of its columns are there", () => {
	const codes = (heads: readonly string[]): string[] => {
		const checked = checkRows({
			flasks: soundFlasks.map((row) =>
				Object.fromEntries([
					["shelf", "x"],
					...heads.map((h) => [h, (row as Record<string, unknown>)[h] ?? ""]),
				]),
			) as never,
			solutions: soundSolutions,
		});
		return checked.ok ? [] : checked.problems.map((p) => p.code);
	};

	test("one column is not enough", () => {
		expect(codes(["treatment"])).toEqual(["another-table"]);
	});

	test("two are, and all of its problems are told", () => {
		const found = codes(["treatment", "char mass (g)"]);
		expect(found).not.toContain("another-table");
		expect(found).toContain("column-missing");
	});
});
