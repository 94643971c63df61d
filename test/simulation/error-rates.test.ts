import { describe, expect, test } from "vitest";
import { type Comparison, marginOf } from "../../kernel-lib/compare";
import { createRandom, type Random } from "../../kernel-lib/stats";
import { verdictSentence } from "../../kernel-lib/words";
import {
	compareTreatments,
	type FlaskFixture,
	flasks,
	verdictOf,
} from "../compare/fixtures";
import { hold, trialsOf } from "./trials";

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

const anyDifference = (c: Comparison): boolean =>
	c.verdicts.some((v) => v.word === "higher" || v.word === "lower");

/** Holds in how many trials something was so against the shares that were asked for; `rate` is the true one at most, and all trials too may exceed it by chance. */
function holdShare(
	what: string,
	asked: number,
	trials: readonly Comparison[],
	so: (c: Comparison) => boolean,
	limits: { least?: number; most?: number; rate?: number },
): void {
	const { rate, ...own } = limits;
	const most =
		rate !== undefined && trials.length === asked ? mostOf(rate, asked) : rate;
	hold({
		simulation: "error rates",
		design: "-",
		what,
		hits: trials.filter(so).length,
		trials: trials.length,
		asked,
		...(most !== undefined && { most }),
		...own,
	});
}

/** A rate of so much seen in so many trials stays below this in 99 of 100 test runs (normal approximation). */
const mostOf = (rate: number, asked: number): number =>
	rate + 2.33 * Math.sqrt((rate * (1 - rate)) / asked);

describe("error rates over many seeds, nothing being different in truth", () => {
	test(
		"false higher or lower in a whole family: near 5 %, with soaks as units and days as blocks",
		() => {
			const asked = 400;
			holdShare(
				"nothing differs: a false difference, soaks and days, family of 3",
				asked,
				simulate(
					{ ...plain, dayEffects: [0, 40] },
					trialsOf(asked, 100),
					"null",
				),
				anyDifference,
				// At least: not bought by intervals that are far too wide.
				{ least: 0.02, rate: 0.05 },
			);
		},
		patience,
	);

	test(
		"with a calibration error that moves treatments unlike",
		() => {
			const asked = 200;
			const truth = { ...plain, calibration: 8 };
			holdShare(
				"nothing differs: a false difference, shared calibration",
				asked,
				simulate(truth, trialsOf(asked, 30), "calibration"),
				anyDifference,
				{ least: 0.01, rate: 0.05 },
			);
		},
		patience,
	);

	test(
		"one flask each: the measuring error is covered",
		() => {
			const asked = 400;
			const truth: Truth = {
				...plain,
				soaks: 1,
				flasksPerSoak: 1,
				soakSpread: 0,
				flaskSpread: 0,
				reading: 5,
			};
			const runs = simulate(truth, trialsOf(asked, 100), "single");
			expect(runs.every((c) => c.scope === "measuring error only")).toBe(true);
			holdShare(
				"nothing differs: a false difference, one flask each",
				asked,
				runs,
				anyDifference,
				{ least: 0.02, rate: 0.05 },
			);
		},
		patience,
	);

	test(
		"flasks that run dry, some or all of a group",
		() => {
			const asked = 300;
			for (const dryAt of [195, 205])
				holdShare(
					`nothing differs: a false difference, dry at ${dryAt}`,
					asked,
					simulate({ ...plain, dryAt }, trialsOf(asked, 100), `dry ${dryAt}`),
					anyDifference,
					{ rate: 0.05 },
				);
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
			const asked = 150;
			const runs = simulate(truth, trialsOf(asked, 60), "lots");
			expect(runs.every((c) => c.scope === "these lots")).toBe(true);
			for (const c of runs)
				for (const v of c.verdicts)
					expect(verdictSentence(c, v)).toMatch(/^"[A-E]": in these lots, /);
			// what a reader who took the flasks for replicates of the treatment would believe
			holdShare(
				"one soak a treatment: the lots differ",
				asked,
				runs,
				anyDifference,
				{ least: 0.4 },
			);
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
			const asked = 400;
			holdShare(
				"a difference as large as the margin: called too small to matter",
				asked,
				simulate(moved(25), trialsOf(asked, 100), "margin", 25),
				(c) => verdictOf(c, "A").word === "no difference that matters",
				{ rate: 0.025 },
			);
		},
		patience,
	);

	test(
		"the interval holds the true difference in 95 of 100; a clear one is found",
		() => {
			const asked = 400;
			const runs = simulate(moved(40), trialsOf(asked, 100), "cover", 10);
			holdShare(
				"the true difference outside its interval",
				asked,
				runs,
				(c) => {
					const d = verdictOf(c, "A").difference;
					return !(d.is === "estimate" && d.low <= 40 && 40 <= d.high);
				},
				{ least: 0.02, rate: 0.05 },
			);
			holdShare(
				"a clear difference is found",
				asked,
				runs,
				(c) => verdictOf(c, "A").word === "higher",
				{ least: 0.98 },
			);
		},
		patience,
	);

	test(
		"as many soaks as the plan says do decide, in at least three trials of four, at the hardest difference",
		() => {
			const margin = 25;
			const asked = 150;
			const trials = trialsOf(asked, 75);
			let planned = 0;
			let decided = 0;
			for (let seed = 0; seed < trials; seed++) {
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
			// Over 40 of 150: enough of them to say anything.
			expect(planned / trials).toBeGreaterThan(40 / 150);
			hold({
				simulation: "error rates",
				design: "-",
				what: "the planned number of soaks decides",
				hits: decided,
				trials: planned,
				asked: trials < asked ? asked : planned,
				least: 0.75,
			});
		},
		patience,
	);
});
