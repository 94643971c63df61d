import {
	type Checked,
	fixed,
	type Measured,
	type NotKnown,
	named,
	per,
	plus,
	type Quantity,
	scaled,
	times,
	total,
	valueOrThrow,
} from "../quantity";
import {
	type SieveFraction,
	type Sieving,
	sievesInUse,
	sievingProblems,
	sievingTolerance,
} from "./sieving";
import { type Passing, sizeAt, sizeText, uniformity } from "./size-at-share";

/** One size class, coarsest first. */
export interface SizeClass {
	/** "on 0.85 mm", "pan". */
	readonly name: string;
	readonly share: Quantity<"ratio">;
}

export interface ParticleSizes {
	/** Shares by mass, coarsest first, the pan last; they add up to 1. */
	readonly classes: readonly SizeClass[];
	/** What passes each sieve, coarsest first. */
	readonly passing: readonly Passing[];
	/** d10: a tenth of the mass is finer. */
	readonly effectiveSize: Measured<"length"> | NotKnown;
	/** d60. */
	readonly sixtyPercentSize: Measured<"length"> | NotKnown;
	/** d60/d10. */
	readonly uniformityCoefficient: Measured<"ratio"> | NotKnown;
	readonly meanDiameter: Measured<"length"> | NotKnown;
	/** What should be known before the figures are used, in words. */
	readonly cautions: readonly string[];
}

const share = (
	mass: Quantity<"mass">,
	sum: Quantity<"mass">,
	what: string,
): Quantity<"ratio"> => named(per(mass, sum).to("%"), "f", `share ${what}`);

/** Σ f d; at least that much where grains stayed on the coarsest sieve, whose upper size limit is not known. */
function meanDiameterOf(
	classes: readonly SizeClass[],
	sieves: readonly SieveFraction[],
	panMeanOpening: Quantity<"length"> | undefined,
): Measured<"length"> {
	const means = [
		...sieves.map(
			(f, i) =>
				f.meanOpening ??
				(i === 0
					? f.opening
					: scaled(plus(sieves[i - 1].opening, f.opening), 0.5)),
		),
		panMeanOpening ?? scaled(sieves[sieves.length - 1].opening, 0.5),
	];
	const quantity = named(
		total(classes.map((c, i) => times(c.share, means[i]))),
		"d_{mean}",
		"mean particle diameter",
	);
	const above =
		sieves[0].meanOpening === undefined && sieves[0].retained.value > 0;
	return above
		? {
				is: "at least",
				quantity,
				because: `${fixed(classes[0].share.in("%"), 1)} % stayed on the coarsest sieve and is counted at its opening`,
			}
		: { is: "value", quantity };
}

/** Part of the mass in the pan above which the mean diameter is said to depend on what half the finest opening stands for (a choice of this library, no source). */
const mostInPan = 0.1;

function cautionsOf(
	s: Sieving,
	sum: Quantity<"mass">,
	inPan: Quantity<"ratio">,
): string[] {
	const lost = s.sample === undefined ? 0 : 1 - sum.in("g") / s.sample.in("g");
	return [
		...(lost > sievingTolerance
			? [
					`${(100 * lost).toFixed(1)} % of the sample is missing after sieving, more than ${100 * sievingTolerance} % (common practice, no source): dust that was lost makes the char look coarser.`,
				]
			: []),
		...(inPan.in("1") > mostInPan
			? [
					`${(100 * inPan.in("1")).toFixed(0)} % is in the pan, of unknown size: the mean diameter depends on half the finest opening. Add a finer sieve.`,
				]
			: []),
	];
}

/** As particleSizes; the sizes, or everything that is wrong with the readings. */
export function checkParticleSizes(s: Sieving): Checked<ParticleSizes> {
	const problems = sievingProblems(s);
	if (problems.length > 0) return { ok: false, problems };
	const { sieves, pan } = sievesInUse(s);
	const masses = [...sieves.map((f) => f.retained), pan];
	const sum = named(
		total(masses),
		"m_{all}",
		"mass on all sieves and in the pan",
	);
	const inPan = share(pan, sum, "in the pan");
	const classes: SizeClass[] = [
		...sieves.map((f) => {
			const name = `on ${sizeText(f.opening)}`;
			return { name, share: share(f.retained, sum, name) };
		}),
		{ name: "pan", share: inPan },
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
	return {
		ok: true,
		value: {
			classes,
			passing,
			effectiveSize: d10,
			sixtyPercentSize: d60,
			uniformityCoefficient: uniformity(d60, d10),
			meanDiameter: meanDiameterOf(classes, sieves, s.panMeanOpening),
			cautions: cautionsOf(s, sum, inPan),
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
