import {
	exactRatio,
	exponentialOf,
	input,
	type Kind,
	type Measured,
	minus,
	type NotKnown,
	named,
	naturalLog,
	notKnown,
	per,
	plus,
	type Quantity,
	rectangular,
	stated,
	times,
} from "../quantity";
import { normalQuantile } from "../stats";

/** A point of the cumulative distribution. */
export interface Passing {
	readonly opening: Quantity<"length">;
	readonly share: Quantity<"ratio">;
}

/** "0.85 mm" */
export function sizeText(opening: Quantity<"length">): string {
	return `${opening.in("mm")} mm`;
}

/** Shares closer to 0 or 1 than this have no place of their own on a probability scale. */
const edge = 0.001;

/** Where a share lies on a probability scale. */
function probit(share: number): number {
	return normalQuantile(Math.min(1 - edge, Math.max(edge, share)));
}

/**
 * Uncertainty of the curve between two sieves, as an error of ln d with the best value 0, since the true curve is not straight there. A curve that is straight on a probability scale (grains with normally
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
				"from −1 to 1 times the distance to a line that is straight on a probability scale (choice of this library)",
			),
			component: `${100 * share} % ${where}`,
		}),
		exactRatio(apart),
	);
}

/**
 * The size that a share of the mass is finer than, straight in ln d between the two sieves around it. The first stretch from the coarse end that holds the share is taken.
 */
export function sizeAt(
	passing: readonly Passing[],
	share: number,
	symbol: string,
): Measured<"length"> | NotKnown {
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

/** d60/d10, as far as limits of the two allow one. */
export function uniformity(
	d60: Measured<"length"> | NotKnown,
	d10: Measured<"length"> | NotKnown,
): Measured<"ratio"> | NotKnown {
	if (d60.is === "not known") return d60;
	if (d10.is === "not known") return d10;
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
	return notKnown(
		`${[reason(d60), reason(d10)].filter((r) => r !== "").join("; ")}: take sieves that lie closer around the char`,
	);
}

function reason(o: Measured<Kind>): string {
	return o.is === "value" ? "" : o.because;
}
