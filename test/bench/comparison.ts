/** Processor time of whole comparisons: the demo run, and 200 flasks of a simulated design. node test/bench/run.mjs comparison.ts */
import file from "../../data/simulation/fault-designs.json";
import {
	faultDesignsOf,
	simulateFault,
} from "../../data/simulation/fault-trial.mjs";
import {
	readTrial,
	type Trial,
	trialFromRows,
} from "../../kernel-lib/bench/index";
import { compareTreatments, marginOf } from "../../kernel-lib/compare/index";
import { uptakes } from "../../kernel-lib/uptake/index";

const turns = 15;

const median = (values: readonly number[]): number =>
	[...values].sort((a, b) => a - b)[values.length >> 1];

/** Milliseconds of processor time. */
function milliseconds(work: () => void): number {
	const start = process.cpuUsage();
	work();
	const { user, system } = process.cpuUsage(start);
	return (user + system) / 1000;
}

/** Each turn with a trial that is read anew: nothing that a trial keeps is carried from one to the next. */
function print(what: string, trialOf: () => Trial): void {
	const times = Array.from({ length: turns }, () => {
		const trial = trialOf();
		return [
			() => uptakes(trial),
			() => compareTreatments(trial, { margin: marginOf(25) }),
			() => compareTreatments(trial, { margin: marginOf(15) }),
		].map((work) => milliseconds(work));
	});
	// The first turns are those of a program that was not warm yet.
	const warm = times.slice(5);
	const [first, compared, again] = [0, 1, 2].map((i) =>
		median(warm.map((t) => t[i])).toFixed(0),
	);
	const cold = times[0].map((t) => t.toFixed(0)).join(" + ");
	console.log(
		`${what}: uptakes ${first} ms, first comparison ${compared} ms, another margin ${again} ms (median of ${warm.length}; the very first in this process ${cold} ms)`,
	);
}

/** Four treatments of 25 soaks, two flasks each, on two days. */
function twoHundredFlasks(): Trial {
	const design = faultDesignsOf(file).find(
		(d) => d.name === "benign 6, two days",
	);
	if (design === undefined) throw new Error("the design is gone");
	const { truth, ...sheet } = simulateFault(
		{
			...design,
			treatments: design.treatments.map((t) => ({ ...t, soaks: 25 })),
		},
		1,
	);
	return trialFromRows(sheet);
}

export function main(): void {
	for (const [what, trialOf] of [
		["demo run", () => readTrial("data/demo-run/hazelnut.csv")],
		["simulated", twoHundredFlasks],
	] as const)
		print(`${what}, ${uptakes(trialOf()).length} flasks with char`, trialOf);
}
