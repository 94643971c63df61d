import {
	exact,
	input,
	type Problem,
	plainNumber,
	problem,
	type Quantity,
	stated,
	throwProblems,
} from "../quantity";

/**
 * The residual concentration at which treatments are to be compared, in mg of iodine (I2) per litre: an exact number, set by the experimenter.
 *
 * @throws ProblemError for a number that is not above zero
 * @example
 * compare.residueOf(2500).in("g/L") // => 2.5
 */
export function residueOf(mgPerLitre: number): Quantity<"massConcentration"> {
	throwProblems(
		isConcentration(mgPerLitre)
			? []
			: notUsable(foundText(mgPerLitre), reached),
	);
	return exactResidue(mgPerLitre, "set by the experimenter");
}

/** The same where none was stated. */
export const residueOfTrial = (
	mgPerLitre: number,
): Quantity<"massConcentration"> =>
	exactResidue(
		mgPerLitre,
		"the middle of what the treatments left, for none was stated",
	);

function exactResidue(
	mgPerLitre: number,
	source: string,
): Quantity<"massConcentration"> {
	return input("massConcentration", mgPerLitre, "mg/L", exact, {
		symbol: "C*",
		meaning: "residual concentration at which treatments are compared",
		source: stated(source),
	});
}

/** "2.5 g/L", "340 mg/L". */
export function residueText(mgPerLitre: number): string {
	const rounded = Number(mgPerLitre.toPrecision(3));
	return Math.abs(rounded) >= 1000
		? `${plainNumber(rounded / 1000)} g/L`
		: `${plainNumber(rounded)} mg/L`;
}

/** Everything that is wrong with a stated residue. Notebooks are not compiled strictly, so that a bare number or a molar concentration may arrive here. */
export function residueProblems(residue: unknown): Problem[] {
	const write =
		"Write it with its unit: compare.residueOf(2500) is 2500 mg/L, which is 2.5 g/L.";
	if (typeof residue === "number")
		return notUsable(`the bare number ${residue}`, write);
	if (!isQuantity(residue))
		return notUsable("no residual concentration", write);
	if (residue.kind !== "massConcentration")
		return notUsable(
			`${residue.value} ${residue.unit}`,
			"Multiply an amount concentration of I2 by its molar mass (1 mmol/L is 253.8 mg/L), and give it in mg/L.",
		);
	const value = residue.in("mg/L");
	return isConcentration(value) ? [] : notUsable(foundText(value), reached);
}

const reached =
	"Choose a residue that the flasks of the trial reached; compare.severalDoses(trial) says which.";

function notUsable(found: string, mend: string): Problem[] {
	return [
		problem(
			"residue-not-usable",
			{},
			found,
			"a residual concentration above 0, as mass of iodine (I2) in a volume",
			mend,
		),
	];
}

function foundText(value: number): string {
	return Number.isFinite(value)
		? `a residue of ${value} mg/L`
		: "a residue that is no number";
}

function isConcentration(value: number): boolean {
	return Number.isFinite(value) && value > 0;
}

function isQuantity(x: unknown): x is Quantity<"massConcentration"> {
	return (
		typeof x === "object" &&
		x !== null &&
		"kind" in x &&
		"value" in x &&
		"unit" in x &&
		"in" in x
	);
}
