import {
	minus,
	type Problem,
	problem,
	type Quantity,
	total,
} from "../quantity";
import { asRead, surelyAboveZero } from "./weighings";

/** What stayed on one sieve. */
export interface SieveFraction {
	readonly opening: Quantity<"length">;
	readonly retained: Quantity<"mass">;
	/** Mean size of the grains on it, from a standard's own list; midway to the next coarser sieve where left out. */
	readonly meanOpening?: Quantity<"length">;
	/** True where a deviation leaves the sieve out, a torn mesh for instance: what stayed on it is counted with the next finer sieve, since only its own cut is wrong. */
	readonly leftOut?: boolean;
}

/** One sieving: sieves in any order, and the pan below them. */
export interface Sieving {
	readonly sieves: readonly SieveFraction[];
	readonly pan: Quantity<"mass">;
	/** Mean size in the pan; half the finest opening where left out. */
	readonly panMeanOpening?: Quantity<"length">;
	/** What was put on the sieves, to see what was lost. */
	readonly sample?: Quantity<"mass">;
}

/** Largest part of the sample that may be missing after sieving (common practice, no source). */
export const sievingTolerance = 0.01;

/** The openings that count, coarsest first; what stayed on a sieve that is left out is counted with the next finer one. */
export function sievesInUse({ sieves, pan }: Sieving): {
	readonly sieves: readonly SieveFraction[];
	readonly pan: Quantity<"mass">;
} {
	const sorted = [...sieves].sort(
		(a, b) => b.opening.in("mm") - a.opening.in("mm"),
	);
	const kept: SieveFraction[] = [];
	let waiting: readonly Quantity<"mass">[] = [];
	const withWaiting = (mass: Quantity<"mass">): Quantity<"mass"> =>
		waiting.length === 0 ? mass : total([...waiting, mass]);
	for (const sieve of sorted) {
		if (sieve.leftOut === true) {
			waiting = [...waiting, sieve.retained];
			continue;
		}
		kept.push({ ...sieve, retained: withWaiting(sieve.retained) });
		waiting = [];
	}
	return { sieves: kept, pan: withWaiting(pan) };
}

/** What cannot be in a sieving: too few sieves, one twice, a negative mass, nothing on any, more on them than was put on. */
export function sievingProblems(s: Sieving): Problem[] {
	const problems: Problem[] = [];
	const add = (code: string, found: string, expected: string, mend: string) =>
		problems.push(problem(code, { column: "pan" }, found, expected, mend));
	const inUse = s.sieves.filter((f) => f.leftOut !== true).length;
	if (inUse < 2)
		add(
			"too-few-sieves",
			`${inUse} sieve${inUse === 1 ? "" : "s"}`,
			"at least two sieves and the pan",
			"A distribution needs more than one cut.",
		);
	const sizes = s.sieves.map((f) => f.opening.in("mm"));
	const twice = sizes.find((d, i) => sizes.indexOf(d) !== i);
	if (twice !== undefined)
		add(
			"sieve-twice",
			`two sieves of ${twice} mm`,
			"every sieve once",
			"Add the two masses, or mend the opening.",
		);
	for (const f of [...s.sieves.map((x) => x.retained), s.pan])
		if (f.value < 0)
			add(
				"negative",
				`${asRead(f)} on a sieve`,
				"0 g or more",
				"Weigh the sieve empty and full once more.",
			);
	const sum = total([...s.sieves.map((f) => f.retained), s.pan]);
	if (!surelyAboveZero(sum))
		add(
			"no-sample",
			`${asRead(sum)} on all sieves together`,
			"a mass above 0",
			"Fill in what was weighed on every sieve; 0 where nothing stayed.",
		);
	else if (
		s.sample !== undefined &&
		surelyAboveZero(minus(sum, s.sample)) &&
		sum.in("g") > s.sample.in("g") * (1 + sievingTolerance)
	)
		add(
			"sieve-sum-above-sample",
			`${asRead(sum)} on the sieves together, of ${asRead(s.sample)} put on them`,
			`no more than the sample, within ${100 * sievingTolerance} %`,
			"Look for a mass that was written twice, a sieve that was not empty, or a tare that was not taken off.",
		);
	return problems;
}
