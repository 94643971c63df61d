import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isBare, placeOnAxis } from "../../../kernel-lib/figures/axes";
import {
	type FigureDescription,
	figure,
	figureSvg,
	flasksAgainstControl,
	type Layer,
	type Point,
	type Scale,
} from "../../../kernel-lib/figures/index";
import { comparison, hostileComparison, isotherm } from "../fixtures";
import { sampleFigures } from "../samples";
import { assertWellFormed, type ReadText, readTexts } from "../svg-reading";

const widths = [360, 720, 1100];
const samples = [...sampleFigures()].flatMap(([name, f]) =>
	widths.map((width): [string, number, FigureDescription] => [name, width, f]),
);

/** Pairs of texts of which one covers the other. */
function covered(texts: readonly ReadText[]): string[] {
	return texts.flatMap((a, i) =>
		texts
			.slice(0, i)
			.filter(
				(b) =>
					a.box.left < b.box.right &&
					b.box.left < a.box.right &&
					a.box.top < b.box.bottom &&
					b.box.top < a.box.bottom,
			)
			.map((b) => `"${a.text}" covers "${b.text}"`),
	);
}

describe.each(samples)("%s at %d px", (_, width, f) => {
	const svg = figureSvg(f, { width });
	const texts = readTexts(svg);

	test("is well-formed, has its words, and no number went wrong", () => {
		assertWellFormed(svg);
		expect(svg).toContain('role="img"');
		expect(svg).toMatch(/<title>[^<]+<\/title><desc>[^<]+<\/desc>/);
		expect(svg).not.toMatch(/NaN|undefined|Infinity|null/);
		expect(svg).not.toMatch(
			/<script|<image|<foreignObject|href|@import|javascript:/i,
		);
		expect(svg).not.toMatch(/="-?[\d.]+e-?\d/);
	});

	test("no text covers another or leaves the picture", () => {
		const height = Number(/ height="(\d+)"/.exec(svg)?.[1]);
		expect(texts.length).toBeGreaterThan(3);
		texts.forEach((a) => {
			expect(a.box.left, a.text).toBeGreaterThanOrEqual(0);
			expect(a.box.right, a.text).toBeLessThanOrEqual(width);
			expect(a.box.top, a.text).toBeGreaterThanOrEqual(0);
			expect(a.box.bottom, a.text).toBeLessThanOrEqual(height);
		});
		expect(covered(texts)).toEqual([]);
	});

	test("has axis titles with units, and at least two ticks or a name for each category", () => {
		const read = (role: string): string =>
			texts
				.filter((t) => t.role === role)
				.map((t) => t.text)
				.join(" ");
		for (const which of ["x", "y"] as const) {
			const { label, unit, scale } = f[which];
			if (label !== "")
				expect(read(`${which} title`)).toBe(
					unit ? `${label} (${unit})` : label,
				);
			if (scale.is === "categories")
				expect(
					texts.filter((t) => t.role === "category").length,
				).toBeGreaterThanOrEqual(scale.names.length);
			else {
				const ticks = texts.filter((t) => t.role === `${which} tick`).length;
				// Numbers along an axis with nothing on it would mean nothing.
				if (isBare(f, which)) expect(ticks).toBe(0);
				else expect(ticks).toBeGreaterThanOrEqual(2);
			}
		}
	});

	test("is the same every time", () => {
		expect(figureSvg(JSON.parse(JSON.stringify(f)), { width })).toBe(svg);
	});
});

describe("what the picture says", () => {
	test("a bound points up for at least, down for at most, and says so", () => {
		const up = figureSvg(flasksAgainstControl(comparison), {
			width: 720,
		});
		expect(up.match(/class="mark arrow arrow-up"/g)).toHaveLength(1);
		expect(readTexts(up).filter((t) => t.text === "at least")).toHaveLength(1);
		const [, x1, y1, x2, y2] =
			/arrow-up">.*?<line x1="([\d.]+)" y1="([\d.]+)" x2="([\d.]+)" y2="([\d.]+)"/s.exec(
				up,
			) ?? [];
		expect(x1).toBe(x2);
		expect(Number(y2)).toBeLessThan(Number(y1));
		const down = figureSvg(flasksAgainstControl(hostileComparison), {
			width: 720,
		});
		expect(down.match(/class="mark arrow arrow-down"/g)).toHaveLength(1);
		expect(readTexts(down).filter((t) => t.text === "at most")).toHaveLength(1);
	});

	test("numbers at the axis have true minus signs", () => {
		const svg = figureSvg(
			[...sampleFigures()].find(([n]) => n === "hostile-differences")?.[1] ??
				isotherm,
			{ width: 720 },
		);
		const ticks = readTexts(svg).filter((t) => t.role === "x tick");
		expect(ticks.some((t) => t.text === "−300")).toBe(true);
		expect(ticks.some((t) => t.text.includes("-"))).toBe(false);
	});

	test("a label keeps off a long straight stroke that runs through its point", () => {
		const f = figure({
			title: "t",
			alt: "a",
			x: { label: "x", unit: "", scale: { is: "linear" } },
			y: { label: "y", unit: "", scale: { is: "linear" } },
			layers: [
				{
					is: "line",
					name: "",
					ink: "blue",
					dash: "solid",
					points: [
						{ x: 0, y: 5 },
						{ x: 10, y: 5 },
					],
				},
				{
					is: "points",
					name: "",
					ink: "rust",
					shape: "circle",
					points: [{ x: 5, y: 5, hover: "", label: "half way" }],
				},
			],
			notes: [],
		});
		const svg = figureSvg(f, { width: 720 });
		const label = readTexts(svg).find((t) => t.text === "half way");
		const height = Number(/<path d="M[\d.]+,([\d.]+)L/.exec(svg)?.[1]);
		expect(height).toBeGreaterThan(0);
		expect(label && (label.box.bottom < height || label.box.top > height)).toBe(
			true,
		);
	});

	test("hostile names are text, in whole or shortened with the whole behind it", () => {
		for (const [name, f] of sampleFigures()) {
			const svg = figureSvg(f, { width: 360 });
			expect(svg, name).not.toMatch(/<img|<b>/);
		}
		const svg = figureSvg(flasksAgainstControl(hostileComparison), {
			width: 1100,
		});
		expect(
			readTexts(svg)
				.map((t) => t.text)
				.join(" "),
		).toContain("<img src=x onerror=");
		expect(
			figureSvg(flasksAgainstControl(hostileComparison), {
				width: 360,
			}),
		).toContain(
			"<title>a very long name of a treatment that somebody wrote out in full so that nobody should ever be in doubt",
		);
	});

	test("the alt text is in the picture", () => {
		expect(figureSvg(isotherm, { width: 500 })).toContain(
			`<desc>${isotherm.alt}</desc>`,
		);
	});

	test("light alone, dark alone, or both by the reader's screen", () => {
		const light = figureSvg(isotherm, { width: 720, theme: "light" });
		const dark = figureSvg(isotherm, { width: 720, theme: "dark" });
		const auto = figureSvg(isotherm, { width: 720 });
		expect(light).not.toContain("<style");
		expect(dark).not.toContain("<style");
		expect(light).toContain('fill="#ffffff"');
		expect(dark).not.toContain('fill="#ffffff"');
		// Without its style sheet and classes the picture for both is the light one.
		expect(
			auto
				.replace(/<style>.*?<\/style>/, "")
				.replace(/ class="charledger-[^"]*"/g, ""),
		).toBe(light);
	});

	test("a width that is none, or too small or large, is refused in words", () => {
		for (const width of [Number.NaN, 239, 4001])
			expect(() => figureSvg(isotherm, { width })).toThrow(
				`found the number ${width} for the option "width" of figures.figureSvg; expected a width between 240 and 4000 px`,
			);
		for (const width of [240, 4000])
			expect(figureSvg(isotherm, { width })).toContain(`width="${width}"`);
		expect(figureSvg(isotherm)).toContain('width="640"');
		for (const plotHeight of [119, 4001])
			expect(() => figureSvg(isotherm, { plotHeight })).toThrow(
				/expected a height between 120 and 4000 px/,
			);
		const heightOf = (plotHeight: number): number =>
			Number(/height="(\d+)"/.exec(figureSvg(isotherm, { plotHeight }))?.[1]);
		expect(heightOf(4000) - heightOf(120)).toBe(3880);
		expect(() => figureSvg(isotherm, { thema: "dark" } as never)).toThrow(
			/"thema".*theme/s,
		);
	});
});

const finite = fc.double({ min: -1e100, max: 1e100, noNaN: true });
const positive = fc.double({ min: 1e-99, max: 1e99, noNaN: true });
const text = fc.string({ unit: "binary", maxLength: 30 });

function interval(a: number, b: number): { low: number; high: number } {
	return { low: Math.min(a, b), high: Math.max(a, b) };
}

function layersOf(
	xs: fc.Arbitrary<number>,
	ys: fc.Arbitrary<number>,
): fc.Arbitrary<Layer[]> {
	const place = fc.record({ x: xs, y: ys });
	const point = fc.tuple(place, ys, ys, xs, xs, text).map(
		([p, a, b, c, d, hover]): Point => ({
			...p,
			hover,
			label: hover,
			yInterval: interval(a, b),
			xInterval: interval(c, d),
		}),
	);
	const layer = fc.oneof(
		fc.tuple(fc.array(point, { maxLength: 6 }), text).map(
			([points, name]): Layer => ({
				is: "points",
				name,
				ink: "blue",
				shape: "star",
				points,
			}),
		),
		fc.tuple(fc.array(place, { maxLength: 6 }), text).map(
			([points, name]): Layer => ({
				is: "line",
				name,
				ink: "rust",
				dash: "dotted",
				points,
			}),
		),
		fc
			.array(place, { maxLength: 6 })
			.map(
				(points): Layer => ({ is: "region", name: "r", ink: "rust", points }),
			),
		fc.array(fc.tuple(xs, ys, ys), { maxLength: 6 }).map(
			(points): Layer => ({
				is: "band",
				name: "b",
				ink: "teal",
				points: points.map(([x, a, b]) => ({ x, ...interval(a, b) })),
			}),
		),
		fc
			.tuple(
				fc.array(place, { maxLength: 4 }),
				fc.constantFrom(
					"up" as const,
					"down" as const,
					"left" as const,
					"right" as const,
				),
				text,
			)
			.map(
				([places, towards, label]): Layer => ({
					is: "arrows",
					name: "limit",
					ink: "plum",
					arrows: places.map((p) => ({ ...p, towards, label, hover: label })),
				}),
			),
		fc.tuple(ys, text).map(
			([at, label]): Layer => ({
				is: "reference line",
				name: "",
				axis: "y",
				at,
				label,
				ink: "quiet",
				dash: "dashed",
			}),
		),
		fc.tuple(xs, xs, text).map(
			([a, b, label]): Layer => ({
				is: "zone",
				name: "",
				axis: "x",
				from: a,
				to: b,
				label,
				ink: "quiet",
			}),
		),
		fc.array(fc.tuple(xs, ys, ys), { maxLength: 4 }).map(
			(bars): Layer => ({
				is: "bars",
				name: "bars",
				ink: "ochre",
				hatch: "crossed",
				along: "y",
				width: 0.5,
				bars: bars.map(([at, from, to]) => ({
					at,
					from,
					to,
					hover: "",
					label: "z",
				})),
			}),
		),
	);
	return fc.array(layer, { maxLength: 5 });
}

describe("any finite data", () => {
	const cases: [
		string,
		Scale,
		Scale,
		fc.Arbitrary<number>,
		fc.Arbitrary<number>,
	][] = [
		["linear axes", { is: "linear" }, { is: "linear" }, finite, finite],
		["log axes", { is: "log" }, { is: "log" }, positive, positive],
		[
			"categories",
			{ is: "categories", names: ["a", "b", "c"] },
			{ is: "linear" },
			fc.double({ min: -0.5, max: 2.5, noNaN: true }),
			finite,
		],
		[
			"rows",
			{ is: "linear", zero: true },
			{ is: "categories", names: ["a", "b", "c"], ends: ["x", "y", "z"] },
			finite,
			fc.double({ min: -0.5, max: 2.5, noNaN: true }),
		],
	];
	test.each(cases)(
		"on %s gives a picture without a wrong number",
		(_, x, y, xs, ys) => {
			fc.assert(
				fc.property(
					layersOf(xs, ys),
					text,
					fc.constantFrom(240, 360, 720),
					(layers, label, width) => {
						const svg = figureSvg(
							figure({
								title: label,
								alt: label,
								x: { label, unit: label, scale: x },
								y: { label, unit: "", scale: y },
								layers,
								notes: [label],
							}),
							{ width },
						);
						assertWellFormed(svg);
						const numbers = [
							...svg.matchAll(
								/ (?:x|y|x1|x2|y1|y2|width|height|d|points|transform)="([^"]*)"/g,
							),
						]
							.map((m) => m[1])
							.join(" ");
						expect(numbers).not.toMatch(/NaN|undefined|Infinity|e[+-]?\d/);
						expect(covered(readTexts(svg))).toEqual([]);
						for (const t of readTexts(svg).filter((r) =>
							r.role.endsWith("tick"),
						))
							expect(t.text).not.toMatch(/NaN|undefined|Infinity|not a number/);
					},
				),
				{ numRuns: 150 },
			);
		},
	);
});

test("a place on an axis is held inside it", () => {
	expect(placeOnAxis({ is: "log" }, { low: 1, high: 10 }, -5)).toBe(0);
	expect(placeOnAxis({ is: "log" }, { low: 1, high: 100 }, 10)).toBeCloseTo(
		0.5,
		12,
	);
	expect(placeOnAxis({ is: "linear" }, { low: 0, high: 4 }, 1)).toBe(0.25);
});
