import { expect, test } from "vitest";
import { frame } from "../../kernel-lib/bench/index";
import { scatter } from "../../kernel-lib/figures/scatter";
import { table } from "../../kernel-lib/quantity/index";

const data = frame(
	table(
		"",
		["flask", "treatment", "dose (mL)", "uptake (mg/g)"],
		[
			["1", "water", 10, 100],
			["2", "steam", 20, 150],
			["3", "steam", 30, ""],
		],
	),
);

test("a mark for each group, units on the axes, rows without a number counted", () => {
	const f = scatter(data, {
		x: "dose (mL)",
		y: "uptake (mg/g)",
		by: "treatment",
	});
	expect(
		f.layers.map((l) => l.is === "points" && [l.name, l.points.length]),
	).toEqual([
		["water", 1],
		["steam", 1],
	]);
	expect([f.x.unit, f.y.unit]).toEqual(["mL", "mg/g"]);
	expect(f.notes.join()).toContain("1 of 3 rows");
	expect(f.alt).toBe("Uptake and dose: two points in two groups by treatment.");
});

test.each([
	[{ x: "dose (ml)", y: "uptake (mg/g)" }, /Did you mean "dose \(mL\)"/],
	[{ x: "dose (mL)", y: "treatment" }, /a column without a number/],
	[{ x: "dose (mL)", y: "uptake (mg/g)", group: "treatment" }, /"group"/],
])("%o is refused", (options, message) => {
	expect(() => scatter(data, options as never)).toThrow(message);
});
