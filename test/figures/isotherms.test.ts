import { describe, expect, test } from "vitest";
import {
	type FigureDescription,
	figureSvg,
	isotherms,
	type Layer,
	straightLines,
} from "../../kernel-lib/figures/index";
import {
	fitIsotherm,
	langmuir,
	straightLines as linesOf,
	plainPoints,
	uptakeAt,
	uptakeAtResidue,
} from "../../kernel-lib/isotherms/index";
import { comparison as carried } from "./fixtures";
import { freundlichFits, langmuirFits, treatments } from "./isotherm-fixtures";

type Of<K extends Layer["is"]> = Extract<Layer, { is: K }>;

function layersOf<K extends Layer["is"]>(f: FigureDescription, is: K): Of<K>[] {
	return f.layers.filter((l): l is Of<K> => l.is === is);
}

const both = isotherms(langmuirFits, { atResidue: 1000 });

describe("isotherms", () => {
	test("each treatment has a colour, a shape and a dash of its own, and one entry in the key", () => {
		const lines = layersOf(both, "line");
		const points = layersOf(both, "points");
		expect(new Set(lines.map((l) => l.ink)).size).toBe(2);
		expect(new Set(lines.map((l) => l.dash)).size).toBe(2);
		expect(new Set(points.map((p) => p.shape)).size).toBe(2);
		expect(lines.map((l) => l.name)).toEqual(treatments.map((t) => t.name));
		expect(points.map((p) => [p.name, p.ink])).toEqual(
			lines.map((l) => [l.name, l.ink]),
		);
		expect(
			figureSvg(both, { width: 720 }).match(/data-role="key"/g),
		).toHaveLength(3);
	});

	test("the curve is that of the fit, the band its confidence band, and the points are the flasks", () => {
		layersOf(both, "line").forEach((line, i) => {
			const { isotherm, theta } = langmuirFits[i];
			for (const p of line.points)
				expect(p.y).toBe(uptakeAt(isotherm, theta, p.x));
		});
		layersOf(both, "band").forEach((band, i) => {
			const at = band.points[Math.floor(band.points.length / 2)];
			const [expected] = uptakeAtResidue(langmuirFits[i], at.x);
			expect(expected.low).toEqual({ is: "value", value: at.low });
			expect(expected.high).toEqual({ is: "value", value: at.high });
		});
		layersOf(both, "points").forEach((layer, i) => {
			expect(layer.points.map((p) => p.y)).toEqual(
				treatments[i].points.map((p) => p.uptake),
			);
			const last = treatments[i].points.length - 1;
			expect(layer.points[last].xInterval?.high).toBeCloseTo(
				treatments[i].points[last].concentration +
					1.959963984540054 *
						Math.sqrt(treatments[i].points[last].own.concentration),
				9,
			);
		});
	});

	test("a flask that ran dry is an arrow up with a bar down to no residue", () => {
		const arrows = layersOf(both, "arrows").flatMap((l) => l.arrows);
		expect(arrows).toHaveLength(2);
		for (const a of arrows) {
			expect(a.towards).toBe("up");
			const point = layersOf(both, "points")
				.flatMap((l) => l.points)
				.find((p) => p.x === a.x && p.y === a.y);
			expect(point?.xInterval).toEqual({ low: 0, high: a.x });
			expect(point?.yInterval).toBe(undefined);
		}
		expect(both.alt).toContain(
			"Ran dry, so only a limit: flask C1 and flask F1",
		);
	});

	test("the alt text tells parameters, ends of the curves and the value at the stated residue", () => {
		const [at] = uptakeAtResidue(langmuirFits[0], 1000);
		expect(both.alt).toContain(`at 1000 mg/L ${at.uptake.toFixed(1)} mg/g`);
		expect(both.alt).toContain("q_max");
		expect(both.alt).not.toMatch(/NaN|undefined|Infinity/);
	});

	test("balance lines pass through their flasks and stay on the figure", () => {
		const f = isotherms([langmuirFits[0]], { balanceLines: true });
		const lines = layersOf(f, "line").filter((l) => l.dash === "dotted");
		const known = langmuirFits[0].used.flatMap((p) =>
			p.balance.is === "known" ? [{ ...p.balance, p }] : [],
		);
		expect(lines).toHaveLength(known.length);
		lines.forEach((line, i) => {
			for (const end of line.points) {
				expect(end.y).toBeCloseTo(
					known[i].intercept - known[i].slope * end.x,
					6,
				);
				expect(end.y).toBeGreaterThanOrEqual(-1e-9);
			}
			if (known[i].p.is === "reading")
				expect(
					known[i].intercept - known[i].slope * known[i].p.concentration,
				).toBeCloseTo(known[i].p.uptake, 6);
		});
	});

	test("numbers that were typed in have no error bars, and a fit without errors no band", () => {
		const typed = fitIsotherm(
			langmuir,
			plainPoints("typed", [10, 50, 200], [60, 110, 150]),
		);
		const f = isotherms([
			{
				...typed,
				scatterCovariance: { is: "not known", because: "too few points" },
			},
		]);
		expect(layersOf(f, "band")).toEqual([]);
		expect(f.notes.join(" ")).toContain("No band");
		expect(layersOf(f, "points")[0].points[0].xInterval).toBe(undefined);
	});

	test("a band that says nothing is cut off and does not flatten the figure", () => {
		const f = isotherms([
			fitIsotherm(
				langmuir,
				plainPoints("early", [5, 10, 16, 20, 26], [10, 21, 30, 42, 49]),
			),
		]);
		const highest = Math.max(
			...layersOf(f, "band").flatMap((b) => b.points.map((p) => p.high)),
		);
		expect(highest).toBeLessThanOrEqual(1.5 * 60);
	});

	test("on log axes nothing at or below zero is drawn", () => {
		const f = isotherms(freundlichFits, { scale: "log" });
		for (const line of layersOf(f, "line"))
			for (const p of line.points)
				expect(Math.min(p.x, p.y)).toBeGreaterThan(0);
	});
});

describe("what a curve leaves over", () => {
	const [fit] = langmuirFits;
	const f = isotherms([fit], { residuals: true });

	test("is the residue that was read less the one on the curve, in its standard deviations", () => {
		const drawn = layersOf(f, "points")[0].points;
		const read = fit.used.flatMap((p, i) => (p.is === "reading" ? [i] : []));
		expect(drawn).toHaveLength(read.length);
		read.forEach((i, k) => {
			expect(drawn[k].y).toBeCloseTo(
				(fit.used[i].concentration - fit.expected[i]) / fit.deviations[i],
				9,
			);
		});
	});

	test("a flask that ran dry points down", () => {
		const [dry] = layersOf(f, "arrows");
		expect(dry.arrows.map((a) => [a.label, a.towards])).toEqual([
			["C1", "down"],
		]);
	});

	test("names the flasks that lie far off, or says that none does", () => {
		expect(f.alt).toMatch(
			/All lie within two standard deviations|Outside two standard deviations: flask/,
		);
		const far = isotherms([freundlichFits[1]], {
			residuals: true,
		});
		const sizes = layersOf(far, "points")[0].points;
		const named = sizes.filter((p) => Math.abs(p.y) > 2).map((p) => p.label);
		for (const name of named) expect(far.alt).toContain(`flask ${name}`);
	});
});

test("residuals and stages are figures of their own: another option beside them is refused", () => {
	expect(() =>
		isotherms(langmuirFits, { residuals: true, atResidue: 1000 }),
	).toThrow(
		/^figures\.isotherms: found the options residuals and atResidue together; expected residuals without another option/,
	);
	// not asked for
	expect(
		isotherms(langmuirFits, { residuals: false, atResidue: 1000 }).title,
	).toBe(both.title);
});

describe("straight-line forms", () => {
	const lines = linesOf(treatments[1]);
	const f = straightLines(lines, langmuirFits[1]);

	test("are drawn in the data's own axes, dashed, beside the real fits, solid", () => {
		const drawn = layersOf(f, "line");
		expect(new Set(drawn.map((l) => l.dash)).size).toBe(4);
		expect(new Set(drawn.map((l) => l.ink)).size).toBe(4);
		expect(drawn[0].dash).toBe("solid");
		const form = drawn[2];
		for (const p of form.points)
			expect(p.y).toBeCloseTo(
				uptakeAt(lines[1].form.isotherm, lines[1].theta, p.x),
				9,
			);
		expect(f.x.unit).toBe("mg/L");
		expect(f.y.unit).toBe("mg/g");
	});

	test("a form that gives no isotherm is named and not drawn", () => {
		const broken = lines.map((l, i) =>
			i === 0 ? { ...l, makesSense: false } : l,
		);
		const g = straightLines(broken, langmuirFits[1]);
		expect(layersOf(g, "line")).toHaveLength(3);
		expect(g.notes.join(" ")).toContain("C/q against C");
		expect(g.alt).toContain("gives no isotherm");
	});

	test("lines alone are not drawn without the fit beside them", () => {
		expect(() => straightLines(lines as never)).toThrow(
			/several straight lines and no fit; expected one line, or lines with the fit/,
		);
	});

	test("on its own axes each form has its line through its points, and units", () => {
		for (const line of lines) {
			const g = straightLines(line);
			expect(g.x.unit).not.toBe("");
			expect(g.y.unit).not.toBe("");
			const [drawn] = layersOf(g, "line");
			for (const p of drawn.points)
				expect(p.y).toBeCloseTo(line.intercept + line.slope * p.x, 9);
			expect(layersOf(g, "points")[0].points).toHaveLength(line.across.length);
		}
	});
});

describe("with the comparison of the treatments", () => {
	const [control, treatment] = treatments.map((t) => t.name);
	const verdict = carried.verdicts.find((v) => v.difference.is === "estimate");
	if (verdict === undefined) throw new Error("no difference");
	/** So many treatments with a difference, each drawn by the second curve. */
	const compared = (count: number, difference = verdict.difference) => ({
		...carried,
		verdicts: Array.from({ length: count }, () => ({
			...verdict,
			control,
			treatment,
			difference,
		})),
	});
	const drawn = (count: number) =>
		isotherms(langmuirFits, { comparison: compared(count) });
	const brackets = (f: FigureDescription) =>
		layersOf(f, "line").filter((l) => l.name === "" && l.ink === "text");

	test("a bracket reaches from curve to curve at the residue that was compared", () => {
		const [bracket] = brackets(drawn(1));
		const at = langmuirFits.map((f) => uptakeAt(langmuir, f.theta, 2500));
		expect(bracket.points.map((p) => p.y)).toEqual([
			at[0],
			at[0],
			at[0],
			at[1],
			at[1],
			at[1],
		]);
		expect(bracket.points[2].x).toBe(2500);
		expect(
			layersOf(drawn(1), "reference line").map((l) => [l.at, l.label]),
		).toEqual([[2500, "compared at 2500 mg/L"]]);
	});

	test("the difference of the verdict stands beside it, and in the words", () => {
		const f = drawn(1);
		const [{ text }] = layersOf(f, "labels")[0].labels;
		expect(text).toMatch(/^\+[\d.]+ mg\/g$/);
		expect(f.alt).toContain(`"${treatment}" against "${control}": ${text} (+`);
	});

	test("a difference that is only a limit says so; one that is not available has no bracket", () => {
		const limit = isotherms(langmuirFits, {
			comparison: compared(1, { is: "at least", limit: 12 } as never),
		});
		expect(layersOf(limit, "labels")[0].labels[0].text).toMatch(
			/^at least \+12/,
		);
		const none = isotherms(langmuirFits, {
			comparison: compared(1, {
				is: "not available",
				because: "no spread",
			} as never),
		});
		expect(brackets(none)).toEqual([]);
		expect(none.alt).toContain("no difference can be given");
	});

	test("three brackets stand side by side, four would hide one another", () => {
		expect(brackets(drawn(3))).toHaveLength(3);
		expect(new Set(brackets(drawn(3)).map((b) => b.points[2].x)).size).toBe(3);
		expect(brackets(drawn(4))).toEqual([]);
	});

	test("treatments without a curve have none", () => {
		expect(
			brackets(isotherms([langmuirFits[0]], { comparison: compared(1) })),
		).toEqual([]);
	});
});
