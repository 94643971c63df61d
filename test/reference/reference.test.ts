import { describe, expect, test } from "vitest";
import { checkGroups } from "./all-checks";
import { passes } from "./check";

for (const group of checkGroups) {
	describe(group.title, () => {
		for (const check of group.checks) {
			test(`${check.what} [${check.source}]`, () => {
				const got = check.got();
				expect(
					passes(check, got),
					`got ${got}, expected ${check.expected} within ${check.tolerance} (relative)`,
				).toBe(true);
			});
		}
	});
}

test("every check names its source", () => {
	for (const group of checkGroups)
		for (const check of group.checks)
			expect(check.source.length).toBeGreaterThan(10);
});
