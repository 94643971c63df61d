import { describe, expect, test } from "vitest";
import {
	type FigureDescription,
	figureSvg,
	flasksAgainstControl,
	type Layer,
	plotlyFigure,
} from "../../../kernel-lib/figures/index";
import { themes } from "../../../kernel-lib/figures/look";
import { frameOf } from "../../../kernel-lib/figures/picture/frame";
import { usualWidth } from "../../../kernel-lib/figures/picture/svg";
import { plotlyText } from "../../../kernel-lib/figures/plotly/parts";
import { heldOnAxis } from "../../../kernel-lib/figures/plotly/place";
import { uptakesAtResidues } from "../../../kernel-lib/figures/residue-and-uptake";
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
		// Rows that carry their names above their marks have these lower in the row.
		const frame = frameOf(f, usualWidth);
		const inRow = (y: number): number =>
			frame.rowTops.length === 0
				? y
				: ((frame.y.place(y) - frame.plot.top) * frame.rowTops.length) /
						(frame.plot.bottom - frame.plot.top) -
					0.5;
		const expected = f.layers.flatMap((l): Json[] => {
			switch (l.is) {
				case "points":
					return [
						{
							x: l.points.map((p) => p.x),
							y: l.points.map((p) => inRow(p.y)),
							hover: l.points.map((p) => plotlyText(p.hover)),
						},
					];
				case "arrows":
					return [
						{
							// A limit beyond its axis has its arrow at the edge.
							x: l.arrows.map((p) => heldOnAxis(frame, "x", p.x)),
							y: l.arrows.map((p) => heldOnAxis(frame, "y", inRow(p.y))),
							hover: l.arrows.map((p) => plotlyText(p.hover)),
						},
					];
				// Outlines, of what is left out, are a trace of their own.
				case "bars":
					return [false, true].map((hollow) => {
						const bars = l.bars.filter((b) => (b.hollow ?? false) === hollow);
						const at = bars.map((b) => b.at);
						const ends = bars.map((b) => b.to - b.from);
						return {
							x: l.along === "x" ? ends : at,
							y: l.along === "x" ? at.map(inRow) : ends,
							hover: bars.map((p) => plotlyText(p.hover)),
						};
					});
				case "line":
				case "region":
					return [
						{
							x: l.points.map((p) => p.x),
							y: l.points.map((p) => inRow(p.y)),
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
			const said = (plot.layout.annotations as Json[]).map((a) => a.text);
			expect(said.join(" ")).toContain(plotlyText(f[which].unit));
		}
	});
});

describe("both back-ends show the same", () => {
	const cases: [string, FigureDescription][] = [
		["residue and uptake", uptakesAtResidues(uptakes, "iodine")],
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
	const label = (plot.layout.annotations as Json[]).find(
		(a) => a.text === "0.02" && a.xref === "x",
	);
	expect(Number(label?.x)).toBeCloseTo(Math.log10(0.02), 6);
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

describe("one look of both forms", () => {
	/** Texts of the picture with their middle, but those that Plotly sets itself. */
	const ownOfPlotly = ["x tick", "y tick", "key", "note"];

	test.each(samples)(
		"%s: every text stands where the picture has it",
		(_, f) => {
			const { layout } = plotlyFigure(f);
			const { l, t, r, b } = layout.margin as Record<string, number>;
			const [width, height] = [Number(layout.width), Number(layout.height)];
			const plot = { width: width - l - r, height: height - t - b };
			const axis = (which: "x" | "y"): [number, number] =>
				(layout[`${which}axis`] as Json).range as [number, number];
			const place = (n: Json, which: "x" | "y"): number => {
				const [low, high] = axis(which);
				const part =
					n[`${which}ref`] === "paper"
						? Number(n[which])
						: (Number(n[which]) - low) / (high - low);
				return which === "x"
					? l + part * plot.width
					: t + (1 - part) * plot.height;
			};
			const notes = (layout.annotations as Json[])
				.filter((n) => !n.showarrow)
				.map((n) => ({
					text: String(n.text),
					x: place(n, "x"),
					y: place(n, "y"),
				}));
			const svg = figureSvg(f, { width });
			const drawn = readTexts(svg).filter((d) => !ownOfPlotly.includes(d.role));
			// The key of the interactive form may take more lines: what lies below the title is lower by these.
			const lower = t - frameOf(f, width).plot.top;
			expect(lower).toBeGreaterThanOrEqual(0);
			expect(notes).toHaveLength(drawn.length);
			for (const d of drawn) {
				const shift = d.role === "title" ? 0 : lower;
				const twin = notes.find(
					(n) =>
						n.text === plotlyText(d.text) &&
						n.x > d.box.left - 1 &&
						n.x < d.box.right + 1 &&
						n.y - shift > d.box.top - 1 &&
						n.y - shift < d.box.bottom + 1,
				);
				expect(twin, `${d.role}: ${d.text}`).toBeDefined();
			}
			const ticks = (which: "x" | "y"): string[] =>
				readTexts(svg)
					.filter((d) => d.role === `${which} tick`)
					.map((d) => plotlyText(d.text));
			for (const which of ["x", "y"] as const)
				expect((layout[`${which}axis`] as Json).ticktext).toEqual(ticks(which));
		},
	);

	test("symbols have the same area in both", () => {
		// d3-shape draws a circle of the area that is asked for.
		const { data } = plotlyFigure(isotherm);
		const circle = data.find(
			(t) => (t.marker as Json | undefined)?.symbol === "circle",
		);
		const size = Number((circle?.marker as Json | undefined)?.size);
		expect((Math.PI / 4) * size ** 2).toBeCloseTo(46, 0);
	});

	test("what lies beyond a shown stretch has a head at the edge in both", () => {
		const cut: FigureDescription = {
			...isotherm,
			x: {
				...isotherm.x,
				scale: { is: "linear", shown: { low: 0, high: 10 } },
			},
			layers: [
				{
					is: "points",
					name: "",
					ink: "blue",
					shape: "circle",
					points: [
						{ x: 5, y: 1, xInterval: { low: -1e6, high: 6 }, hover: "" },
						{ x: 1e6, y: 2, hover: "" },
					],
				},
			],
		};
		const svg = figureSvg(cut);
		expect(svg.match(/class="beyond"/g)).toHaveLength(2);
		// The point that lies beyond has no symbol: it would seem to be a value at the edge.
		expect(svg.match(/<g class="mark point">.*?<path/gs)).toHaveLength(1);
		const heads = (plotlyFigure(cut).layout.annotations as Json[]).filter(
			(a) => a.showarrow,
		);
		expect(heads.map((h) => Math.sign(Number(h.ax)))).toEqual([1, -1]);
		const [low, high] = (plotlyFigure(cut).layout.xaxis as Json)
			.range as number[];
		expect(low).toBeGreaterThan(-1);
		expect(high).toBeLessThan(11);
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
		line: { dash: "1.5px,3.5px" },
		marker: { symbol: "square" },
	});
	const svg = figureSvg(shared, { width: 500 });
	expect(svg.match(/data-role="key"/g)).toHaveLength(1);
	const key = /<g class="key">(.*?)<\/g><\/g>/s.exec(svg)?.[1] ?? "";
	expect(key).toContain("stroke-dasharray");
	expect(key).toContain("<path");
});
