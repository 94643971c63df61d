import { expect, test } from "vitest";
import { estimatesAgainstTruth } from "../../kernel-lib/figures/index";

const what = { label: "Plateau", unit: "mg/g", title: "Repeats" };
const hundred = Array.from({ length: 101 }, (_, i) => 300 + i);

test("shows median and the middle 95 % of the trials, and how often the truth was held", () => {
	const f = estimatesAgainstTruth(
		[{ name: "a", estimates: [...hundred].reverse(), covered: 0.876 }],
		350,
		what,
	);
	const layer = f.layers.find((l) => l.is === "points");
	expect(layer?.is === "points" && layer.points[0]).toMatchObject({
		x: 350,
		xInterval: { low: 302.5, high: 397.5 },
	});
	expect(f.y.scale).toMatchObject({ ends: ["88 %"] });
	expect(f.alt).toContain("held the truth in 88 % of trials");
});

test("trials without a number are left out; a way with none at all is refused", () => {
	const f = estimatesAgainstTruth(
		[{ name: "a", estimates: [...hundred, Number.NaN], covered: 1 }],
		350,
		what,
	);
	expect(f.alt).toContain("median 350");
	expect(() =>
		estimatesAgainstTruth(
			[{ name: "b", estimates: [], covered: 0 }],
			350,
			what,
		),
	).toThrow(/"b" has no estimate/);
});
