import {
	minus,
	named,
	type Problem,
	per,
	plainNumber,
	problem,
	type Quantity,
	unitText,
} from "../quantity";

/** Three weighings of one dish, crucible or boat. */
export interface Weighings {
	/** Empty, with its lid where it has one. */
	readonly dish: Quantity<"mass">;
	readonly dishAndSample: Quantity<"mass">;
	/** After drying, ashing or heating, cooled in a desiccator. */
	readonly dishAfter: Quantity<"mass">;
}

/** True where a difference is above zero by more than twice its standard uncertainty. */
export function surelyAboveZero(q: Quantity): boolean {
	return q.value > 2 * q.standardUncertainty;
}

/** A reading as it was written, for messages. */
export function asRead(q: Quantity): string {
	return `${plainNumber(q.value)}${unitText(q.unit)}`;
}

/** What cannot be: a sample without mass, mass gained in the oven, less left than the dish alone. Differences that the balance explains pass. */
export function weighingProblems(w: Weighings, step: string): Problem[] {
	const problems: Problem[] = [];
	if (!surelyAboveZero(minus(w.dishAndSample, w.dish)))
		problems.push(
			problem(
				"no-sample",
				{ column: "dish and sample" },
				`a dish with sample of ${asRead(w.dishAndSample)} and an empty one of ${asRead(w.dish)}`,
				"the dish heavier with the sample than without",
				"Look whether the two weighings were swapped, or belong to two dishes.",
			),
		);
	if (surelyAboveZero(minus(w.dishAfter, w.dishAndSample)))
		problems.push(
			problem(
				"mass-gained",
				{ column: "dish after" },
				`${asRead(w.dishAfter)} after ${step}, ${asRead(w.dishAndSample)} before`,
				`no more mass after ${step} than before`,
				"Look whether the two weighings were swapped, whether the dish was weighed warm, or took up moisture on its way to the balance.",
			),
		);
	if (surelyAboveZero(minus(w.dish, w.dishAfter)))
		problems.push(
			problem(
				"below-the-dish",
				{ column: "dish after" },
				`${asRead(w.dishAfter)} after ${step}, while the empty dish is ${asRead(w.dish)}`,
				"at least the mass of the dish itself",
				"Look whether the weighings belong to one dish, and whether a lid was left out.",
			),
		);
	return problems;
}

/** Mass weighed in, g. */
export function sampleMass(w: Weighings): Quantity<"mass"> {
	return named(
		minus(w.dishAndSample, w.dish),
		"m_{sample}",
		"sample weighed in",
	);
}

/** Share of the sample that left. */
export function shareLost(w: Weighings): Quantity<"ratio"> {
	return per(minus(w.dishAndSample, w.dishAfter), sampleMass(w));
}

/** Share of the sample that stayed. */
export function shareLeft(w: Weighings): Quantity<"ratio"> {
	return per(minus(w.dishAfter, w.dish), sampleMass(w));
}
