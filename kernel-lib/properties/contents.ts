import {
	type Checked,
	exactRatio,
	minus,
	named,
	type Problem,
	per,
	problem,
	type Quantity,
	times,
	valueOrThrow,
} from "../quantity";
import { dryMassOf, type SampleState } from "./basis";
import {
	asRead,
	sampleMass,
	shareLeft,
	shareLost,
	surelyAboveZero,
	type Weighings,
	weighingProblems,
} from "./weighings";

const dried: SampleState = { is: "dried" };

function ratio(
	problems: readonly Problem[],
	value: () => Quantity<"ratio">,
	symbol: string,
	meaning: string,
): Checked<Quantity<"ratio">> {
	return problems.length > 0
		? { ok: false, problems }
		: { ok: true, value: named(value().to("%"), symbol, meaning) };
}

export function checkMoisture(w: Weighings): Checked<Quantity<"ratio">> {
	return ratio(
		weighingProblems(w, "drying"),
		() => shareLost(w),
		"W",
		"moisture, wet basis",
	);
}

/**
 * Moisture of a char, % of the mass as weighed: W = (C - D)/(C - B) (ASTM D2867, oven; from memory).
 * @throws ProblemError where the weighings cannot be: no sample, mass gained, less than the dish
 */
export function moisture(weighings: Weighings): Quantity<"ratio"> {
	return valueOrThrow(checkMoisture(weighings));
}

export function checkTotalAsh(
	w: Weighings,
	sample: SampleState = dried,
): Checked<Quantity<"ratio">> {
	return ratio(
		weighingProblems(w, "ashing"),
		() =>
			sample.is === "dried"
				? shareLeft(w)
				: per(
						minus(w.dishAfter, w.dish),
						named(
							dryMassOf(sampleMass(w), sample),
							"m_{dry}",
							"dry mass weighed in",
						),
					),
		"A",
		"total ash of the dry char",
	);
}

/**
 * Total ash, % of the dry char: A = (D - B)/(C - B) with a sample dried before weighing (ASTM D2866; from memory); with a moist one the dry mass stands below.
 * @throws ProblemError where the weighings cannot be: no sample, mass gained, less than the crucible
 */
export function totalAsh(
	weighings: Weighings,
	sample: SampleState = dried,
): Quantity<"ratio"> {
	return valueOrThrow(checkTotalAsh(weighings, sample));
}

export function checkVolatileMatter(
	w: Weighings,
	sample: SampleState = dried,
): Checked<Quantity<"ratio">> {
	const problems = weighingProblems(w, "heating");
	const value = (): Quantity<"ratio"> =>
		sample.is === "dried"
			? shareLost(w)
			: per(
					minus(
						named(shareLost(w), "L", "share lost on heating"),
						sample.moisture,
					),
					minus(exactRatio(1), sample.moisture),
				);
	if (problems.length === 0 && sample.is === "moist") {
		const below = minus(sample.moisture, shareLost(w).to("%"));
		if (surelyAboveZero(below))
			problems.push(
				problem(
					"less-lost-than-moisture",
					{ column: "dish after" },
					`a loss of ${shareLost(w).to("%")} on heating, less than the moisture of ${sample.moisture}`,
					"at least the moisture lost",
					"The char was drier than its moisture says, or the weighings are not of one crucible: determine both on one day from one jar.",
				),
			);
	}
	return ratio(problems, value, "VM", "volatile matter of the dry char");
}

/**
 * Volatile matter, % of the dry char: VM = ((C - D)/(C - B) - W)/(1 - W), what leaves in a covered crucible at about 950 °C beyond the moisture (ASTM D5832; from memory).
 * @throws ProblemError where the weighings cannot be, or less left than the moisture alone
 */
export function volatileMatter(
	weighings: Weighings,
	sample: SampleState = dried,
): Quantity<"ratio"> {
	return valueOrThrow(checkVolatileMatter(weighings, sample));
}

/**
 * Fixed carbon of the dry char by difference: FC = 1 - A - VM, so that ash, volatile matter and fixed carbon make up the whole.
 * @param ash, volatile both of the dry char
 */
export function fixedCarbon(
	ash: Quantity<"ratio">,
	volatile: Quantity<"ratio">,
): Quantity<"ratio"> {
	return named(
		minus(minus(exactRatio(1), ash), volatile).to("%"),
		"FC",
		"fixed carbon of the dry char, by difference",
	);
}

/** Readings of a water-soluble content. */
export interface Extraction {
	/** Char extracted, as weighed. */
	readonly sample: Quantity<"mass">;
	/** All of the extract, and the part of it that was evaporated. */
	readonly extract: Quantity<"volume">;
	readonly aliquot: Quantity<"volume">;
	/** Dish, empty and with the residue of the aliquot. */
	readonly dish: Quantity<"mass">;
	readonly dishAfter: Quantity<"mass">;
}

export function checkWaterSoluble(
	e: Extraction,
	sample: SampleState = dried,
): Checked<Quantity<"ratio">> {
	const problems: Problem[] = [];
	const residue = named(
		minus(e.dishAfter, e.dish),
		"m_{residue}",
		"residue of the aliquot",
	);
	if (surelyAboveZero(minus(e.dish, e.dishAfter)))
		problems.push(
			problem(
				"below-the-dish",
				{ column: "dish after" },
				`${asRead(e.dishAfter)} with the residue, while the empty dish is ${asRead(e.dish)}`,
				"at least the mass of the dish itself",
				"Look whether the weighings belong to one dish.",
			),
		);
	if (surelyAboveZero(minus(e.aliquot, e.extract)))
		problems.push(
			problem(
				"aliquot-above-extract",
				{ column: "aliquot volume" },
				`an aliquot of ${asRead(e.aliquot)} of an extract of ${asRead(e.extract)}`,
				"an aliquot no larger than the extract",
				"Look whether the two volumes were swapped.",
			),
		);
	const whole = times(residue, per(e.extract, e.aliquot));
	const dry = dryMassOf(e.sample, sample);
	if (problems.length === 0 && surelyAboveZero(minus(whole, dry)))
		problems.push(
			problem(
				"more-than-the-sample",
				{ column: "dish after" },
				`${whole} dissolved of ${dry} of dry char`,
				"no more dissolved than there was",
				"Look at the two volumes and at the weighings of the dish.",
			),
		);
	return ratio(
		problems,
		() => per(whole, named(dry, "m_{dry}", "dry mass extracted")),
		"S",
		"water-soluble content of the dry char",
	);
}

/**
 * Water-soluble content, % of the dry char: residue of the evaporated aliquot, scaled to the whole extract, per dry mass (common practice). What was in the water itself is counted
 * with it: run one dish with the water alone.
 * @throws ProblemError where the readings cannot be
 */
export function waterSoluble(
	readings: Extraction,
	sample: SampleState = dried,
): Quantity<"ratio"> {
	return valueOrThrow(checkWaterSoluble(readings, sample));
}
