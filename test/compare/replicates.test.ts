/** What is said of replicates, from what a judgement and its ground hold; numbers of units have tests in planning.test.ts. */
import { describe, expect, test } from "vitest";
import type { Judgement } from "../../kernel-lib/compare/judgement";
import {
	type PlanningGround,
	replicatesFor,
	withoutNumber,
} from "../../kernel-lib/compare/replicates";
import { known, notKnown } from "../../kernel-lib/quantity";

const pair = { treatment: "steam", control: "water" };

interface Made {
	readonly degreesOfFreedom?: number;
	readonly deviation?: number;
	readonly scope?: PlanningGround["unitModel"]["scope"];
	readonly statedSpread?: number;
	readonly sharedVariance?: number;
}

/** One pair without days; one input of 9 mg/g is the largest that it shares. */
const ground = ({
	degreesOfFreedom = 4,
	deviation = 10,
	scope = "treatment",
	statedSpread = 0,
	sharedVariance = 0,
}: Made): PlanningGround =>
	({
		spread: { degreesOfFreedom, deviation },
		unitModel: { scope, model: { days: ["1"] } },
		differences: {
			byTreatment: new Map([
				["steam", { is: "interval", interval: { low: -10, high: 30 } }],
			]),
			family: [
				{
					pair,
					errors: {
						sharedVariance,
						sharedEffects: Float64Array.of(Math.sqrt(sharedVariance)),
					},
				},
			],
		},
		observations: {
			errors: {
				shared: [
					{
						node: { name: { meaning: "iodine blank" } },
						input: { source: { is: "stated", source: "" } },
					},
				],
			},
		},
		confidence: 0.95,
		rule: "pooled",
		statedSpread,
	}) as unknown as PlanningGround;

const judgement = (more: Partial<Judgement> = {}): Judgement =>
	({
		pair,
		word: "cannot tell",
		obstacles: [],
		difference: { is: "interval", interval: { low: -10, high: 30 }, index: 0 },
		allowance: { low: 0, high: 0 },
		margin: known(25),
		ground: { claim: "difference" },
		...more,
	}) as unknown as Judgement;

const found = (made: Made, more: Partial<Judgement> = {}) =>
	replicatesFor([judgement(more)], ground(made))[0];

/** Full width with n units of a treatment each, deviation s, both by Student's t of 0.975 with 2 (n - 1) degrees of freedom (tables). */
const width = (n: number, s: number, t: number): number =>
	2 * t * s * Math.sqrt(2 / n);

describe("a number", () => {
	test("by the upper limit of the observed spread: chi-square of 0.2 with 4 degrees of freedom is 1.648777", () => {
		const upper = 10 * Math.sqrt(4 / 1.648777);
		// 2 (n - 1) = 26 and 24 degrees of freedom (tables)
		expect(width(14, upper, 2.055529)).toBeLessThanOrEqual(25);
		expect(width(13, upper, 2.063899)).toBeGreaterThan(25);
		expect(found({})).toEqual({
			is: "number",
			units: 14,
			from: {
				is: "spread between units",
				spread: expect.closeTo(upper, 4),
				slopes: 0,
			},
		});
	});
	test("of these lots it is at least so many", () => {
		expect(found({ scope: "these lots" }).is).toBe("at least");
	});
	test("from a stated spread, as it stands, where none was seen; n = 7 by hand: 2.178813 and, with one less, 2.228139", () => {
		expect(width(7, 10, 2.178813)).toBeLessThanOrEqual(25);
		expect(width(6, 10, 2.228139)).toBeGreaterThan(25);
		const made = { degreesOfFreedom: 0, statedSpread: 10 };
		expect(found({ ...made, scope: "these lots" })).toEqual({
			is: "at least",
			units: 7,
			from: { is: "spread between units", spread: 10, slopes: 0 },
		});
		// What was seen counts before what was stated.
		expect(found({ statedSpread: 1000 })).toEqual(found({}));
	});
	test("the fewest of all where the units agree to the last digit", () => {
		expect(found({ deviation: 0, statedSpread: 10 })).toEqual({
			is: "number",
			units: 2,
			from: { is: "spread between units", spread: 0, slopes: 0 },
		});
	});
	test("is a least one where slopes widen the interval by more than a hundredth of the margin, room for soaks apart", () => {
		const widened = (
			low: number,
			high: number,
			allowance = { low: 0, high: 0 },
		) =>
			found({}, {
				difference: { is: "interval", interval: { low, high }, index: 0 },
				allowance,
			} as never);
		expect(widened(-10, 30.25)).toEqual(found({}));
		expect(widened(-10.1, 30.2)).toMatchObject({
			is: "at least",
			units: 14,
			from: { slopes: expect.closeTo(0.3, 9) },
		});
		expect(widened(-15, 33, { low: 5, high: 3 })).toEqual(found({}));
	});
	test("by the pair's own place in the family, and its own margin", () => {
		const base = ground({});
		const two: PlanningGround = {
			...base,
			differences: {
				...base.differences,
				family: [
					...base.differences.family,
					{
						...base.differences.family[0],
						errors: {
							...base.differences.family[0].errors,
							sharedVariance: 30,
						},
					},
				],
			},
		};
		const at = (index: number, margin: number) => {
			const [r] = replicatesFor(
				[
					judgement({
						difference: {
							is: "interval",
							interval: { low: -10, high: 30 },
							index,
						} as never,
						margin: known(margin),
					}),
				],
				two,
			);
			if (r.is !== "number") throw new Error(r.is);
			return r.units;
		};
		expect(at(1, 25)).toBeGreaterThan(at(0, 25));
		expect(at(0, 30)).toBeLessThan(at(0, 25));
	});
});

describe("no number", () => {
	test("where the word is said it is enough", () => {
		expect(found({}, { word: "higher" })).toEqual({ is: "enough" });
	});
	test("no spread was seen and none was stated: first of all where measuring errors are all there is", () => {
		const none = { is: "not given", why: { is: "no spread" } };
		const silent = { degreesOfFreedom: 0 };
		expect(found({ ...silent, scope: "measuring error only" })).toEqual(none);
		expect(
			found({ ...silent, scope: "measuring error only" }, { word: "higher" }),
		).toEqual(none);
		expect(found({ ...silent, scope: "these lots" })).toEqual(none);
		expect(
			found({ ...silent, scope: "these lots" }, { word: "higher" }),
		).toEqual({ is: "enough" });
		expect(
			found(
				{ ...silent, scope: "measuring error only", statedSpread: 10 },
				{ word: "higher" },
			),
		).toEqual({ is: "enough" });
	});
	test("something that replicates do not mend", () => {
		const other = { is: "not given", why: { is: "other obstacle" } };
		expect(found({}, { obstacles: [{}] as never })).toEqual(other);
		for (const is of ["one-sided", "missing"])
			expect(found({}, { difference: { is } as never })).toEqual(other);
	});
	test("no margin, or a claim that leaves some difference open", () => {
		const noMargin = {
			is: "not given",
			why: { is: "no margin", because: "none was set" },
		};
		expect(found({}, { margin: notKnown("none was set") })).toEqual(noMargin);
		const claim = { claim: "at least the margin more" } as never;
		expect(found({}, { ground: claim })).toEqual({
			is: "not given",
			why: { is: "claim" },
		});
		expect(
			withoutNumber(
				judgement({ margin: notKnown("none was set"), ground: claim }),
			),
		).toEqual(noMargin);
	});
	test("more than a thousand of each, or a shared error in the way, which is named with its size", () => {
		expect(found({}, { margin: known(0.1) })).toEqual({
			is: "not given",
			why: { is: "too many", most: 1000 },
		});
		expect(found({ sharedVariance: 81 })).toEqual({
			is: "not given",
			why: { is: "shared error", of: "iodine blank", effect: 9 },
		});
	});
	test("the shared error is in the way where it is more than what a thousand units leave of the scatter", () => {
		// Upper limit of the spread: squared 400 / 1.648777 = 242.6; twice that over a thousand: 0.4852
		const why = (sharedVariance: number) => {
			const r = found({ sharedVariance }, { margin: known(0.1) });
			return r.is === "not given" ? r.why.is : r.is;
		};
		expect(why(0.485)).toBe("too many");
		expect(why(0.486)).toBe("shared error");
	});
});
