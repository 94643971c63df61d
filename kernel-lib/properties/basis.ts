import {
	exactRatio,
	type Kind,
	minus,
	ProblemError,
	per,
	plus,
	problem,
	type Quantity,
	throwProblems,
	times,
} from "../quantity";

/** Per gram of what a content, an uptake or a volume is stated. */
export type Basis = "as weighed" | "dry" | "dry, ash-free";

/** What has to be known of a char to go from one basis to another. */
export interface Contents {
	/** Wet basis, at the time of the weighing that is converted. */
	readonly moisture: Quantity<"ratio">;
	/** Of the dry char. */
	readonly ash: Quantity<"ratio">;
}

/** The kinds that are stated per gram of char. */
export type PerGram =
	| "ratio"
	| "uptake"
	| "amountPerMass"
	| "volumePerMass"
	| "areaPerMass";

/** 1 - share, for a share from 0 to below 1. */
function rest(share: Quantity<"ratio">, what: string): Quantity<"ratio"> {
	const part = share.in("1");
	if (!(part >= 0 && part < 1))
		throwProblems([
			problem(
				"content-out-of-range",
				{},
				`a content of ${what} of ${share}`,
				"from 0 to below 100 %",
				"Nothing can be stated per gram of what is not there.",
			),
		]);
	return minus(exactRatio(1), share);
}

function content(
	contents: Partial<Contents>,
	what: keyof Contents,
	from: Basis,
	to: Basis,
): Quantity<"ratio"> {
	const found = contents[what];
	if (found === undefined)
		throw new ProblemError([
			problem(
				"content-missing",
				{},
				`no ${what} of the char`,
				`its ${what}, to go from "${from}" to "${to}"`,
				`Give { ${what}: ... }.`,
			),
		]);
	return found;
}

function timesRatio<K extends Kind>(
	value: Quantity<K>,
	ratio: Quantity<"ratio">,
): Quantity<K> {
	return times(value as Quantity, ratio as never) as Quantity as Quantity<K>;
}

function perRatio<K extends Kind>(
	value: Quantity<K>,
	ratio: Quantity<"ratio">,
): Quantity<K> {
	return per(value as Quantity, ratio as never) as Quantity as Quantity<K>;
}

/**
 * Something stated per gram of char (a content, an uptake, a pore volume) on another basis: v(dry) = v(as weighed)/(1 - W), v(dry, ash-free) = v(dry)/(1 - A). The errors of moisture
 * and ash stay linked through the graph: two values converted with one moisture share its error. Not for the moisture itself, see `moistureOnDryBasis`.
 *
 * @param contents the moisture where "as weighed" is left or reached, the ash where "dry, ash-free" is
 * @throws ProblemError where a content that is needed is missing or not from 0 to below 100 %
 */
export function toBasis<K extends PerGram>(
	value: Quantity<K>,
	from: Basis,
	to: Basis,
	contents: Partial<Contents>,
): Quantity<K> {
	if (from === to) return value;
	const dryness = (): Quantity<"ratio"> =>
		rest(content(contents, "moisture", from, to), "moisture");
	const ashFree = (): Quantity<"ratio"> =>
		rest(content(contents, "ash", from, to), "ash");
	const dry =
		from === "as weighed"
			? perRatio(value, dryness())
			: from === "dry, ash-free"
				? timesRatio(value, ashFree())
				: value;
	return to === "as weighed"
		? timesRatio(dry, dryness())
		: to === "dry, ash-free"
			? perRatio(dry, ashFree())
			: dry;
}

/** Grams of water per gram of dry char from the wet basis: X = W/(1 - W). */
export function moistureOnDryBasis(
	wetBasis: Quantity<"ratio">,
): Quantity<"ratio"> {
	return per(wetBasis, rest(wetBasis, "moisture (wet basis)"));
}

/** Grams of water per gram of moist char from the dry basis: W = X/(1 + X). May be above 100 % on the dry basis. */
export function moistureOnWetBasis(
	dryBasis: Quantity<"ratio">,
): Quantity<"ratio"> {
	if (!(dryBasis.in("1") >= 0))
		throwProblems([
			problem(
				"content-out-of-range",
				{},
				`a moisture of ${dryBasis} on the dry basis`,
				"0 or more",
				"Look the value up again.",
			),
		]);
	return per(dryBasis, plus(exactRatio(1), dryBasis));
}

/**
 * Moist char to weigh out for a dry mass, as for the pH of an extract (10 g of dry char in 100 mL): m = m(dry)/(1 - W).
 *
 * @param moisture wet basis
 */
export function massForDryMass(
	dryMass: Quantity<"mass">,
	moisture: Quantity<"ratio">,
): Quantity<"mass"> {
	return perRatio(dryMass, rest(moisture, "moisture"));
}

/** Dry mass of a sample: all of it where it was dried before weighing. */
export function dryMassOf(
	mass: Quantity<"mass">,
	sample: SampleState,
): Quantity<"mass"> {
	return sample.is === "dried"
		? mass
		: timesRatio(mass, rest(sample.moisture, "moisture"));
}

/** How a sample was weighed: dried before, or moist with a known moisture (wet basis). */
export type SampleState =
	| { readonly is: "dried" }
	| { readonly is: "moist"; readonly moisture: Quantity<"ratio"> };
