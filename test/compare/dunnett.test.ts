import { describe, expect, test } from "vitest";
import { passes } from "../reference/check";
import { dunnettChecks, dunnettExample } from "./dunnett-checks";
import { verdictOf } from "./fixtures";

describe("Dunnett's example through the whole comparison", () => {
	for (const check of dunnettChecks)
		test(check.what, () => {
			expect(
				passes(check, check.got()),
				`got ${check.got()}, expected ${check.expected}`,
			).toBe(true);
		});

	test("words and sentence", () => {
		const comparison = dunnettExample();
		expect(verdictOf(comparison, "A").word).toBe("cannot tell");
		const b = verdictOf(comparison, "B");
		expect(b.word).toBe("higher");
		expect(b.sentence).toBe(
			'"B": at 300 mg/L iodine left, higher than its control by 2.6 mg/g (95 % interval 0.8 to 4.4), more than the 0.5 mg/g that would matter. Decided otherwise than usual: scatter alike in all treatments.',
		);
	});
});
