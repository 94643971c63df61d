import { describe, expect, test } from "vitest";
import {
	errorsInWords,
	fit as fitCurve,
	fitTable,
	parameterTable,
	pointTable,
	type ToldFit,
} from "../../kernel-lib/fit";
import { tableText } from "../../kernel-lib/quantity/index";
import { referenceData } from "../reference/check";
import { decay, hyperbola, level, line, tenDoses } from "./fixtures";

const y = tenDoses.map((c) => (200 * 0.05 * c) / (1 + 0.05 * c) + (c % 3));
const start = { k: 0.03 };
const { cases } = referenceData<{
	cases: { id: string; x: number[]; y: number[] }[];
}>("hard-cases.json");

/** Fits of every kind, good and bad. */
const all: readonly (readonly [string, ToldFit])[] = [
	["plain", fitCurve(hyperbola, { x: tenDoses, y, name: "steam" }, { start })],
	[
		"absolute sigmas",
		fitCurve(
			hyperbola,
			{ x: tenDoses, y, sigmaY: 2, sigmaIsAbsolute: true },
			{ start },
		),
	],
	[
		"covariance",
		fitCurve(
			hyperbola,
			{
				x: tenDoses,
				y,
				covarianceY: tenDoses.map((_, i) =>
					tenDoses.map((__, j) => 9 + (i === j ? 4 : 0)),
				),
				sigmaIsAbsolute: false,
			},
			{ start },
		),
	],
	["Huber", fitCurve(hyperbola, { x: tenDoses, y }, { start, loss: "Huber" })],
	["fixed", fitCurve(hyperbola, { x: tenDoses, y }, { fixed: { k: 0.04 } })],
	["no points to spare", fitCurve(line, { x: [1, 2], y: [3, 5] })],
	["all on a line", fitCurve(line, { x: [1, 2, 3], y: [2, 4, 6] })],
	["all zero", fitCurve(line, { x: [1, 2, 3], y: [0, 0, 0] })],
	["all equal", fitCurve(level, { x: [1, 2, 3, 4], y: [7, 7, 7, 7] })],
	[
		"all equal, Cauchy",
		fitCurve(level, { x: [1, 2, 3, 4], y: [7, 7, 7, 7] }, { loss: "Cauchy" }),
	],
	["one x for two parameters", fitCurve(line, { x: [3, 3, 3], y: [1, 2, 3] })],
	[
		"on a limit",
		fitCurve(
			decay,
			{ x: [0, 1, 2, 3, 4, 5], y: [50, 30, 19, 9, 5, 0] },
			{ start: { k: 0.5 } },
		),
	],
	[
		"start where the curve is not finite",
		fitCurve(
			hyperbola,
			{ x: tenDoses, y },
			{ start: { k: 1e308 }, search: "never" },
		),
	],
	[
		"too few evaluations",
		fitCurve(
			hyperbola,
			{ x: tenDoses, y },
			{ start: { k: 30 }, maxEvaluations: 2, search: "never" },
		),
	],
	...cases
		.filter((c) => c.id.startsWith("langmuir"))
		.map(
			(c) =>
				[
					c.id,
					fitCurve(hyperbola, { x: c.x, y: c.y }, { start: { k: 0.01 } }),
				] as const,
		),
];

describe.each(all)("tables of a fit: %s", (_, fit) => {
	const tables = [parameterTable(fit), pointTable(fit), fitTable(fit)];

	test("have a row for each parameter, each point, and one for the fit", () => {
		expect(tables.map((t) => t.length)).toEqual([
			fit.parameters.length,
			fit.points,
			1,
		]);
	});

	test("have the same columns as those of any other fit", () => {
		const plain = all[0][1];
		[parameterTable(plain), pointTable(plain), fitTable(plain)].forEach(
			(table, k) => {
				for (const row of tables[k])
					expect(Object.keys(row)).toEqual(Object.keys(table[0]));
			},
		);
	});

	test("hold no number that is none, and no empty word in place of a reason", () => {
		for (const row of tables.flat())
			for (const [column, cell] of Object.entries(row)) {
				if (typeof cell === "number")
					expect(Number.isFinite(cell), `${column}: ${cell}`).toBe(true);
				else
					expect(String(cell), column).not.toMatch(
						/NaN|Infinity|undefined|null|\[object/,
					);
			}
		for (const row of parameterTable(fit))
			if (row.standardError === "not available") expect(row.note).not.toBe("");
		for (const flag of [
			fit.converged,
			fit.errorsAvailable,
			fit.determined,
			fit.atLimit,
		])
			expect(flag.reason.length).toBeGreaterThan(10);
	});

	test("a fit that did not work says so in words", () => {
		if (
			!fit.converged.holds ||
			!fit.errorsAvailable.holds ||
			!fit.determined.holds ||
			fit.atLimit.holds
		)
			expect(fit.cautions.length).toBeGreaterThan(0);
		for (const caution of fit.cautions)
			expect(caution).not.toMatch(/NaN|Infinity|undefined/);
	});
});

describe("what a table says", () => {
	test("how the errors of y entered, in words that cannot be misread", () => {
		const words = (name: string): string =>
			errorsInWords((all.find(([n]) => n === name) as (typeof all)[0])[1]);
		expect(words("plain")).toBe("equal, estimated from the scatter");
		expect(words("absolute sigmas")).toBe("given sigmas, taken as absolute");
		expect(words("covariance")).toBe(
			"given covariance up to a common factor estimated from the scatter",
		);
	});

	test("the row of a parameter holds its value, unit, interval and role", () => {
		const plain = all[0][1];
		const [row] = parameterTable(plain);
		expect(row).toMatchObject({
			set: "steam",
			model: "hyperbola",
			parameter: "q",
			unit: "mg/g",
			value: plain.theta[0],
			role: "free",
			limit: "none",
			confidence: 0.95,
			note: "",
		});
		// t(0.975; 8)
		expect(((row.high as number) - (row.low as number)) / 2).toBeCloseTo(
			2.306004135204166 * (row.standardError as number),
			8,
		);
		expect(pointTable(plain)[3]).toMatchObject({
			set: "steam",
			point: 4,
			x: 20,
			y: y[3],
			fitted: plain.fitted[3],
			residual: y[3] - plain.fitted[3],
			lossWeight: 1,
		});
	});

	test("a fit is shown with its parameters, and carries what it is worth", () => {
		const plain = all[0][1];
		const [q] = parameterTable(plain);
		expect(plain.table.title).toBe(`Parameters, "steam", hyperbola`);
		expect(plain.table.columns.slice(2, 6)).toEqual([
			"parameter",
			"unit",
			"value",
			"standard error",
		]);
		expect(plain.table.rows[0]).toEqual(Object.values(q));
		const what = new Map(plain.quality.rows.map(([a, b]) => [a, b]));
		expect(what.get("residual SD")).toBe(fitTable(plain)[0].residualSD);
		expect(what.get("converged")).toBe("yes");
		expect(what.get("degrees of freedom")).toBe(plain.degreesOfFreedom);
		expect(Object.keys(plain)).not.toContain("table");
		for (const [, fit] of all)
			expect(tableText(fit.table) + tableText(fit.quality)).not.toMatch(
				/NaN|Infinity|undefined|\[object/,
			);
	});

	test("many fits bind into one table", () => {
		const fits = all.map(([, fit]) => fit);
		expect(parameterTable(...fits).length).toBe(
			fits.reduce((s, f) => s + f.parameters.length, 0),
		);
		expect(fitTable(...fits).length).toBe(fits.length);
	});
});
