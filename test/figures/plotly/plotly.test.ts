import { describe, expect, test } from "vitest";
import {
	type FigureDescription,
	figureSvg,
	flasksAgainstControl,
	type Layer,
	narrowLayout,
	plotlyFigure,
} from "../../../kernel-lib/figures/index";
import { themes } from "../../../kernel-lib/figures/look";
import { plotlyText } from "../../../kernel-lib/figures/plotly/parts";
import { uptakesAtResidues } from "../../../kernel-lib/figures/residue-and-uptake";
import { textWidth } from "../../../kernel-lib/figures/text";
import { comparison, isotherm, logarithmic, uptakes } from "../fixtures";
import { sampleFigures } from "../samples";
import { readPoints, readTexts, tickNumber } from "../svg-reading";

type Json = Record<string, unknown>;

const samples = [...sampleFigures()];

function numbers(value: unknown): number[] {
	return (value as number[]) ?? [];
}

/** The layers of one kind, in order. */
function layersOf<K extends Layer["is"]>(
	f: FigureDescription,
	is: K,
): Extract<Layer, { is: K }>[] {
	return f.layers.filter((l): l is Extract<Layer, { is: K }> => l.is === is);
}

/** Every text that Plotly would read tags in. */
function texts(value: unknown, found: string[] = []): string[] {
	if (typeof value === "string") found.push(value);
	else if (value !== null && typeof value === "object")
		for (const v of Object.values(value)) texts(v, found);
	return found;
}

describe.each(samples)("%s", (_, f) => {
	const plot = plotlyFigure(f);

	test("is JSON of the basic build's traces, without a wrong number", () => {
		expect(JSON.parse(JSON.stringify(plot))).toEqual(plot);
		for (const trace of plot.data) {
			expect(["scatter", "bar"]).toContain(trace.type);
			const x = numbers(trace.x);
			const y = numbers(trace.y);
			expect(x.length).toBe(y.length);
			// The one trace without points stands for arrows in the key.
			if (x.length === 1 && x[0] === null) expect(trace.showlegend).toBe(true);
			else for (const v of [...x, ...y]) expect(Number.isFinite(v)).toBe(true);
		}
		expect(JSON.stringify(plot)).not.toMatch(/NaN|undefined|Infinity/);
	});

	test("has the numbers of the description, hover texts included", () => {
		const expected = f.layers.flatMap((l): Json[] => {
			switch (l.is) {
				case "points":
					return [
						{
							x: l.points.map((p) => p.x),
							y: l.points.map((p) => p.y),
							hover: l.points.map((p) => plotlyText(p.hover)),
						},
					];
				case "arrows":
					return [
						{
							x: l.arrows.map((p) => p.x),
							y: l.arrows.map((p) => p.y),
							hover: l.arrows.map((p) => plotlyText(p.hover)),
						},
					];
				case "bars": {
					const at = l.bars.map((b) => b.at);
					const ends = l.bars.map((b) => b.to - b.from);
					return [
						{
							x: l.along === "x" ? ends : at,
							y: l.along === "x" ? at : ends,
							hover: l.bars.map((p) => plotlyText(p.hover)),
						},
					];
				}
				case "line":
				case "region":
					return [
						{
							x: l.points.map((p) => p.x),
							y: l.points.map((p) => p.y),
							hover: null,
						},
					];
				case "band":
					return [
						{
							x: [
								...l.points.map((p) => p.x),
								...l.points.map((p) => p.x).reverse(),
							],
							y: [
								...l.points.map((p) => p.high),
								...l.points.map((p) => p.low).reverse(),
							],
							hover: null,
						},
					];
				default:
					return [];
			}
		});
		const got = plot.data
			.filter((t) => numbers(t.x)[0] !== null)
			.map((t) => ({ x: t.x, y: t.y, hover: t.hovertext ?? null }));
		// A layer with nothing in it has no trace.
		expect(got).toEqual(expected.filter((t) => numbers(t.x).length > 0));
	});

	test("draws error bars to the ends of the intervals", () => {
		const traces = plot.data.filter(
			(t) =>
				t.type === "scatter" &&
				String(t.mode).startsWith("markers") &&
				numbers(t.x)[0] !== null,
		);
		const marked = f.layers.filter(
			(l) =>
				(l.is === "points" && l.points.length > 0) ||
				(l.is === "arrows" && l.arrows.length > 0),
		);
		traces.forEach((trace, i) => {
			const layer = marked[i];
			if (layer.is !== "points") return;
			for (const which of ["x", "y"] as const) {
				const bars = trace[`error_${which}`] as Json | undefined;
				layer.points.forEach((p, k) => {
					const interval = which === "x" ? p.xInterval : p.yInterval;
					if (!interval) return;
					expect(p[which] + numbers(bars?.array)[k]).toBeCloseTo(
						interval.high,
						9,
					);
					expect(p[which] - numbers(bars?.arrayminus)[k]).toBeCloseTo(
						interval.low,
						9,
					);
				});
			}
		});
	});

	test("reads no tags but its own line breaks and bold", () => {
		for (const text of texts(plot))
			expect(text.replace(/<\/?b>|<br>/g, "")).not.toMatch(/[<>]/);
		expect(plot.config.typesetMath).toBe(false);
		for (const trace of plot.data) {
			expect(trace.hovertemplate).toBe(undefined);
			expect(trace.texttemplate).toBe(undefined);
		}
	});

	test("stands in one key entry a name, and has axis titles with units", () => {
		const shown = [...plot.data, ...(plot.layout.shapes as Json[])]
			.filter((t) => t.showlegend)
			.map((t) => t.name);
		expect(new Set(shown).size).toBe(shown.length);
		for (const which of ["x", "y"] as const) {
			const title = (plot.layout[`${which}axis`] as Json).title as Json;
			expect(String(title.text)).toContain(f[which].unit);
		}
	});
});

describe("both back-ends show the same", () => {
	const cases: [string, FigureDescription][] = [
		["residue and uptake", uptakesAtResidues(uptakes, "iodine", new Set())],
		["isotherm", isotherm],
		["logarithmic", logarithmic],
	];
	test.each(cases)(
		"%s: points read back from the picture's own ticks",
		(_, f) => {
			const svg = figureSvg(f, { width: 1100 });
			const scaleOf = (which: "x" | "y"): ((px: number) => number) => {
				const log = f[which].scale.is === "log";
				const ticks = readTexts(svg).filter((t) => t.role === `${which} tick`);
				const [a, b] = [ticks[0], ticks[ticks.length - 1]];
				const value = (t: (typeof ticks)[number]): number =>
					log ? Math.log(tickNumber(t.text)) : tickNumber(t.text);
				const shift = which === "y" ? -0.35 * 12 : 0;
				return (px) => {
					const v =
						value(a) +
						((px - (a[which] + shift)) / (b[which] - a[which])) *
							(value(b) - value(a));
					return log ? Math.exp(v) : v;
				};
			};
			const x = scaleOf("x");
			const y = scaleOf("y");
			const drawn = readPoints(svg);
			const plotted = plotlyFigure(f)
				.data.filter(
					(t) =>
						String(t.mode).startsWith("markers") && numbers(t.x)[0] !== null,
				)
				.slice(0)
				.flatMap((t) =>
					numbers(t.x).map((v, i) => ({
						x: v,
						y: numbers(t.y)[i],
						hover: (t.hovertext as string[])[i],
					})),
				);
			const points = layersOf(f, "points").flatMap((l) => l.points);
			expect(drawn).toHaveLength(points.length);
			for (const p of drawn) {
				const twin = plotted.find(
					(q) =>
						q.hover === plotlyText(p.hover) &&
						Math.abs(x(p.x) / q.x - 1) < 0.01 &&
						Math.abs(y(p.y) / q.y - 1) < 0.01,
				);
				expect(twin, `${p.hover} at ${x(p.x)}, ${y(p.y)}`).toBeDefined();
			}
		},
	);
});

test("an arrow's tail is at the limit and its head beyond, up for at least", () => {
	const plot = plotlyFigure(flasksAgainstControl(comparison));
	const arrows = (plot.layout.annotations as Json[]).filter((a) => a.showarrow);
	expect(arrows).toHaveLength(1);
	const [arrow] = arrows;
	// In Plotly ay counts down from the head, yshift up: together the tail stays at the limit.
	expect(arrow.yshift).toBe(arrow.ay);
	expect(Number(arrow.ay)).toBeGreaterThan(0);
	expect(Number(arrow.ax)).toBe(0);
	expect(arrow.y).toBe(508);
});

test("annotations on log axes stand at logarithms, shapes at values", () => {
	const plot = plotlyFigure({
		...logarithmic,
		layers: [
			{
				is: "reference line",
				name: "",
				axis: "x",
				at: 0.02,
				label: "0.02",
				ink: "text",
				dash: "dashed",
			},
		],
	});
	expect((plot.layout.annotations as Json[])[0].x).toBeCloseTo(
		Math.log10(0.02),
		12,
	);
	expect((plot.layout.shapes as Json[])[0].x0).toBe(0.02);
});

test("the dark form has the dark colours", () => {
	const dark = plotlyFigure(isotherm, "dark");
	expect(dark.layout.paper_bgcolor).toBe(themes.dark.paper);
	const colours = texts(dark);
	for (const ink of ["blue", "rust", "text"] as const)
		expect(colours).not.toContain(themes.light[ink]);
});

test("text is made harmless", () => {
	expect(plotlyText(`<a href="x">&lt;</a>\nb`)).toBe(
		`&lt;a href="x"&gt;&amp;lt;&lt;/a&gt;<br>b`,
	);
});

describe("on a screen as narrow as a phone's", () => {
	const wordy: FigureDescription = {
		...isotherm,
		title:
			"A title that is a good deal longer than a telephone held upright is wide",
	};

	test("titles are broken into short lines, and the key has room below", () => {
		const narrow = narrowLayout(wordy);
		const lines = narrow.title.replace(/<\/?b>/g, "").split("<br>");
		expect(lines.length).toBeGreaterThan(1);
		expect(lines.join(" ")).toBe(wordy.title);
		for (const line of lines)
			expect(textWidth(line, 16, true)).toBeLessThan(340);
		const wide = plotlyFigure(wordy).layout as {
			height: number;
			margin: { t: number };
		};
		expect(narrow.height).toBeGreaterThan(wide.height);
		expect(narrow.marginTop).toBeGreaterThan(wide.margin.t);
	});

	test("what a hostile title holds stays text", () => {
		const title = `<img src=x onerror="alert(1)">`;
		expect(narrowLayout({ ...isotherm, title }).title).not.toContain("<img");
	});
});

test("a curve that shares its name with points has one entry in the key, with line and symbol; a name with nothing behind it has none", () => {
	const name = "char";
	const shared: FigureDescription = {
		...isotherm,
		layers: [
			{
				is: "line",
				name,
				ink: "blue",
				dash: "dotted",
				points: [
					{ x: 1, y: 1 },
					{ x: 2, y: 3 },
				],
			},
			{
				is: "points",
				name,
				ink: "blue",
				shape: "square",
				points: [{ x: 1, y: 1, hover: "" }],
			},
			{ is: "points", name: "none", ink: "rust", shape: "star", points: [] },
		],
	};
	const shown = plotlyFigure(shared).data.filter((t) => t.showlegend);
	expect(shown).toHaveLength(1);
	expect(shown[0]).toMatchObject({
		mode: "lines+markers",
		line: { dash: "dot" },
		marker: { symbol: "square" },
	});
	const svg = figureSvg(shared, { width: 500 });
	expect(svg.match(/data-role="key"/g)).toHaveLength(1);
	const key = /<g class="key">(.*?)<\/g><\/g>/s.exec(svg)?.[1] ?? "";
	expect(key).toContain("stroke-dasharray");
	expect(key).toContain("<path");
});
