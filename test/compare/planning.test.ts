import { describe, expect, test } from "vitest";
import { marginOf, type Replicates } from "../../kernel-lib/compare";
import {
	type Plan,
	safeCriticalValue,
	unitsThatDecide,
} from "../../kernel-lib/compare/planning";
import { input, normal, tableText } from "../../kernel-lib/quantity";
import { normalQuantile, studentTQuantile } from "../../kernel-lib/stats";
import { nextSteps } from "../../kernel-lib/words";
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

	test("slopes that were not measured: at least as many, and what would measure them; nothing to speak of under a hundredth of the margin", () => {
		const away = (residue: number) =>
			replicates(
				wide.map((f) => ({ ...f, residue })),
				25,
			);
		expect(away(301).is).toBe("number");
		const r = away(310);
		if (r.is !== "at least" || r.from.is !== "spread between units")
			throw new Error(r.is);
		// Between 1/n of 0 and 0.6 the scale moves by (300/310)^0.6, a width of some 95 mg/g by about 1 from its middle.
		expect(r.from.slopes).toBeGreaterThan(0.25);
		expect(r.from.slopes).toBeLessThan(2);
		expect(r.because).toContain("were the slopes known");
		expect(r.because).toMatch(
			/allowing for every 1\/n adds [\d.]+ mg\/g to the width of the interval, which more soaks do not take off\.$/,
		);
	});

	test("the next step then asks for two doses", () => {
		const steps = (residue: number): string =>
			tableText(
				nextSteps(
					compareTreatments(flasks(wide.map((f) => ({ ...f, residue }))), {
						margin: marginOf(25),
					}),
				),
			);
		const doses =
			"of the control, the flasks of each with two doses, one at least 1.5 times the other.";
		expect(steps(310)).toContain(doses);
		expect(steps(300)).not.toContain("two doses");
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

describe("a plan by itself", () => {
	const pair = (treatment: string) => ({ treatment, control: "water" });
	const plan = (more: Partial<Plan>): Plan => ({
		pairs: [pair("steam")],
		days: 1,
		deviation: 1,
		sharedVariances: [0],
		confidence: 0.95,
		spread: "pooled",
		...more,
	});
	/** Just wide enough for n units, and just not. */
	const expectWidth = (p: Plan, n: number, width: number) => {
		const units = unitsThatDecide(p);
		expect(units(0, width * 1.0001)).toBe(n);
		expect(units(0, width * 0.9999)).toBe(n + 1);
	};

	test("its critical value is that of as many differences that have nothing in common", () => {
		// (2 Phi(z) - 1)^3 = 0.95
		expect(safeCriticalValue(3, Number.POSITIVE_INFINITY, 0.95)).toBeCloseTo(
			normalQuantile((1 + 0.95 ** (1 / 3)) / 2),
			6,
		);
		expect(safeCriticalValue(1, 7, 0.95)).toBeCloseTo(
			studentTQuantile(0.975, 7),
			6,
		);
	});

	test("one pair: 2 t s sqrt(2/n), by 2 (n - 1) degrees of freedom, drawn together or not", () => {
		const width = 2 * studentTQuantile(0.975, 8) * Math.sqrt(2 / 5);
		expectWidth(plan({}), 5, width);
		expectWidth(plan({ spread: "moderated" }), 5, width);
	});

	test("shared errors stand beside the scatter, whatever the number", () => {
		const t = studentTQuantile(0.975, 8);
		expectWidth(
			plan({ sharedVariances: [0.3] }),
			5,
			2 * t * Math.sqrt(2 / 5 + 0.3),
		);
	});

	test("two pairs with one control: three groups, each variance with degrees of freedom of its own", () => {
		const two = {
			pairs: [pair("steam"), pair("smoke")],
			sharedVariances: [0, 0],
		};
		const width = (degrees: number) =>
			2 * safeCriticalValue(2, degrees, 0.95) * Math.sqrt(2 / 5);
		expectWidth(plan(two), 5, width(12));
		// Satterthwaite by hand: a fifth of each variance is the pooled one; the two of the pair pull with 0.8 + 0.4/3, the third with 0.4/3.
		expectWidth(
			plan({ ...two, spread: "moderated" }),
			5,
			width((4 * 4) / (2 * (0.8 + 0.4 / 3) ** 2 + (0.4 / 3) ** 2)),
		);
	});

	test("each day beyond the first takes a degree of freedom, and one at least must be left", () => {
		const fewest = (days: number) =>
			unitsThatDecide(plan({ days, deviation: 0 }))(0, 1);
		expect([0, 1, 2, 3, 4, 5].map(fewest)).toEqual([2, 2, 2, 3, 3, 4]);
		expectWidth(
			plan({ days: 3 }),
			5,
			2 * studentTQuantile(0.975, 6) * Math.sqrt(2 / 5),
		);
	});

	test("a thousand is still said", () => {
		const t = studentTQuantile(0.975, 1998);
		const width = 2 * t * Math.sqrt(2 / 1000);
		expect(unitsThatDecide(plan({}))(0, width * 1.00001)).toBe(1000);
		expect(unitsThatDecide(plan({}))(0, width * 0.99999)).toBe(
			Number.POSITIVE_INFINITY,
		);
	});
});
