import { describe, expect, test } from "vitest";
import { type Comparison, marginOf } from "../../kernel-lib/compare";
import { createRandom, type Random } from "../../kernel-lib/stats";
import {
	compareTreatments,
	type FlaskFixture,
	flasks,
	verdictOf,
} from "./fixtures";

const patience = 600_000;

/** The truth behind a simulated trial; mg/g. */
interface Truth {
	readonly treatments: readonly { name: string; mean: number }[];
	readonly soaks: number;
	readonly flasksPerSoak: number;
	readonly soakSpread: number;
	readonly flaskSpread: number;
	readonly dayEffects: readonly number[];
	/** Standard uncertainty of a calibration that moves each treatment by its own factor; it is drawn once a trial. */
	readonly calibration: number;
	/** Uptake at which the dose is used up; a flask that would take up more gives only "at least". */
	readonly dryAt: number;
	/** Written into the sheet, or the same soak for all flasks of a treatment. */
	readonly oneSoakWritten: boolean;
	readonly reading: number;
}

const plain: Truth = {
	treatments: ["water", "A", "B", "C"].map((name) => ({ name, mean: 200 })),
	soaks: 3,
	flasksPerSoak: 2,
	soakSpread: 10,
	flaskSpread: 6,
	dayEffects: [0],
	calibration: 0,
	dryAt: Number.POSITIVE_INFINITY,
	oneSoakWritten: false,
	reading: 0,
};

/** How much the calibration moves a treatment: unlike for each, so that it does not cancel. */
const lever = [0, 1, 0.5, -0.7];

function trial(truth: Truth, random: Random): FlaskFixture[] {
	const drawn = truth.calibration * random.normal();
	return truth.treatments.flatMap(({ name, mean }, t) =>
		Array.from({ length: truth.soaks }, (_, s) => {
			const soak = truth.soakSpread * random.normal();
			return Array.from(
				{ length: truth.flasksPerSoak },
				(_, f): FlaskFixture => {
					const day = (s + f) % truth.dayEffects.length;
					const uptake =
						mean +
						soak +
						truth.dayEffects[day] +
						truth.flaskSpread * random.normal() +
						truth.reading * random.normal() +
						lever[t % lever.length] * drawn;
					const dry = uptake > truth.dryAt;
					return {
						flask: `${name}-${s}-${f}`,
						treatment: name,
						control: t > 0 ? truth.treatments[0].name : "",
						soak: truth.oneSoakWritten ? "1" : `${s}`,
						day: `${day}`,
						uptake: dry ? truth.dryAt : uptake,
						is: dry ? "at least" : "value",
						reading: truth.reading,
						...(truth.calibration > 0 && {
							shared: {
								calibration: truth.calibration * lever[t % lever.length],
							},
						}),
					};
				},
			);
		}).flat(),
	);
}

function simulate(
	truth: Truth,
	seeds: number,
	label: string,
	margin = 0.001,
): Comparison[] {
	return Array.from({ length: seeds }, (_, seed) =>
		compareTreatments(flasks(trial(truth, createRandom(`${label} ${seed}`))), {
			margin: marginOf(margin),
		}),
	);
}

function share(
	comparisons: readonly Comparison[],
	of: (c: Comparison) => boolean,
): number {
	return comparisons.filter(of).length / comparisons.length;
}

const anyDifference = (c: Comparison): boolean =>
	c.verdicts.some((v) => v.word === "higher" || v.word === "lower");

/** A rate of 5 % seen over so many seeds stays below this in 99 of 100 test runs (normal approximation). */
function atMostFive(seeds: number): number {
	return 0.05 + 2.33 * Math.sqrt((0.05 * 0.95) / seeds);
}

describe("error rates over many seeds, nothing being different in truth", () => {
	test(
		"false higher or lower in a whole family: near 5 %, with soaks as units and days as blocks",
		() => {
			const seeds = 400;
			const rate = share(
				simulate({ ...plain, dayEffects: [0, 40] }, seeds, "null"),
				anyDifference,
			);
			console.log(`soaks and days, family of 3: ${rate}`);
			expect(rate).toBeLessThanOrEqual(atMostFive(seeds));
			// not bought by intervals that are far too wide
			expect(rate).toBeGreaterThan(0.02);
		},
		patience,
	);

	test(
		"with a calibration error that moves treatments unlike",
		() => {
			const seeds = 200;
			const truth = { ...plain, calibration: 8 };
			const rate = share(simulate(truth, seeds, "calibration"), anyDifference);
			console.log(`shared calibration: ${rate}`);
			expect(rate).toBeLessThanOrEqual(atMostFive(seeds));
			expect(rate).toBeGreaterThan(0.01);
		},
		patience,
	);

	test(
		"one flask each: the measuring error is covered",
		() => {
			const seeds = 400;
			const truth: Truth = {
				...plain,
				soaks: 1,
				flasksPerSoak: 1,
				soakSpread: 0,
				flaskSpread: 0,
				reading: 5,
			};
			const runs = simulate(truth, seeds, "single");
			expect(runs.every((c) => c.scope === "measuring error only")).toBe(true);
			const rate = share(runs, anyDifference);
			console.log(`one flask each: ${rate}`);
			expect(rate).toBeLessThanOrEqual(atMostFive(seeds));
			expect(rate).toBeGreaterThan(0.02);
		},
		patience,
	);

	test(
		"flasks that run dry, some or all of a group",
		() => {
			const seeds = 300;
			for (const dryAt of [195, 205]) {
				const rate = share(
					simulate({ ...plain, dryAt }, seeds, `dry ${dryAt}`),
					anyDifference,
				);
				console.log(`dry at ${dryAt}: ${rate}`);
				expect(rate).toBeLessThanOrEqual(atMostFive(seeds));
			}
		},
		patience,
	);

	test(
		"one soak a treatment: never about the treatment, which would be wrong in most families",
		() => {
			const truth: Truth = {
				...plain,
				treatments: ["water", "A", "B", "C", "D", "E"].map((name) => ({
					name,
					mean: 200,
				})),
				soaks: 1,
				flasksPerSoak: 4,
				soakSpread: 10,
				flaskSpread: 10,
				oneSoakWritten: true,
			};
			const runs = simulate(truth, 150, "lots");
			expect(runs.every((c) => c.scope === "these lots")).toBe(true);
			for (const c of runs)
				for (const v of c.verdicts)
					expect(v.sentence).toMatch(/^[A-E]: in these lots, /);
			// what a reader who took the flasks for replicates of the treatment would believe
			const believed = share(runs, anyDifference);
			console.log(`lots differ in ${believed} of families`);
			expect(believed).toBeGreaterThan(0.4);
		},
		patience,
	);
});

describe("error rates over many seeds, with a difference in truth", () => {
	const moved = (shift: number): Truth => ({
		...plain,
		treatments: [
			{ name: "water", mean: 200 },
			{ name: "A", mean: 200 + shift },
		],
		soaks: 6,
		flasksPerSoak: 1,
		soakSpread: 8,
		flaskSpread: 0,
	});

	test(
		"a difference as large as the margin is called too small to matter in at most 2.5 %",
		() => {
			const seeds = 400;
			const rate = share(
				simulate(moved(25), seeds, "margin", 25),
				(c) => verdictOf(c, "A").word === "no difference that matters",
			);
			console.log(`no difference at the margin: ${rate}`);
			expect(rate).toBeLessThanOrEqual(
				0.025 + 2.33 * Math.sqrt((0.025 * 0.975) / seeds),
			);
		},
		patience,
	);

	test(
		"the interval holds the true difference in 95 of 100; a clear one is found",
		() => {
			const seeds = 400;
			const runs = simulate(moved(40), seeds, "cover", 10);
			const covered = share(runs, (c) => {
				const d = verdictOf(c, "A").difference;
				return d.is === "estimate" && d.low <= 40 && 40 <= d.high;
			});
			console.log(`covered: ${covered}`);
			expect(1 - covered).toBeLessThanOrEqual(atMostFive(seeds));
			expect(1 - covered).toBeGreaterThan(0.02);
			expect(
				share(runs, (c) => verdictOf(c, "A").word === "higher"),
			).toBeGreaterThan(0.98);
		},
		patience,
	);

	test(
		"as many soaks as the plan says do decide, in at least three trials of four, at the hardest difference",
		() => {
			const margin = 25;
			let planned = 0;
			let decided = 0;
			for (let seed = 0; seed < 150; seed++) {
				const random = createRandom(`plan ${seed}`);
				const pilot = compareTreatments(
					flasks(trial({ ...moved(12.5), soaks: 3 }, random)),
					{ margin: marginOf(margin) },
				);
				const { replicates } = verdictOf(pilot, "A");
				if (replicates.is !== "number") continue;
				planned += 1;
				const full = compareTreatments(
					flasks(trial({ ...moved(12.5), soaks: replicates.units }, random)),
					{ margin: marginOf(margin) },
				);
				if (verdictOf(full, "A").word !== "cannot tell") decided += 1;
			}
			console.log(`${decided} of ${planned} planned trials decided`);
			expect(planned).toBeGreaterThan(40);
			expect(decided / planned).toBeGreaterThan(0.75);
		},
		patience,
	);
});
