import { describe, expect, test } from "vitest";
import {
	glasswareTolerance,
	piecesOfGlassware,
	tolerancesOf,
} from "../../../kernel-lib/bench/index";

describe("tolerances of the standards", () => {
	test("the default burette: 50 mL, 0.1 mL divisions, class B ± 0.1 mL", () => {
		const burette = glasswareTolerance("burette", 50, "B");
		expect(burette).toMatchObject({
			ok: true,
			value: { tolerance: 0.1, division: 0.1, standard: "ISO 385" },
		});
	});

	test("a size between those of the standard is refused with the sizes there are", () => {
		const found = glasswareTolerance("volumetric pipette", 12, "A");
		expect(found.ok).toBe(false);
		if (!found.ok) expect(found.problems[0].expected).toContain("10, 15, 20");
	});

	test("class B is never tighter than A, tolerances grow with the size, each says it is from memory", () => {
		for (const piece of piecesOfGlassware) {
			const rows = tolerancesOf(piece);
			for (const row of rows) {
				expect(row.source).toMatch(/^from memory: ISO \d+/);
				const a = glasswareTolerance(piece, row.size, "A", row.division);
				const b = glasswareTolerance(piece, row.size, "B", row.division);
				if (a.ok && b.ok)
					expect(b.value.tolerance).toBeGreaterThanOrEqual(a.value.tolerance);
			}
			const classA = rows.filter((r) => r.accuracyClass !== "B");
			for (let i = 1; i < classA.length; i++)
				expect(classA[i].tolerance).toBeGreaterThanOrEqual(
					classA[i - 1].tolerance,
				);
		}
	});
});
