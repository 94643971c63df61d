import { describe, expect, test } from "vitest";
import file from "../../data/simulation/dose-designs.json";
import { generator } from "../../data/simulation/generator.mjs";
import {
	flaskRows,
	runWaterTrial,
	type TrueIsotherm,
	trueUptake,
	type WaterBench,
	waterGlassware,
	waterSolutions,
} from "../../data/simulation/water-trial.mjs";
import * as bench from "../../kernel-lib/bench/index";
import * as dose from "../../kernel-lib/dose/index";
import * as isotherms from "../../kernel-lib/isotherms/index";
import { residueByHalving } from "../dose/flasks";
import { percent } from "./said";
import { hold, note, seedsOf, trialsOf } from "./trials";

interface Design {
	readonly name: string;
	readonly about: string;
	readonly isotherm: TrueIsotherm;
	readonly masses: number[];
	readonly bench?: Partial<WaterBench>;
	readonly background?: boolean;
	readonly question: {
		readonly start: number;
		readonly target: number;
		readonly stages: number;
		readonly scheme: dose.Scheme;
	};
}

const trials = trialsOf(file.trials, 25);
const designs = file.designs as unknown as readonly Design[];
const trueCurves = {
	Langmuir: isotherms.langmuir,
	Freundlich: isotherms.freundlich,
	Sips: isotherms.sips,
} as const;

/** One trial as somebody would type it, through the whole chain. */
function pointsOf(design: Design, seed: number): isotherms.IsothermPoints {
	const plan = { ...file.bench, ...design.bench } as WaterBench;
	const made = runWaterTrial(
		plan,
		[
			{
				name: "char",
				prefix: "W",
				isotherm: design.isotherm,
				masses: design.masses,
			},
		],
		generator(`dose design ${design.name}, trial ${seed}`),
	);
	const trial = bench.trialFromRows({
		flasks: flaskRows(plan, made.records) as never,
		solutions: waterSolutions(
			plan,
			made,
			100 * plan.thiosulfateSpread,
		) as never,
		glassware: waterGlassware(plan) as never,
	});
	const [points] = isotherms.isothermPoints(trial);
	return points;
}

/** The dose that truly does it, from the balances alone, by halving. */
function truth({ isotherm, bench, question }: Design): number {
	const q = trueUptake(isotherm);
	const { start, target, stages, scheme } = question;
	const background = (bench?.notAdsorbable ?? 0) * start;
	const own = (c: number): number => q(c - background);
	if (stages === 1) return (start - target) / own(target);
	if (scheme === "counter-current") {
		const back = (dose: number): number => {
			let c = target;
			for (let i = 0; i < stages; i++) c = target + dose * own(c);
			return c;
		};
		return halved((d) => back(d) - start, (start - target) / own(target));
	}
	// Two stages: the least total over the residue between them, by a fine grid refined twice.
	let [low, high] = [target, start];
	let best = Number.POSITIVE_INFINITY;
	for (let round = 0; round < 12; round++) {
		let at = low;
		for (let i = 1; i < 200; i++) {
			const c = low + ((high - low) * i) / 200;
			const total = (start - c) / own(c) + (c - target) / own(target);
			if (total < best) {
				best = total;
				at = c;
			}
		}
		const width = (high - low) / 50;
		[low, high] = [Math.max(target, at - width), Math.min(start, at + width)];
	}
	return best;
}

function halved(f: (x: number) => number, top: number): number {
	let [low, high] = [0, top];
	for (let i = 0; i < 100; i++) {
		const x = (low + high) / 2;
		if (f(x) > 0) high = x;
		else low = x;
	}
	return (low + high) / 2;
}

/** The tests of some of the designs; they are many trials, so that two files share them. */
export function testCoverage(...names: readonly string[]): void {
	describe("95 % intervals of the dose for a target over trials with a known isotherm", () => {
		for (const design of designs.filter((d) => names.includes(d.name))) {
			test(`design ${design.name}: ${design.about}`, {
				timeout: 600_000,
			}, () => {
				const right = truth(design);
				let given = 0;
				let held = 0;
				let width = 0;
				let below = 0;
				for (const seed of seedsOf(trials)) {
					const points = pointsOf(design, seed);
					const isotherm = trueCurves[design.isotherm.form];
					const fit = design.background
						? dose.naturalBackground(isotherm, points).fit
						: isotherms.fitIsotherm(isotherm, points);
					const answer = dose.doseForTarget(fit, {
						...design.question,
						beyond: "mark",
					});
					if (answer.is === "no dose") continue;
					const { low, high, value } = answer.dose;
					if (low.is === "not known" || high.is === "not known") continue;
					given += 1;
					width += (high.value - low.value) / value / trials;
					if (low.value <= right && right <= high.value) held += 1;
					else if (high.value < right) below += 1;
				}
				note("dose-coverage", {
					design: design.name,
					"true dose (g/L)": right.toFixed(3),
					"given (%)": percent(given / trials),
					"held the truth (%)": percent(held / given),
					"too low (%)": percent(below / given),
					"mean width (%)": percent(width),
				});
				hold({
					simulation: "dose for a target",
					design: design.name,
					what: "an interval given",
					hits: given,
					trials,
					asked: file.trials,
					least: 0.99,
				});
				hold({
					simulation: "dose for a target",
					design: design.name,
					what: "the true dose in its interval",
					hits: held,
					trials: given,
					asked: trials < file.trials ? file.trials : given,
					least: file.asked.low,
					most: file.asked.high,
				});
			});
		}
	});
}

/** The truth that the intervals are held against, checked on its own. */
export function testTruth(): void {
	test("the truth of one stage is what a jar with that dose shows", () => {
		const [design] = designs;
		expect(
			residueByHalving(
				trueUptake(design.isotherm),
				design.question.start,
				truth(design),
			),
		).toBeCloseTo(design.question.target, 9);
	});
}
