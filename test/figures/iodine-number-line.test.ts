import { expect, test } from "vitest";
import {
	figureSvg,
	iodineNumberLine,
	plotlyFigure,
} from "../../kernel-lib/figures/index";
import { table } from "../../kernel-lib/quantity/index";
import { iodineNumbers, logLine } from "../../kernel-lib/uptake/index";
import { charRow, steps } from "../uptake/sheets";
import { benchScale, numbers } from "./isotherm-fixtures";
import { readTexts } from "./svg-reading";

const [number] = numbers;
if (number.is !== "value") throw new Error("the demo number has a value");
const f = iodineNumberLine(number);

test("line and band are those of the log-log line at every normality, the value stands at 0.02 N", () => {
	const band = f.layers.find((l) => l.is === "band");
	if (band?.is !== "band") throw new Error("no band");
	for (const at of [band.points[0], band.points[band.points.length - 1]]) {
		const line = logLine(number.points, at.x);
		expect(at.low).toBeCloseTo(line.low, 9);
		expect(at.high).toBeCloseTo(line.high, 9);
	}
	const value = f.layers.find((l) => l.is === "points" && l.size === "large");
	expect(value?.is === "points" && value.points[0]).toMatchObject({
		x: 0.02,
		y: number.line.value.in("mg/g"),
		yInterval: { low: number.line.low, high: number.line.high },
	});
});

test("the window and 0.02 N are marked on logarithmic axes, in both back-ends", () => {
	expect([f.x.scale.is, f.y.scale.is]).toEqual(["log", "log"]);
	const texts = readTexts(figureSvg(f, { width: 720 })).map((t) => t.text);
	expect(texts).toContain("window 0.008 to 0.04 N");
	expect(texts).toContain("read at 0.02 N");
	expect(texts).toContain("0.02");
	const { xaxis } = plotlyFigure(f).layout as {
		xaxis: { type: string; range: number[]; tickvals: number[] };
	};
	expect(xaxis.type).toBe("log");
	expect(10 ** xaxis.range[0]).toBeLessThan(0.008);
	expect(10 ** xaxis.range[1]).toBeGreaterThan(0.04);
	expect(xaxis.tickvals).toContain(0.02);
});

test("the figure is called what the result may be called", () => {
	expect(f.title).toBe('Iodine number (ASTM D4607), "fired twice"');
	const scaled = iodineNumberLine(benchScale[0]);
	expect(scaled.title).not.toMatch(/iodine number/i);
	expect(scaled.alt).toContain("Four dosages");
});

test("without a value the figure says why and draws no point", () => {
	const none = iodineNumberLine({
		is: "not available",
		file: "char.csv",
		ammonia: "none named",
		notAsAsked: "",
		treatment: "x",
		sentence: "",
		because: "two dosages only",
		remarks: ["Flask 1 is not on the line."],
		weighInstead: "",
		nextTrial: [],
		conditionTable: table("Conditions", [], []),
	});
	expect(none.layers.some((l) => l.is === "points")).toBe(false);
	expect(none.alt).toContain("two dosages only");
	expect(none.notes.join(" ")).toContain("Flask 1 is not on the line.");
});

test("several chars stand on one pair of axes, one without a value in the notes, and nothing is refused", () => {
	const two = [number, { ...benchScale[0], treatment: "other" }] as const;
	const both = iodineNumberLine(two);
	expect(both.title).toBe("Iodine uptake at 0.02 N of two chars");
	expect(both.alt).toContain('"fired twice": ');
	expect(both.alt).toContain('"other": ');
	expect(both.layers.filter((l) => l.is === "line")).toHaveLength(2);
	const none = iodineNumbers(steps([charRow("1", {})]).trial);
	const three = iodineNumberLine([...two, ...none]);
	expect(three.notes[0]).toBe(
		'"control" is not available: 1 of 1 dosages gave a point; a line with an error needs three at different residues.',
	);
	expect(iodineNumberLine(none).alt).toContain("not available");
	expect(iodineNumberLine([number])).toEqual(f);
	expect(() => iodineNumberLine([])).toThrow("an empty list");
});
