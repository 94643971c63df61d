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

/** Of the normal distribution: 97.5 % lie below it. */
const z = 1.959963984540054;

test("error bars hold 95 % of a normal error", () => {
	for (const p of flasks.flatMap((l) => l.points)) {
		expect((p.yInterval?.high ?? 0) - p.y).toBeCloseTo(z * 5.2, 9);
		expect(p.y - (p.yInterval?.low ?? 0)).toBeCloseTo(z * 5.2, 9);
	}
});

test("days have a shape each, and deviating flasks are outlines", () => {
	expect(flasks.map((l) => l.name)).toEqual(["flask, day 1", "flask, day 2"]);
	expect(new Set(flasks.map((l) => l.shape)).size).toBe(2);
	const hollow = flasks.flatMap((l) => l.points).filter((p) => p.hollow);
	expect(hollow.map((p) => /flask (\d+)/.exec(p.hover)?.[1])).toEqual(["6"]);
	expect(hollow[0].hover).toContain("left out: flask cracked");
	expect(f.notes.join(" ")).toContain(
		"Outlined, left out for a deviation: flask 6 (flask cracked).",
	);
});

test("each group's mean stands beside its flasks, with its interval", () => {
	const means = layersOf(f, "points").find((l) => l.name.startsWith("group"));
	expect(means?.points.map((p) => [Math.round(p.x), p.y])).toEqual(
		comparison.groups
			.filter((g) => g.boundFlasks.length === 0)
			.map((g) => [names.indexOf(g.treatment), g.mean]),
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

describe("a limit far from all else", () => {
	const at = (limit: number): FigureDescription => {
		const list = uptakes.map((u) =>
			u.flask.name === "24"
				? {
						...u,
						uptake: {
							is: "at least" as const,
							quantity: input("uptake", limit, "mg/g", exact, {}),
							because: "invented",
						},
					}
				: u,
		);
		return flasksAgainstControl({
			...comparison,
			flasks: list,
			at: withFlasks(list),
		});
	};
	const shownOf = (g: FigureDescription) =>
		g.y.scale.is === "linear" ? g.y.scale.shown : undefined;
	const labelOf = (g: FigureDescription) =>
		layersOf(g, "arrows").flatMap((l) => l.arrows.map((a) => a.label));

	// All else takes the axis from `low` to `high`.
	const bars = layersOf(at(400), "points").flatMap((l) =>
		l.points.flatMap((p) => (p.yInterval ? [p.yInterval] : [])),
	);
	const low = Math.min(...bars.map((b) => b.low));
	const high = Math.max(...bars.map((b) => b.high));

	test("stretches the axis up to once the length that all else takes", () => {
		const near = at(low - 0.99 * (high - low));
		expect(shownOf(near)).toBeUndefined();
		expect(labelOf(near)).toEqual(["at least"]);
	});

	test("stands at the edge with its number when it lies farther off", () => {
		const limit = low - 1.01 * (high - low);
		const far = at(limit);
		expect(shownOf(far)).toEqual({ low, high });
		expect(labelOf(far)).toEqual([
			expect.stringMatching(/^at least \d+\.\d+ mg\/g$/),
		]);
	});
});

describe("the alt text", () => {
	test("is written from the data", () => {
		expect(f.alt).toContain("Uptake of iodine by 24 flasks in six treatments");
		// Flask 24 gave only a limit: its group has no mean, and none is known to be the highest.
		expect(f.alt).not.toContain("is highest");
		expect(f.alt).not.toContain("512 mg/g");
		expect(f.alt).toContain(
			'No mean of "second firing under a lid": flask 24 gave only a limit.',
		);
		expect(f.alt).toContain(
			'"water-soaked control": 301 mg/g (95 % interval 290 to 312)',
		);
		expect(f.alt).toContain(
			'Only a limit: flask 24 ("second firing under a lid"), at least 508.0 mg/g.',
		);
		expect(f.alt).toContain(
			"Left out for a deviation: flask 6 (flask cracked).",
		);
	});

	test("says nothing of bounds and deviations where there are none", () => {
		const plain = flasksAgainstControl({
			...comparison,
			flasks: uptakes.slice(8, 16),
			at: withFlasks(uptakes.slice(8, 16)),
			groups: comparison.groups.slice(0, 5),
		});
		expect(plain.alt).toContain("eight flasks");
		expect(plain.alt).toContain('"potash" is highest at 359 mg/g.');
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
	// The bars of single flasks hold 95 % whatever is asked of the means.
	expect(JSON.stringify({ ...g, notes: [] })).not.toContain("95 %");
	expect(JSON.stringify(g).match(/90 % interval/g)?.length).toBe(
		// The key, and each group with an interval in alt text and hover.
		1 + 2 * comparison.groups.filter((x) => x.boundFlasks.length === 0).length,
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
