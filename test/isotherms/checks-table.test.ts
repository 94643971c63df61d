import { describe, expect, test } from "vitest";
import { checksTable } from "../../kernel-lib/isotherms/checks-table";
import {
	dualSiteLangmuir,
	fitIsotherm,
	henry,
	langmuir,
	plainPoints,
} from "../../kernel-lib/isotherms/index";
import { tableText } from "../../kernel-lib/quantity/index";
import { goodLines, pointsOn } from "./plain-lines";

const errors = [3, -4, 1, 5, -2, -5, 4, 2, -3];
const steam = pointsOn(langmuir, [420, 0.012], goodLines, {
	name: "steam",
	errors,
});
const fit = fitIsotherm(langmuir, steam);
const few = plainPoints("few", [10, 20, 40, 80], [30, 45, 60, 70]);

/** Cells of a row that begins with these. */
function cellsAfter(
	table: ReturnType<typeof checksTable>,
	...begin: string[]
): unknown[] {
	const row = table.rows.find((r) => begin.every((b, i) => r[i] === b));
	return row?.slice(begin.length) ?? [];
}

describe("checks", () => {
	test("the flask with the largest leverage is named", () => {
		if (fit.fit.leverage.is === "not known") throw new Error("no leverage");
		const { value } = fit.fit.leverage;
		const at = value.indexOf(Math.max(...value));
		expect(cellsAfter(checksTable(fit), "steam", "largest leverage")).toEqual([
			value[at].toFixed(2),
			expect.stringContaining(`flask ${fit.used[at].flask};`),
		]);
	});

	test("one parameter has no correlation, and too few points have reasons", () => {
		const line = fitIsotherm(henry, few, { method: "uptake on concentration" });
		expect(
			cellsAfter(checksTable(line), "few", "correlation of the parameters")[0],
		).toBe("one parameter only");
		const text = tableText(
			checksTable(line, fitIsotherm(dualSiteLangmuir, few)),
		);
		expect(text).toContain("not available");
		expect(text).not.toMatch(/NaN|undefined|Infinity/);
	});
});
