import { describe, expect, test } from "vitest";
import {
	checksTable,
	dualSiteLangmuir,
	fitIsotherm,
	henry,
	langmuir,
	plainPoints,
	quotedTable,
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

describe("what to quote", () => {
	test("is the value and its profile interval, in three digits, with its level in the head", () => {
		const table = quotedTable(fit);
		const [q] = fit.parameters;
		if (q.profile.is === "not known") throw new Error(q.profile.because);
		const { low, high } = q.profile.value;
		if (low.kind === "open" || high.kind === "open") throw new Error("open");
		expect(cellsAfter(table, "steam", "q_max", "mg/g")).toEqual([
			Number(q.value.toPrecision(3)),
			String(Number(low.value.toPrecision(3))),
			String(Number(high.value.toPrecision(3))),
		]);
		expect(table.columns[4]).toBe("95 % interval, from");
		expect(
			quotedTable(fitIsotherm(langmuir, steam, { confidence: 0.9 })).columns[4],
		).toBe("90 % interval, from");
	});

	test("one table has one confidence", () => {
		const ninety = fitIsotherm(langmuir, steam, { confidence: 0.9 });
		expect(() => quotedTable(fit, ninety)).toThrow(
			/intervals of 95 % and 90 %; expected one confidence in one table/,
		);
		expect(quotedTable(fit, fit).rows).toHaveLength(4);
		expect(quotedTable().rows).toHaveLength(0);
	});

	test("says why where there is no interval", () => {
		const held = fitIsotherm(langmuir, steam, { fixed: { K_L: 0.01 } });
		expect(cellsAfter(quotedTable(held), "steam", "K_L", "L/mg")).toEqual([
			0.01,
			"not available",
			"held at this value",
		]);
	});
});

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
