import { describe, expect, test } from "vitest";
import type { Comparison, TreatmentVerdict } from "../../kernel-lib/compare";
import {
	differenceStretch,
	differences,
	type FigureDescription,
	figureSvg,
	type Layer,
} from "../../kernel-lib/figures/index";
import { comparison } from "./fixtures";
import { readTexts } from "./svg-reading";

function only<K extends Layer["is"]>(
	f: FigureDescription,
	is: K,
): Extract<Layer, { is: K }> {
	const found = f.layers.filter(
		(l): l is Extract<Layer, { is: K }> => l.is === is,
	);
	expect(found).toHaveLength(1);
	return found[0];
}

const f = differences(comparison);

test("estimates with their simultaneous intervals, one row a treatment", () => {
	expect(only(f, "points").points.map((p) => [p.y, p.x, p.xInterval])).toEqual([
		[0, 58, { low: 36.5, high: 79.5 }],
		[1, 17, { low: -2, high: 36 }],
		[
			2,
			-3.4,
			{
				low: expect.closeTo(-18.6, 9),
				high: expect.closeTo(11.8, 9),
			},
		],
	]);
});

test("a limit is an arrow to where the difference may be", () => {
	expect(
		only(f, "arrows").arrows.map((a) => [a.y, a.x, a.towards, a.label]),
	).toEqual([[3, 168, "right", "at least"]]);
	const lower = differences({
		...comparison,
		verdicts: comparison.verdicts.map((v) => ({
			...v,
			difference: {
				is: "at most",
				limit: -40,
				flasks: ["24"],
				without: { low: -60, high: -40 },
				atLimit: { low: -60, high: -40 },
			},
		})),
	});
	expect(only(lower, "arrows").arrows.map((a) => a.towards)).toEqual(
		Array(4).fill("left"),
	);
});

test("the margin is shaded to both sides of the line of no difference", () => {
	const zone = only(f, "zone");
	expect([zone.from, zone.to, zone.axis]).toEqual([-20, 20, "x"]);
	expect(zone.label).toContain("less than 20 mg/g either way");
	const line = only(f, "reference line");
	expect([line.at, line.axis]).toEqual([0, "x"]);
});

test("no zone where no margin was set, or where rows have margins of their own; the note says why", () => {
	const withMargins = (
		margin: Comparison["margin"],
		margins: readonly TreatmentVerdict["margin"][],
	) =>
		differences({
			...comparison,
			margin,
			verdicts: comparison.verdicts.map((v, i) => ({
				...v,
				margin: margins[i % margins.length],
			})),
		});
	const unset = withMargins({ is: "not set" }, [
		{ is: "not known", because: "no margin was set" },
	]);
	expect(unset.layers.some((l) => l.is === "zone")).toBe(false);
	expect(unset.notes.join(" ")).toContain("No margin was set");
	expect(unset.alt).not.toContain("do not matter");
	const tenth = { is: "percent of the control", percent: 10 } as const;
	const shares = withMargins(tenth, [
		{ is: "value", value: 20 },
		{ is: "value", value: 30 },
	]);
	expect(shares.layers.some((l) => l.is === "zone")).toBe(false);
	expect(shares.notes.join(" ")).toContain(
		"The margin, 10 % of the control, is not the same for all treatments",
	);
	const alike = withMargins(tenth, [{ is: "value", value: 30 }]);
	expect(only(alike, "zone").to).toBe(30);
});

test("the word stands at the right end of its row", () => {
	const texts = readTexts(figureSvg(f, { width: 1100 }));
	const names = texts.filter((t) => t.role === "category");
	const words = texts.filter((t) => t.role === "row end");
	expect(words.map((w) => w.text)).toEqual([
		"cannot tell",
		"cannot tell",
		"no difference that matters",
		"higher",
	]);
	for (const word of words)
		expect(word.box.left).toBeGreaterThan(
			Math.max(...names.map((n) => n.box.right)) + 100,
		);
	// Each word beside its own name, not only in the same order.
	words.forEach((word, row) => {
		const name = comparison.verdicts[row].treatment;
		const lines = names.filter((n) => Math.abs(n.y - word.y) < 12);
		expect(lines.map((l) => l.text).join(" ")).toContain(name);
	});
});

test("with one flask a treatment the word claims no more than the measuring error", () => {
	const single = differences({ ...comparison, scope: "measuring error only" });
	expect(single.y.scale.is === "categories" && single.y.scale.ends).toEqual([
		"cannot tell",
		"cannot tell",
		"no difference that matters",
		"higher than measuring error explains",
	]);
	expect(single.notes.join(" ")).toContain("measuring error only");
	expect(
		differences({ ...comparison, scope: "these lots" }).notes.join(" "),
	).toContain("these lots");
});

test("the alt text has every difference with sign, interval and word", () => {
	expect(f.alt).toContain(
		"Difference in uptake of iodine, treated minus the control, of four treatments",
	);
	expect(f.alt).toContain(
		'"potash" against "water-soaked control": +58 mg/g (+37 to +80), cannot tell',
	);
	expect(f.alt).toContain(
		'"wood vinegar, 24 hours" against "water-soaked control": −3 mg/g (−19 to +12), no difference that matters',
	);
	expect(f.alt).toContain("at least +168 mg/g, higher");
});

test("a difference that is not available is said, not drawn at zero", () => {
	const none = differences({
		...comparison,
		verdicts: [
			{
				...comparison.verdicts[0],
				difference: { is: "not available", why: "nothing to compare" },
				obstacles: [{ is: "no flask left", treatment: "potash" }],
			},
		],
	});
	expect(only(none, "points").points).toEqual([]);
	expect(only(none, "labels").labels[0].text).toBe("no value");
	expect(none.alt).toContain(
		'no difference available: Every flask of "potash" was left out',
	);
	expect(none.title).toBe(
		'Uptake of iodine, difference from "water-soaked control"',
	);
});

test("the confidence is the comparison's, in key and alt text", () => {
	const g = differences({ ...comparison, confidence: 0.99 });
	expect(JSON.stringify(g)).not.toContain("95 %");
	expect(g.alt).toContain("with simultaneous 99 % intervals");
	expect(only(g, "points").name).toBe("difference, simultaneous 99 % interval");
});

describe("one interval of millions", () => {
	const wide = (half: number): FigureDescription =>
		differences({
			...comparison,
			verdicts: comparison.verdicts.map((v, i) =>
				i === 0
					? {
							...v,
							difference: {
								...v.difference,
								is: "estimate",
								estimate: 58,
								low: 58 - half,
								high: 58 + half,
							} as TreatmentVerdict["difference"],
						}
					: v,
			),
		});
	const shownOf = (g: FigureDescription) =>
		g.x.scale.is === "linear" ? g.x.scale.shown : undefined;

	test("is cut off with its numbers beside it, and leaves the others their length", () => {
		const g = wide(3e6);
		expect(shownOf(g)?.high).toBeLessThan(250);
		expect(only(g, "points").points[0].label).toBe(
			"+58 mg/g (−2999942 to +3000058)",
		);
		expect(g.notes.join(" ")).toContain("goes on beyond the axis");
		// The numbers stay whole in the description, whatever is drawn.
		expect(only(g, "points").points[0].xInterval?.high).toBe(58 + 3e6);
		expect(figureSvg(g).match(/class="beyond"/g)).toHaveLength(2);
	});

	test("which is so from ten times the usual on", () => {
		// A third of the numbers do not exceed 20, the margin.
		expect(shownOf(wide(199 - 58))).toBeUndefined();
		expect(shownOf(wide(259))).toBeDefined();
	});

	test("and the only bar of a figure is cut off against its margin alone", () => {
		expect(differenceStretch([25], [40, -1e6, 1e6])).toEqual({
			low: -25,
			high: 40,
		});
		expect(differenceStretch([], [40, -1e6, 1e6])).toBeNull();
		expect(differenceStretch([], [0.1, -25, 30])).toBeNull();
		expect(differenceStretch([], [])).toBeNull();
	});
});
