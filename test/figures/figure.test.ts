import { inspect } from "node:util";
import { describe, expect, test } from "vitest";
import {
	type Figure,
	figure,
	figureMimeType,
	figureSchema,
	type Layer,
	readFigure,
} from "../../kernel-lib/figures/index";
import { jupyterDisplay, ProblemError } from "../../kernel-lib/quantity/index";
import { isotherm } from "./fixtures";
import { sampleFigures } from "./samples";

function withLayers(
	layers: readonly Layer[],
	scale: Figure["x"]["scale"] = { is: "linear" },
): Figure {
	return figure({
		title: "t",
		alt: "a",
		x: { label: "dose", unit: "mg", scale },
		y: { label: "", unit: "", scale: { is: "linear" } },
		layers,
		notes: [],
	});
}

function pointsAt(...places: [number, number][]): Layer {
	return {
		is: "points",
		name: "flasks",
		ink: "blue",
		shape: "circle",
		points: places.map(([x, y]) => ({ x, y, hover: "" })),
	};
}

function problemsOf(make: () => unknown): string[] {
	try {
		make();
	} catch (error) {
		if (error instanceof ProblemError) return error.problems.map((p) => p.code);
		throw error;
	}
	return [];
}

describe("a figure shows itself", () => {
	const bundle = isotherm[jupyterDisplay]();

	test("in four forms, the plain text being the alt text", () => {
		expect(Object.keys(bundle).sort()).toEqual([
			figureMimeType,
			"image/svg+xml",
			"text/html",
			"text/plain",
		]);
		expect(bundle["text/plain"]).toBe(isotherm.alt);
		expect(inspect(isotherm)).toBe(isotherm.alt);
	});

	test("as HTML with two static pictures, no script, and the alt text", () => {
		const html = String(bundle["text/html"]);
		expect(html).not.toMatch(/<script/i);
		expect(html).toContain(`alt="${isotherm.alt}"`);
		const pictures = [
			...html.matchAll(/data:image\/svg\+xml;base64,([A-Za-z0-9+/=]+)/g),
		].map((m) => Buffer.from(m[1], "base64").toString("utf8"));
		expect(pictures).toHaveLength(2);
		for (const svg of pictures) expect(svg).toMatch(/^<svg .*<\/svg>$/);
		expect(pictures).toContain(bundle["image/svg+xml"]);
	});

	test("as plain data that survives JSON and a reader's check", () => {
		const json = JSON.parse(JSON.stringify(bundle[figureMimeType]));
		expect(json).toEqual({ ...isotherm });
		expect(readFigure(json)).toEqual({ ok: true, value: json });
	});
});

describe("what cannot be drawn is refused, all at once", () => {
	test("numbers that are none, or larger than any axis", () => {
		expect(
			problemsOf(() =>
				withLayers([
					pointsAt([Number.NaN, 1], [1, Number.POSITIVE_INFINITY], [1, 1e200]),
				]),
			),
		).toEqual([
			"figure-number-not-finite",
			"figure-number-not-finite",
			"figure-number-too-large",
		]);
	});

	test("zero on a log axis, but not an error bar that reaches it", () => {
		expect(
			problemsOf(() => withLayers([pointsAt([0, 1])], { is: "log" })),
		).toEqual(["figure-log-of-nothing"]);
		const bar: Layer = {
			is: "points",
			name: "",
			ink: "blue",
			shape: "circle",
			points: [{ x: 1, y: 1, hover: "", xInterval: { low: -1, high: 3 } }],
		};
		expect(problemsOf(() => withLayers([bar], { is: "log" }))).toEqual([]);
	});

	test("places outside the categories, intervals upside down, bars without width", () => {
		expect(
			problemsOf(() =>
				withLayers([pointsAt([2, 1])], { is: "categories", names: ["a", "b"] }),
			),
		).toEqual(["figure-no-such-category"]);
		expect(
			problemsOf(() =>
				withLayers([
					{
						is: "band",
						name: "",
						ink: "blue",
						points: [{ x: 0, low: 2, high: 1 }],
					},
					{
						is: "bars",
						name: "",
						ink: "blue",
						hatch: "plain",
						along: "y",
						width: 0,
						bars: [],
					},
				]),
			),
		).toEqual(["figure-interval-upside-down", "figure-bar-without-width"]);
	});

	test("the message names the figure, the axis and the number", () => {
		expect(() => withLayers([pointsAt([Number.NaN, 1])])).toThrow(
			/NaN in the points "flasks" on the x axis \(dose\) in the figure "t"/,
		);
	});
});

describe("a description from outside", () => {
	test("is taken where it is right, for every kind of figure", () => {
		for (const [name, f] of sampleFigures())
			expect(readFigure(JSON.parse(JSON.stringify(f))).ok, name).toBe(true);
	});

	test("has a published schema that names every kind of layer", () => {
		const schema = JSON.stringify(figureSchema());
		for (const is of [
			"points",
			"arrows",
			"bars",
			"line",
			"band",
			"region",
			"reference line",
			"zone",
			"labels",
		])
			expect(schema).toContain(`"const":"${is}"`);
		expect(schema).toContain("charledger figure");
	});

	test.each([
		["no figure", { a: 1 }],
		["another version", { ...isotherm, version: 2 }],
		[
			"an ink that is none",
			{ ...isotherm, layers: [{ ...pointsAt([1, 1]), ink: 'red" onload="x' }] },
		],
		[
			"a number that is a text",
			{
				...isotherm,
				layers: [
					{ ...pointsAt([1, 1]), points: [{ x: "1", y: 1, hover: "" }] },
				],
			},
		],
		["nothing", null],
	])("is refused where it is %s", (_, json) => {
		const read = readFigure(json);
		expect(read.ok).toBe(false);
		if (!read.ok) expect(read.problems.length).toBeGreaterThan(0);
	});
});
