import { describe, expect, test } from "vitest";
import { apart } from "../fit/fixtures";
import { checkGroups } from "./all-checks";
import { type Check, factsByProvenance, passes } from "./check";
import { fitted, nistSets } from "./nist-nonlinear.checks";

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

describe("facts are counted once", () => {
	const check = (what: string, provenance: Check["provenance"], fact = what) =>
		({ what, source: "somewhere", provenance, expected: 1, fact }) as Check;

	test("by where they are from, the same one from two starts once", () => {
		expect([
			...factsByProvenance([
				check("b1 from start 1", "published", "b1"),
				check("b1 from start 2", "published", "b1"),
				check("b2", "published"),
				check("a density", "from memory"),
			]),
		]).toEqual([
			["published", 2],
			["from memory", 1],
		]);
	});

	test("of NIST each certified number once", () => {
		const { checks } = checkGroups.find((g) => g.title.includes("NIST")) ?? {
			checks: [],
		};
		expect(factsByProvenance(checks).get("published")).toBe(checks.length / 2);
	});
});

test("every check names its source", () => {
	for (const group of checkGroups)
		for (const check of group.checks)
			expect(check.source.length).toBeGreaterThan(10);
});

describe("the 54 starts of NIST: none ends converged at wrong values", () => {
	test.each(nistSets.map((set) => [set.name, set] as const))("%s", (_, set) => {
		for (const which of ["start1", "start2"] as const) {
			const found = fitted(set, which);
			expect(found.converged).toMatchObject({ holds: true });
			expect(apart(found.theta, set.certifiedParams)).toBeLessThan(1e-4);
		}
	});
});
