import { describe, expect, test } from "vitest";
import { checksTable } from "../../kernel-lib/isotherms/checks-table";
import {
	dualSiteLangmuir,
	fitIsotherm,
	fitTables,
	freundlich,
	langmuir,
	ownIsotherm,
	plainPoints,
	sips,
	uptakeAtResidue,
} from "../../kernel-lib/isotherms/index";
import { pointTable } from "../../kernel-lib/isotherms/point-table";
import {
	fitTable,
	intervalText,
	parameterTable,
	residualTable,
} from "../../kernel-lib/isotherms/tables";
import { tableText } from "../../kernel-lib/quantity/index";
import { goodLines, pointsOn } from "./plain-lines";

const errors = [3, -4, 1, 5, -2, -5, 4, 2, -3];
const control = pointsOn(langmuir, [350, 0.01], goodLines, {
	name: "control",
	errors: errors.map((e) => 2 * e),
	limit: 60,
});
const steam = pointsOn(langmuir, [420, 0.012], goodLines, {
	name: "steam",
	errors: [...errors].reverse(),
});
const few = plainPoints("few", [10, 20, 40, 80], [30, 45, 60, 70]);
const fits = [
	fitIsotherm(langmuir, control),
	fitIsotherm(sips, steam),
	fitIsotherm(freundlich, steam, { method: "uptake on concentration" }),
	fitIsotherm(langmuir, steam, { fixed: { K_L: 0.01 } }),
	fitIsotherm(dualSiteLangmuir, few),
];

describe("tables of isotherm fits", () => {
	test.each([
		["parameters", parameterTable, fits.flatMap((f) => f.parameters).length],
		["points", residualTable, fits.flatMap((f) => f.used).length],
		["fits", fitTable, fits.length],
	] as const)(
		"%s: any fits bind into one table with the same columns",
		(_, make, rows) => {
			const all = make(...fits);
			expect(all.rows.length).toBe(rows);
			for (const row of all.rows) expect(row.length).toBe(all.columns.length);
			fits.forEach((f) => {
				expect(make(f).columns).toEqual(all.columns);
			});
			expect(make(...fits).rows).toEqual(fits.flatMap((f) => make(f).rows));
		},
	);

	test("fits side by side carry all four, and are shown as their parameters", () => {
		const tables = fitTables(...fits);
		expect(tables.fits).toEqual(fits);
		expect(tableText(tables.table)).toBe(tableText(parameterTable(...fits)));
		expect(tableText(tables.quality)).toBe(tableText(fitTable(...fits)));
		expect(tableText(tables.checks)).toBe(tableText(checksTable(...fits)));
		expect(tableText(tables.residuals)).toBe(tableText(residualTable(...fits)));
		expect(tables.table).toBe(tables.table);
		expect(Object.keys(tables)).toEqual(["fits"]);
	});

	test("no NaN, Infinity or undefined reaches a reader", () => {
		const shown = JSON.stringify([
			parameterTable(...fits),
			residualTable(...fits),
			fitTable(...fits),
			few.table,
			pointTable(control),
		]);
		expect(shown).not.toMatch(/NaN|Infinity|undefined|null/);
	});

	test("a parameter that was held is said to be held", () => {
		const [, row] = parameterTable(fits[3]).rows;
		expect(row.at(-1)).toBe("held at this value");
	});

	test("as many parameters as points have no errors, and the reason is told", () => {
		const rows = parameterTable(fits[4]).rows.map((r) => r.join(" | "));
		expect(rows.join("\n")).toContain("not available");
		for (const p of fits[4].parameters) {
			expect(p.standardError.is).toBe("not known");
			expect(p.profile.is).toBe("not known");
		}
		expect(fits[4].aicc.is).toBe("not known");
	});

	test("a bound has no residual, a reading has one in its standard deviations", () => {
		const rows = residualTable(fits[0]).rows;
		expect(rows[0].join(" ")).toContain("at most 60");
		expect(rows[0].at(-1)).toBe("");
		const inDeviations = rows
			.slice(1)
			.map((r) => Number(String(r.at(-1)).replace("−", "-")));
		// their squares sum to the degrees of freedom of the readings
		const squares = inDeviations.reduce((s, v) => s + v * v, 0);
		expect(squares).toBeGreaterThan(5.8);
		expect(squares).toBeLessThan(6.2);
	});

	test("ends of intervals in words", () => {
		const interval = (low: object, high: object) =>
			intervalText({
				is: "value",
				value: { low, high, confidence: 0.95, method: "" } as never,
			});
		const closed = (value: number) => ({ kind: "closed", value });
		const open = { kind: "open", reason: "no end" };
		expect(interval(closed(271.4), closed(312.2))).toBe("271 to 312");
		expect(interval(closed(271.4), open)).toBe("from 271, open above");
		expect(interval(open, closed(312.2))).toBe("open below, up to 312");
		expect(interval(open, open)).toBe("open at both ends");
	});
});

describe("your own curve in three lines", () => {
	const mine = ownIsotherm({
		name: "logarithm",
		parameters: ["a", "b"],
		start: [60, 0.01],
		curve: (c, a, b) => a * Math.log1p(b * c),
	});
	const points = pointsOn(mine, [70, 0.05], goodLines, { errors });

	test("it is fitted on balance lines like those of the catalogue", () => {
		const fit = fitIsotherm(mine, points);
		expect(fit.method).toBe("balance lines");
		expect(fit.theta[0] / 70).toBeCloseTo(1, 1);
		expect(fit.parameters.every((p) => p.profile.is === "value")).toBe(true);
		expect(fit.parameters[0].meaning).toBe("as given");
	});

	test("tables, predictions and straight words work on it", () => {
		const fit = fitIsotherm(mine, points);
		expect(parameterTable(fit, fits[0]).rows.length).toBe(4);
		const [at] = uptakeAtResidue(fit, 1000);
		expect(at.uptake / (70 * Math.log1p(0.05 * 1000))).toBeCloseTo(1, 1);
		expect(at.standardError.is).toBe("value");
		expect(fit.opinion).toBeInstanceOf(Array);
	});

	test("another number of start values than of parameters is refused", () => {
		expect(() =>
			ownIsotherm({
				name: "x",
				parameters: ["a", "b"],
				start: [1],
				curve: (c, a, b) => a * c ** b,
			}),
		).toThrow(/2 parameters and 1 start values/);
	});
});
