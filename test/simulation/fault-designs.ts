import { describe, expect, test } from "vitest";
import file from "../../data/simulation/fault-designs.json";
import type { FaultDesign } from "../../data/simulation/fault-plan.mjs";
import { faultDesignsOf } from "../../data/simulation/fault-trial.mjs";
import { askedRates, meanHalfWidth, rowsOf } from "./fault-rates";
import { type FaultOutcome, faultOutcome } from "./fault-runs";
import { firstSeed, hold, note, seedsOf, trialsOf } from "./trials";

type Kind = "one dose" | "isotherms";

/** Trials of each design, and the first seed: SEEDS and FROM set others, for a shorter look or for seeds that nobody has looked at. */
function countFor(kind: Kind): number {
	const { SEEDS } = process.env;
	if (SEEDS === undefined) return trialsOf(file.trials, 1);
	// A shorter look takes fewer still where each trial needs seconds.
	return Math.ceil(Number(SEEDS) / (kind === "isotherms" ? 4 : 1));
}
/** DESIGNS, a part of a name ("iodine blank") or several with a bar between, keeps a run to these. */
const wanted = new RegExp(process.env.DESIGNS ?? "");
/** What is asked is held over trials enough to say anything; the ordinary tests see that every sheet is analysed. */
const enough = 25;

/** Several doses a soak: an isotherm each, which takes its time. */
const hasCurve = (d: FaultDesign): boolean =>
	new Set(d.treatments[0].doses).size >= 4;

/** Runs the designs of one kind. Two files share them, so that two cores do. */
export function testFaultDesigns(kind: Kind): void {
	const count = countFor(kind);
	const seeds = seedsOf(count);
	const designs = faultDesignsOf(file).filter(
		(d) =>
			hasCurve(d) === (kind === "isotherms") &&
			wanted.test(`${String(d.fault).padStart(2, "0")} ${d.name}`),
	);
	// The ordinary tests try one in three of those where each trial needs seconds.
	const tried = designs.filter(
		(_, i) => count > 1 || kind === "one dose" || i % 3 === 0,
	);
	const runsOf = new Map<string, FaultOutcome[]>();
	describe.each(tried.map((design) => ({ name: design.name, design })))(
		"$name",
		({ design }) => {
			let runs: FaultOutcome[] = [];

			test(`${count} sheets are analysed or refused`, {
				timeout: 3_600_000,
			}, () => {
				runs = seeds.map((seed) => faultOutcome(design, seed));
				runsOf.set(design.name, runs);
				const treated = design.treatments.length - 1;
				for (const { said } of runs) expect(said).toHaveLength(treated);
				for (const row of rowsOf(design, runs, firstSeed))
					note("fault-designs", row);
			});

			test.runIf(count >= enough)("what is asked of it", () => {
				const missed: string[] = [];
				for (const rate of askedRates(design, runs))
					try {
						hold({
							simulation: "trials with a fault",
							design: design.name,
							asked: file.trials,
							...rate,
						});
					} catch (error) {
						missed.push(String(error).split("\n")[0]);
					}
				expect(missed).toEqual([]);
			});

			const { cliff } = design;
			test.runIf(cliff !== undefined && count >= enough)(
				"a small change of the sheet makes no cliff",
				() => {
					const before = meanHalfWidth(runsOf.get(cliff?.from ?? "") ?? []);
					expect(meanHalfWidth(runs) / before).toBeLessThanOrEqual(
						cliff?.widerAtMost ?? 1,
					);
				},
			);
		},
	);
}
