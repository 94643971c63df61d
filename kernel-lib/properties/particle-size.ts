import {
	type Checked,
	exactRatio,
	exponentialOf,
	fixed,
	input,
	minus,
	named,
	naturalLog,
	type Problem,
	per,
	plus,
	problem,
	type Quantity,
	rectangular,
	scaled,
	stated,
	times,
	total,
	valueOrThrow,
} from "../quantity";
import { normalQuantile } from "../stats";
import type { Outcome } from "./outcome";
import { asRead, surelyAboveZero } from "./weighings";

/** What stayed on one sieve. */
export interface SieveFraction {
	readonly opening: Quantity<"length">;
	readonly retained: Quantity<"mass">;
	/** Mean size of the grains on it, from a standard's own list; midway to the next coarser sieve where left out. */
	readonly meanOpening?: Quantity<"length">;
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

/** One size class, coarsest first. */
export interface SizeClass {
	/** "on 0.85 mm", "pan". */
	readonly name: string;
	readonly share: Quantity<"ratio">;
}

/** A point of the cumulative distribution. */
export interface Passing {
	readonly opening: Quantity<"length">;
	readonly share: Quantity<"ratio">;
}

export interface ParticleSizes {
	/** Shares by mass, coarsest first, the pan last; they add up to 1. */
	readonly classes: readonly SizeClass[];
	/** What passes each sieve, coarsest first. */
	readonly passing: readonly Passing[];
	/** d10: a tenth of the mass is finer. */
	readonly effectiveSize: Outcome<"length">;
	/** d60. */
	readonly sixtyPercentSize: Outcome<"length">;
	/** d60/d10. */
	readonly uniformityCoefficient: Outcome<"ratio">;
	readonly meanDiameter: Outcome<"length">;
	/** What should be known before the figures are used, in words. */
	readonly cautions: readonly string[];
}

/** Largest part of the sample that may be missing after sieving (common practice, no source). */
export const sievingTolerance = 0.01;

function sizeText(opening: Quantity<"length">): string {
	return `${opening.in("mm")} mm`;
}

function sievingProblems(s: Sieving): Problem[] {
	const problems: Problem[] = [];
	const add = (code: string, found: string, expected: string, mend: string) =>
		problems.push(problem(code, { column: "pan" }, found, expected, mend));
	if (s.sieves.length < 2)
		add(
			"too-few-sieves",
			`${s.sieves.length} sieve${s.sieves.length === 1 ? "" : "s"}`,
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

/** Shares closer to 0 or 1 than this have no place of their own on a probability scale. */
const edge = 0.001;

/** Where a share lies on a probability scale. */
function probit(share: number): number {
	return normalQuantile(Math.min(1 - edge, Math.max(edge, share)));
}

/**
 * What nobody saw between two sieves, as an error of ln d with the best value 0: the true curve is not straight. A curve that is straight on a probability scale (grains with normally
 * distributed logarithms) lies this far from the straight line, and as far on the other side is taken for possible. Sievings on the same two sieves share it.
 */
function betweenSieves(
	upper: Passing,
	lower: Passing,
	share: number,
	straight: number,
): Quantity<"ratio"> {
	const [high, low] = [upper, lower].map((p) => probit(p.share.in("1")));
	const bent = high === low ? straight : (probit(share) - low) / (high - low);
	const apart =
		(bent - straight) *
		Math.log(upper.opening.in("mm") / lower.opening.in("mm"));
	const where = `between ${sizeText(lower.opening)} and ${sizeText(upper.opening)}`;
	return times(
		input("ratio", 0, "1", rectangular(1), {
			symbol: "\\delta_{bend}",
			meaning: `bend of the distribution ${where} at ${100 * share} %`,
			source: stated(
				"from -1 to 1 times the distance to a line that is straight on a probability scale (choice of this library)",
			),
			component: `${100 * share} % ${where}`,
		}),
		exactRatio(apart),
	);
}

/**
 * The size that a share of the mass is finer than, straight in ln d between the two sieves around it. The first stretch from the coarse end that holds the share is taken.
 */
function sizeAt(
	passing: readonly Passing[],
	share: number,
	symbol: string,
): Outcome<"length"> {
	const percent = `${100 * share} %`;
	const coarsest = passing[0];
	const finest = passing[passing.length - 1];
	if (coarsest.share.in("1") < share)
		return {
			is: "at least",
			quantity: coarsest.opening,
			because: `less than ${percent} of the mass passes the coarsest sieve`,
		};
	if (finest.share.in("1") > share)
		return {
			is: "at most",
			quantity: finest.opening,
			because: `more than ${percent} of the mass passes the finest sieve`,
		};
	const at = passing.findIndex(
		(p, i) =>
			i > 0 &&
			p.share.in("1") <= share &&
			passing[i - 1].share.in("1") >= share,
	);
	const [upper, lower] = [passing[at - 1], passing[at]];
	const rise = minus(upper.share, lower.share);
	if (rise.value === 0)
		return {
			is: "value",
			quantity: named(
				upper.opening,
				symbol,
				`size that ${percent} of the mass is finer than`,
			),
		};
	const part = per(minus(exactRatio(share), lower.share), rise);
	const size = times(
		exponentialOf(
			plus(
				times(part, naturalLog(per(upper.opening, lower.opening))),
				betweenSieves(upper, lower, share, part.value),
			),
		),
		lower.opening,
	);
	return {
		is: "value",
		quantity: named(
			size,
			symbol,
			`size that ${percent} of the mass is finer than`,
		),
	};
}

/** A quotient of two outcomes, as far as their limits allow one. */
function uniformity(
	d60: Outcome<"length">,
	d10: Outcome<"length">,
): Outcome<"ratio"> {
	if (d60.is === "not determined") return d60;
	if (d10.is === "not determined") return d10;
	const quantity = named(
		per(d60.quantity, d10.quantity),
		"UC",
		"uniformity coefficient",
	);
	if (d60.is === "value" && d10.is === "value")
		return { is: "value", quantity };
	if (d60.is !== "at most" && d10.is !== "at least")
		return {
			is: "at least",
			quantity,
			because: d60.is === "at least" ? d60.because : reason(d10),
		};
	return {
		is: "not determined",
		because: `${[reason(d60), reason(d10)].filter((r) => r !== "").join("; ")}: take sieves that lie closer around the char`,
	};
}

function reason(o: Outcome): string {
	return o.is === "value" ? "" : o.because;
}

export function checkParticleSizes(s: Sieving): Checked<ParticleSizes> {
	const problems = sievingProblems(s);
	if (problems.length > 0) return { ok: false, problems };
	const sieves = [...s.sieves].sort(
		(a, b) => b.opening.in("mm") - a.opening.in("mm"),
	);
	const masses = [...sieves.map((f) => f.retained), s.pan];
	const sum = named(
		total(masses),
		"m_{all}",
		"mass on all sieves and in the pan",
	);
	const share = (m: Quantity<"mass">, what: string): Quantity<"ratio"> =>
		named(per(m, sum).to("%"), "f", `share ${what}`);
	const classes = [
		...sieves.map((f) => ({
			name: `on ${sizeText(f.opening)}`,
			share: share(f.retained, `on ${sizeText(f.opening)}`),
		})),
		{ name: "pan", share: share(s.pan, "in the pan") },
	];
	const passing = sieves.map(
		(f, i): Passing => ({
			opening: f.opening,
			share: named(
				per(total(masses.slice(i + 1)), sum).to("%"),
				"P",
				`passes ${sizeText(f.opening)}`,
			),
		}),
	);
	const d10 = sizeAt(passing, 0.1, "d_{10}");
	const d60 = sizeAt(passing, 0.6, "d_{60}");
	const means = [
		...sieves.map(
			(f, i) =>
				f.meanOpening ??
				(i === 0
					? f.opening
					: scaled(plus(sieves[i - 1].opening, f.opening), 0.5)),
		),
		s.panMeanOpening ?? scaled(sieves[sieves.length - 1].opening, 0.5),
	];
	const mean = named(
		total(classes.map((c, i) => times(c.share, means[i]))),
		"d_{mean}",
		"mean particle diameter",
	);
	const above =
		sieves[0].meanOpening === undefined && sieves[0].retained.value > 0;
	const lost = s.sample === undefined ? 0 : 1 - sum.in("g") / s.sample.in("g");
	const cautions = [
		...(lost > sievingTolerance
			? [
					`${(100 * lost).toFixed(1)} % of the sample is missing after sieving, more than ${100 * sievingTolerance} % (common practice, no source): dust that was lost makes the char look coarser.`,
				]
			: []),
		...(classes[classes.length - 1].share.in("1") > 0.1
			? [
					`${(100 * classes[classes.length - 1].share.in("1")).toFixed(0)} % is in the pan, of unknown size: the mean diameter leans on half the finest opening. Add a finer sieve.`,
				]
			: []),
	];
	return {
		ok: true,
		value: {
			classes,
			passing,
			effectiveSize: d10,
			sixtyPercentSize: d60,
			uniformityCoefficient: uniformity(d60, d10),
			meanDiameter: above
				? {
						is: "at least",
						quantity: mean,
						because: `${fixed(classes[0].share.in("%"), 1)} % stayed on the coarsest sieve and is counted at its opening`,
					}
				: { is: "value", quantity: mean },
			cautions,
		},
	};
}

/**
 * Particle sizes from one sieving (ASTM D2862; from memory): shares by mass, what passes each sieve, effective size d10 and d60 (straight in ln d between two sieves, with what the
 * straight line may miss in the uncertainty), uniformity
 * coefficient d60/d10, mean diameter Σ f d. A size beyond the sieves comes as a limit. The order of the sieves does not matter.
 * @throws ProblemError for fewer than two sieves, one sieve twice, or more on the sieves than was put on them
 */
export function particleSizes(sieving: Sieving): ParticleSizes {
	return valueOrThrow(checkParticleSizes(sieving));
}
