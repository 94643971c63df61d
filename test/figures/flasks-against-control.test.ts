import { describe, expect, test } from "vitest";
import type { Comparison } from "../../kernel-lib/compare/index";
import {
	type FigureDescription,
	flasksAgainstControl,
	type Layer,
} from "../../kernel-lib/figures/index";
import { langmuir } from "../../kernel-lib/isotherms/index";
import { exact, input } from "../../kernel-lib/quantity/index";
import { comparison, observed, uptakes } from "./fixtures";
import { langmuirFits } from "./isotherm-fixtures";

function layersOf<K extends Layer["is"]>(
	f: FigureDescription,
	is: K,
): Extract<Layer, { is: K }>[] {
	return f.layers.filter((l): l is Extract<Layer, { is: K }> => l.is === is);
}

const f = flasksAgainstControl(comparison);
const names = f.x.scale.is === "categories" ? f.x.scale.names : [];
const flasks = layersOf(f, "points").filter((l) => l.name.startsWith("flask"));

/** The residue of the comparison, with these flasks at it. */
const withFlasks = (flasks: typeof uptakes): Comparison["at"] =>
	comparison.at.is === "carried"
		? { ...comparison.at, flasks: observed(flasks) }
		: comparison.at;

test("each control stands before what is compared with it", () => {
	expect(names).toEqual([
		"water-soaked control",
		"potash",
		"washing soda",
		"wood vinegar, 24 hours",
		"fired once, under a lid",
		"second firing under a lid",
	]);
});

test("every flask is there once, as a point or as a bound, in its treatment, at its uptake", () => {
	const arrows = layersOf(f, "arrows").flatMap((l) => l.arrows);
	const points = flasks.flatMap((l) => l.points);
	expect(points).toHaveLength(23);
	expect(arrows).toHaveLength(1);
	for (const u of uptakes) {
		const mark = [...points, ...arrows].filter((p) =>
			p.hover.includes(`flask ${u.flask.name}\n`),
		);
		expect(mark).toHaveLength(1);
		expect(names[Math.round(mark[0].x) + 0]).toBe(u.flask.treatment);
		expect(mark[0].y).toBe(u.uptake.quantity.in("mg/g"));
	}
	expect(new Set(points.map((p) => p.x)).size).toBe(23);
});

test("error bars are two standard uncertainties", () => {
	for (const p of flasks.flatMap((l) => l.points)) {
		expect((p.yInterval?.high ?? 0) - p.y).toBeCloseTo(10.4, 9);
		expect(p.y - (p.yInterval?.low ?? 0)).toBeCloseTo(10.4, 9);
	}
});

test("days have a shape each, and deviating flasks are outlines", () => {
	expect(flasks.map((l) => l.name)).toEqual(["flask, day 1", "flask, day 2"]);
	expect(new Set(flasks.map((l) => l.shape)).size).toBe(2);
	const hollow = flasks.flatMap((l) => l.points).filter((p) => p.hollow);
	expect(hollow.map((p) => /flask (\d+)/.exec(p.hover)?.[1])).toEqual(["6"]);
});

test("each group's mean stands beside its flasks, with its interval", () => {
	const means = layersOf(f, "points").find((l) => l.name.startsWith("group"));
	expect(means?.points.map((p) => [Math.round(p.x), p.y])).toEqual(
		comparison.groups.map((g) => [names.indexOf(g.treatment), g.mean]),
	);
	expect(means?.points[1].yInterval).toEqual({ low: 342.8, high: 375.2 });
});

test("the control's mean is drawn through its own treatments and no others", () => {
	expect(
		layersOf(f, "reference line").map((l) => [l.at, l.over?.low, l.over?.high]),
	).toEqual([
		[301, -0.5, 3.5],
		[330, 3.5, 5.5],
	]);
});

describe("the alt text", () => {
	test("is written from the data", () => {
		expect(f.alt).toContain("Uptake of iodine by 24 flasks in six treatments");
		expect(f.alt).toContain(
			'"second firing under a lid" is highest at 512 mg/g.',
		);
		expect(f.alt).toContain(
			'"water-soaked control": 301 mg/g (95 % interval 290 to 312)',
		);
		expect(f.alt).toContain(
			'Only a limit: flask 24 ("second firing under a lid"), at least 508.0 mg/g.',
		);
		expect(f.alt).toContain('Touched by a deviation: flask 6 ("potash").');
	});

	test("says nothing of bounds and deviations where there are none", () => {
		const plain = flasksAgainstControl({
			...comparison,
			flasks: uptakes.slice(0, 8),
			at: withFlasks(uptakes.slice(0, 8)),
			trial: { ...comparison.trial, deviations: [] },
		});
		expect(plain.alt).toContain("eight flasks");
		expect(plain.alt).not.toMatch(/limit|deviation/);
		expect(plain.notes.join(" ")).not.toContain("Outlined");
	});
});

test("a group that is a bound as a whole is an arrow", () => {
	const bounded = flasksAgainstControl({
		...comparison,
		groups: comparison.groups.map((g, i) =>
			i === 1 ? { ...g, is: "at most" as const } : g,
		),
	});
	const arrow = layersOf(bounded, "arrows").find((l) =>
		l.name.includes("group"),
	);
	expect(arrow?.arrows.map((a) => [a.towards, a.label, a.y])).toEqual([
		["down", "at most", 359],
	]);
	expect(bounded.alt).toContain('"potash": at most 359 mg/g');
});

test("an empty run gives an empty figure, not an error", () => {
	const empty = flasksAgainstControl({
		...comparison,
		flasks: [],
		at: withFlasks([]),
		groups: [],
		verdicts: [],
	});
	expect(empty.alt).toBe(
		"Uptake of iodine by no flasks in no treatments, each flask a point, with group means.",
	);
});

test("the confidence is the comparison's, in key, alt text and hover", () => {
	const g = flasksAgainstControl({ ...comparison, confidence: 0.9 });
	expect(JSON.stringify(g)).not.toContain("95 %");
	expect(JSON.stringify(g).match(/90 % interval/g)?.length).toBe(
		// The key, and each group with an interval in alt text and hover.
		1 + 2 * comparison.groups.length,
	);
});

test("at one stated residue the treatments stand as isotherms, with a line at it", () => {
	const g = flasksAgainstControl({
		...comparison,
		at: {
			is: "isotherms",
			statedBy: "the experimenter",
			residue: input("massConcentration", 1000, "mg/L", exact, {}),
			isotherm: langmuir,
			isothermWeights: [],
			fits: langmuirFits,
		},
	});
	expect(g.title).toBe("Langmuir isotherm of iodine");
	expect(layersOf(g, "reference line").map((l) => [l.axis, l.at])).toEqual([
		["x", 1000],
	]);
});
