import { describe, expect, test } from "vitest";
import { marginOf, type Replicates } from "../../kernel-lib/compare";
import { input, normal } from "../../kernel-lib/quantity";
import {
	compareTreatments,
	type FlaskFixture,
	flasks,
	group,
	verdictOf,
} from "./fixtures";

function replicates(
	fixtures: readonly FlaskFixture[],
	margin: number,
	statedSpread = 0,
): Replicates & { readonly because: string } {
	const found = verdictOf(
		compareTreatments(flasks(fixtures), {
			margin: marginOf(margin),
			...(statedSpread > 0 && {
				statedSpread: input("uptake", statedSpread, "mg/g", normal(0), {}),
			}),
		}),
		"T",
	);
	return { ...found.replicates, because: found.replicatesBecause };
}

const wide = [
	...group("water", "", [80, 100, 120]),
	...group("T", "water", [75, 105, 120]),
];

describe("replicates that would tell", () => {
	test("the fewest with a full width within the margin, at the upper limit of the spread", () => {
		const r = replicates(wide, 25);
		if (r.is !== "number") throw new Error(r.is);
		// Pooled variance (400 + 525)/2 with 4 degrees of freedom; chi-square 0.2 quantile with 4: 1.648777 (tables).
		const upper = Math.sqrt((462.5 * 4) / 1.648777);
		expect(r.because).toContain("spread between soaks of 33 mg/g");
		// Student t of 0.975 with 2(n - 1) degrees of freedom, n = 55 to 56: 1.98217 and 1.98177 (tables).
		const width = (n: number, t: number): number =>
			2 * t * upper * Math.sqrt(2 / n);
		expect(width(r.units, 1.982)).toBeLessThanOrEqual(25);
		expect(width(r.units - 1, 1.982)).toBeGreaterThan(25);
	});

	test("the difference just observed plays no part", () => {
		const moved = wide.map((f) => ({
			...f,
			uptake: f.uptake + (f.treatment === "T" ? 14 : 0),
		}));
		expect(replicates(moved, 25)).toEqual(replicates(wide, 25));
	});

	test("enough where the word is said", () => {
		expect(
			replicates(
				[
					...group("water", "", [98, 100, 102]),
					...group("T", "water", [198, 200, 202]),
				],
				25,
			).is,
		).toBe("enough");
	});

	test("a shared error that is too large: no number helps, and which one it is", () => {
		const r = replicates(
			wide.map(
				(f): FlaskFixture => ({
					...f,
					shared: f.treatment === "T" ? { "iodine blank of Monday": 9 } : {},
				}),
			),
			25,
		);
		if (r.is !== "not given") throw new Error(r.is);
		expect(r.because).toBe(
			'No number of replicates helps: the shared error of "iodine blank of Monday" (9 mg/g in this difference) must shrink first.',
		);
	});

	test("a margin far below the spread: more than anybody would make", () => {
		const r = replicates(wide, 0.5);
		if (r.is !== "not given") throw new Error(r.is);
		expect(r.because).toContain("More than 1000 of each treatment");
	});

	test("these lots: at least so many soaks", () => {
		const r = replicates(
			wide.map((f) => ({ ...f, soak: "1" })),
			25,
		);
		if (r.is !== "at least") throw new Error(r.is);
		expect(r.because).toContain(
			"to speak of the treatment at least as many soaks",
		);
	});

	test("one flask each: from a stated spread only", () => {
		const single = [
			...group("water", "", [100], { reading: 10 }),
			...group("T", "water", [110], { reading: 10 }),
		];
		const silent = replicates(single, 25);
		if (silent.is !== "not given") throw new Error(silent.is);
		expect(silent.because).toContain("shows no spread, and none was stated");
		const stated = replicates(single, 25, 10);
		if (stated.is !== "at least") throw new Error(stated.is);
		// t of 0.975: n = 6, df 10, 2.228139: 25.7 mg/g; n = 7, df 12, 2.178813: 23.3 mg/g
		expect(stated.units).toBe(7);
	});
});
