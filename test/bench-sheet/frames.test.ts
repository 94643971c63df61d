import { createRequire } from "node:module";
import { describe, expect, test } from "vitest";
import type { DataFrame } from "../../kernel-lib/bench/index";
import { flaskFrame, frame, trialFromRows } from "../../kernel-lib/bench/index";
import {
	input,
	jupyterDisplay,
	normal,
	type Quantity,
	table,
} from "../../kernel-lib/quantity/index";
import { changed } from "./rows";

const require = createRequire(import.meta.url);
const trial = trialFromRows(changed("c1", { colour: "brown" }));
const uptake = (value: number, u: number, unit: "mg/g" | "g/g"): Quantity =>
	input("uptake", value, unit, normal(u), { symbol: "q", meaning: "uptake" });

describe("frames", () => {
	const flasks = flaskFrame(trial);

	test("a row a flask, units in the names of the columns, unknown columns too", () => {
		expect(flasks.shape[0]).toBe(trial.flasks.length);
		expect(flasks.columns).toEqual(
			expect.arrayContaining([
				"flask",
				"char mass (g)",
				"dose 1 (mL)",
				"made up to (mL)",
				"aliquot (mL)",
				"titre 1 (mL)",
				"colour",
			]),
		);
		expect(flasks.column("char mass (g)").values.slice(0, 4)).toEqual([
			1.02, 1.02, 1.02, 1.02,
		]);
		expect(flasks.column("char mass (g)").values[4]).toBeNaN();
	});

	test("quantities become value and uncertainty in one unit, bounds a third column", () => {
		const f = frame(
			table(
				"uptakes",
				["flask", "uptake"],
				[
					["a", { is: "value", quantity: uptake(300, 5, "mg/g") }],
					[
						"b",
						{
							is: "at least",
							quantity: uptake(0.4, 0.01, "g/g"),
							because: "ran dry",
						},
					],
					["c", ""],
				],
			),
		);
		expect(f.columns).toEqual([
			"flask",
			"uptake (mg/g)",
			"uptake standard uncertainty (mg/g)",
			"uptake is",
		]);
		expect(f.column("uptake (mg/g)").values).toEqual([
			300,
			expect.closeTo(400, 9),
			Number.NaN,
		]);
		expect(f.column("uptake standard uncertainty (mg/g)").values).toEqual([
			expect.closeTo(5, 9),
			expect.closeTo(10, 9),
			Number.NaN,
		]);
		expect(f.column("uptake is").values).toEqual(["value", "at least", ""]);
	});

	test("shows itself as a table in a notebook, without NaN", () => {
		const show = (
			flasks as unknown as Record<symbol, () => Record<string, string>>
		)[jupyterDisplay];
		const html = show.call(flasks)["text/html"];
		expect(html).toContain("<th>char mass (g)</th>");
		expect(html).not.toContain("NaN");
	});
});

describe("the frames can be gone on with, without native binaries", () => {
	const frameOf = (columns: Record<string, (string | number)[]>) => {
		const names = Object.keys(columns);
		return frame(
			table(
				"",
				names,
				columns[names[0]].map((_, i) => names.map((n) => columns[n][i])),
			),
		);
	};
	const f = frameOf({
		treatment: ["a", "b", "a", "b"],
		"uptake (mg/g)": [310, 260, 290, 300],
		day: [1, 1, 2, 2],
	});
	const danfo = require("danfojs-node") as {
		toCSV(f: unknown): string;
		merge(o: object): typeof f;
		concat(o: object): typeof f;
		StandardScaler: new () => {
			fit(f: unknown): void;
			transform(f: unknown): unknown;
		};
	};

	test("group", () => {
		const g = f
			.groupby(["treatment"])
			.agg({ "uptake (mg/g)": ["mean", "std"] });
		expect(g.column("uptake (mg/g)_mean").values).toEqual([300, 280]);
		expect(g.column("uptake (mg/g)_std").values).toEqual([
			expect.closeTo(Math.sqrt(200), 12),
			expect.closeTo(Math.sqrt(800), 12),
		]);
	});
	test("query", () => {
		expect(f.query(f.column("uptake (mg/g)").gt(295)).shape).toEqual([2, 3]);
	});
	test("describe", () => {
		const d = f.loc({ columns: ["uptake (mg/g)", "day"] }).describe();
		expect(d.column("uptake (mg/g)").values).toEqual([
			4,
			290,
			expect.closeTo(Math.sqrt(1400 / 3), 9),
			260,
			295,
			310,
			expect.closeTo(1400 / 3, 9),
		]);
	});
	test("sort", () => {
		expect(f.sortValues("uptake (mg/g)").column("treatment").values).toEqual([
			"b",
			"a",
			"b",
			"a",
		]);
	});
	test("add a column", () => {
		const g = f.addColumn(
			"uptake (g/g)",
			f.column("uptake (mg/g)").values.map((v) => Number(v) / 1000),
		);
		expect(g.column("uptake (g/g)").values[0]).toBeCloseTo(0.31, 12);
	});
	test("merge and append", () => {
		const right = frameOf({ treatment: ["a", "b"], cost: [1, 2] });
		const m = danfo.merge({
			left: f,
			right,
			on: ["treatment"],
			how: "inner",
		});
		expect(m.shape).toEqual([4, 4]);
		expect(
			danfo.concat({ dfList: [f.copy(), f.copy()], axis: 0 }).shape,
		).toEqual([8, 3]);
	});
	test("CSV", () => {
		expect((danfo.toCSV(f) as string).split("\n")[0]).toBe(
			"treatment,uptake (mg/g),day",
		);
	});
	test("column statistics, with the sample variance and all modes", () => {
		const c = f.column("uptake (mg/g)");
		expect([c.mean(), c.median(), c.min(), c.max(), c.sum()]).toEqual([
			290, 295, 260, 310, 1160,
		]);
		expect(c.var()).toBeCloseTo(1400 / 3, 9);
		expect((f.column("day") as unknown as { mode(): number[] }).mode()).toEqual(
			[1, 2],
		);
	});
	test("arithmetic on tensors: add, divide, difference, scaler", () => {
		const numbers = f.loc({ columns: ["uptake (mg/g)", "day"] });
		expect(numbers.add(1).values[0]).toEqual([311, 2]);
		expect(numbers.div(2).values[0]).toEqual([155, 0.5]);
		expect(numbers.diff(1).values[1]).toEqual([-50, 0]);
		const scaler = new danfo.StandardScaler();
		scaler.fit(numbers);
		expect(
			(scaler.transform(numbers) as DataFrame).values.map(
				(r) => (r as number[])[1],
			),
		).toEqual([-1, -1, 1, 1]);
	});
	test("a sample of rows", async () => {
		expect(((await f.sample(2)) as DataFrame).shape).toEqual([2, 3]);
	});
	test("drop, rename, first rows, fill", () => {
		expect(f.drop({ columns: ["day"] }).columns).toHaveLength(2);
		expect(f.rename({ day: "day of the trial" }).columns[2]).toBe(
			"day of the trial",
		);
		expect(f.head(2).shape).toEqual([2, 3]);
		const gaps = frameOf({ x: [1, "", 3] });
		expect(gaps.fillNa(0).column("x").values).toEqual([1, 0, 3]);
		expect(gaps.dropNa().shape).toEqual([2, 1]);
	});
	test("statistics of a column with a gap are not numbers, rather than wrong ones", () => {
		const d = frameOf({ x: [1, "", 3, 9] }).describe();
		expect(d.column("x").values.slice(4, 5)).toEqual([Number.NaN]);
	});
});

test("the statistics stand-in follows the conventions of what it stands in for", () => {
	const statistics = require("mathjs") as Record<
		"mean" | "median" | "mode" | "std" | "variance",
		(values: unknown[]) => unknown
	>;
	expect(statistics.variance([2, 4, 6])).toBe(4);
	expect(statistics.std([2, 4, 6])).toBe(2);
	expect(statistics.variance([5])).toBe(0);
	expect(statistics.mode([3, 1, 3, 1, 2])).toEqual([3, 1]);
	expect(statistics.mode(["x"])).toEqual(["x"]);
	expect(statistics.median([4, 1, 3, 2])).toBe(2.5);
	expect(statistics.mean([1, 2])).toBe(1.5);
});

describe("a frame that was sorted, cut or filtered is filtered by what stands in its rows", () => {
	const frameOf = () =>
		frame(
			table(
				"Numbers",
				["name", "number"],
				[
					["c", 3],
					["a", 1],
					["b", 2],
					["e", 5],
				],
			),
		);
	const over = (f: DataFrame, least: number) =>
		f.query(f.column("number").gt(least));
	const names = (f: DataFrame) => f.column("name").values;

	test("sorted", () => {
		expect(names(over(frameOf().sortValues("number"), 2))).toEqual(["c", "e"]);
	});
	test("filtered, twice", () => {
		expect(names(over(over(frameOf(), 1), 2))).toEqual(["c", "e"]);
		expect(names(over(over(over(frameOf(), 1), 2), 4))).toEqual(["e"]);
		expect(over(over(frameOf(), 1), 9).shape[0]).toBe(0);
	});
	test("cut, and rows by true and false", () => {
		const last = frameOf().tail(3);
		expect(names(over(last, 1))).toEqual(["b", "e"]);
		expect(names(last.iloc({ rows: last.column("number").gt(1) }))).toEqual([
			"b",
			"e",
		]);
		expect(names(last.iloc({ rows: [0, 2] }))).toEqual(["a", "e"]);
	});
	test("in its own place", () => {
		const sorted = frameOf().sortValues("number");
		sorted.query(sorted.column("number").gt(2), { inplace: true });
		expect(names(sorted)).toEqual(["c", "e"]);
	});
});
