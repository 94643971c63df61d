import { describe, expect, test } from "vitest";
import {
	freundlich,
	langmuir,
	plainPoints,
	straightLines,
	uptakeAt,
} from "../../../kernel-lib/isotherms/index";
import { goodLines, pointsOn } from "../plain-lines";

const c = [5, 20, 80, 320, 1280];
const exact = (isotherm: typeof langmuir, theta: number[]) =>
	plainPoints(
		"exact",
		c,
		c.map((v) => uptakeAt(isotherm, Float64Array.from(theta), v)),
	);

describe("straight-line forms", () => {
	test("every form is exact for points without errors", () => {
		const lines = [
			...straightLines(exact(langmuir, [300, 0.02])).filter(
				(l) => l.form.isotherm === langmuir,
			),
			...straightLines(exact(freundlich, [40, 0.3])).filter(
				(l) => l.form.isotherm === freundlich,
			),
		];
		expect(lines.length).toBe(4);
		for (const l of lines) {
			const [a, b] = l.form.isotherm === langmuir ? [300, 0.02] : [40, 0.3];
			expect(l.theta[0] / a).toBeCloseTo(1, 9);
			expect(l.theta[1] / b).toBeCloseTo(1, 9);
			expect(l.makesSense).toBe(true);
		}
	});

	test("with errors the forms disagree about the same points", () => {
		const points = plainPoints("p", c, [30, 80, 190, 260, 290]);
		const plateaus = straightLines(points)
			.filter((l) => l.form.isotherm === langmuir)
			.map((l) => l.theta[0]);
		expect(Math.max(...plateaus) / Math.min(...plateaus)).toBeGreaterThan(1.05);
	});

	test("their axes are the data's own, point by point", () => {
		const [hanes] = straightLines(plainPoints("p", [2, 4, 8], [10, 16, 20]));
		expect(hanes.form.name).toBe("C/q against C");
		expect([...hanes.across]).toEqual([2, 4, 8]);
		expect([...hanes.up]).toEqual([0.2, 0.25, 0.4]);
		// hand-worked: sums 14 and 0.85 of three points, of products 4.6, of squares 84
		expect(hanes.slope).toBeCloseTo(
			(4.6 - (14 * 0.85) / 3) / (84 - 14 ** 2 / 3),
			12,
		);
	});

	test("bounds have no place on a straight line, and that is said", () => {
		const points = pointsOn(langmuir, [350, 0.01], goodLines, { limit: 60 });
		const lines = straightLines(points);
		expect(lines[0].leftOut).toEqual(["1"]);
		expect(lines.table.notes).toEqual(["No place on a straight line: 1."]);
	});

	test("a negative plateau is called no isotherm, not printed as one", () => {
		const bent = plainPoints("p", [1, 2, 4, 8], [1, 3, 9, 27]);
		const shown = JSON.stringify(straightLines(bent).table);
		expect(shown).toContain("no isotherm: a parameter came out negative");
	});

	test("one point is no line", () => {
		expect(() => straightLines(plainPoints("p", [1, 0], [1, 2]))).toThrow(
			/one point with residue and uptake above zero; expected two or more/,
		);
	});
});
