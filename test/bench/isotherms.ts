/** Processor time of comparisons on isotherms, and how it grows with the number of flasks. node test/bench/run.mjs isotherms.ts */
import faultFile from "../../data/simulation/fault-designs.json";
import {
	faultDesignsOf,
	simulateFault,
} from "../../data/simulation/fault-trial.mjs";
import residueFile from "../../data/simulation/residue-designs.json";
import {
	residueDesignsOf,
	simulateAtResidue,
} from "../../data/simulation/residue-trial.mjs";
import { type Trial, trialFromRows } from "../../kernel-lib/bench/index";
import { compareTreatments, marginOf } from "../../kernel-lib/compare/index";
import { uptakes } from "../../kernel-lib/uptake/index";

const turns = 5;
const sizes = [500, 600, 2000] as const;

/** Four treatments with one curve each, the doses of the design repeated. */
function longCurves(flasks: number): Trial {
	const [design] = residueDesignsOf(residueFile);
	const each = flasks / design.chars.length;
	const { truth, ...sheet } = simulateAtResidue(
		{
			...design,
			chars: design.chars.map((c) => ({
				...c,
				flasks: Array.from(
					{ length: each },
					(_, i) => c.flasks[i % c.flasks.length],
				),
			})),
		},
		1,
	);
	return trialFromRows(sheet);
}

/** Three treatments of many soaks, each with a curve of its own through four flasks. */
function manySoaks(flasks: number): Trial {
	const design = faultDesignsOf(faultFile).find(
		(d) => d.name === "isotherms of unlike scatter",
	);
	if (design === undefined) throw new Error("the design is gone");
	const { truth, ...sheet } = simulateFault(
		{
			...design,
			treatments: design.treatments.map((t) => ({
				...t,
				soaks: Math.round(flasks / design.treatments.length / t.flasks),
			})),
		},
		1,
	);
	return trialFromRows(sheet);
}

const median = (values: readonly number[]): number =>
	[...values].sort((a, b) => a - b)[values.length >> 1];

/** Milliseconds of processor time of one comparison; the sheet is read and its uptakes are computed before. */
function comparing(trial: Trial): number {
	uptakes(trial);
	const start = process.cpuUsage();
	compareTreatments(trial, { margin: marginOf(25) });
	const { user, system } = process.cpuUsage(start);
	return (user + system) / 1000;
}

export function main(): void {
	for (const [what, trialOf] of [
		["one curve a treatment", longCurves],
		["a curve for each soak of four flasks", manySoaks],
	] as const) {
		// Sizes in turn, so that whatever else the machine does falls on all of them.
		const times = Array.from({ length: turns }, () =>
			sizes.map((n) => comparing(trialOf(n))),
		);
		// The first turn is that of a program that was not warm yet.
		const [small, asked, large] = sizes.map((_, i) =>
			median(times.slice(1).map((t) => t[i])),
		);
		console.log(
			`${what}: 500 flasks ${small.toFixed(0)} ms, 600 flasks ${asked.toFixed(0)} ms, 2,000 flasks ${large.toFixed(0)} ms; 2,000 to 500: ${(large / small).toFixed(1)} times`,
		);
	}
}
