/** A slip of the bench book, and the factor that it puts a number wrong by. */
interface Slip {
	readonly factor: number;
	/** How far from the factor a number may lie and still be taken for this slip: beside a slip there are errors, losses and strengths that were only meant roughly. A decision of ours. */
	readonly within: number;
	readonly cause: string;
}

const slips: readonly Slip[] = [
	{
		factor: 1.57,
		within: 1.06,
		cause: "the anhydrous salt for the pentahydrate, or the reverse",
	},
	{
		factor: 2,
		within: 1.2,
		cause:
			"normality for molarity, or the reverse (0.1 N iodine is 0.05 mol/L of I2)",
	},
	{
		factor: 6,
		within: 1.2,
		cause: "the six thiosulfate that one iodate or dichromate takes",
	},
	{
		factor: 10,
		within: 1.4,
		cause:
			"a slip of the decimal point, an aliquot factor, or a dilution that is not in the sheet",
	},
	{
		factor: 100,
		within: 1.4,
		cause: "a slip of the decimal point, or percent for a fraction",
	},
	{
		factor: 1000,
		within: 1.4,
		cause:
			"the unit at the head of a column (mmol for mol, mL for L, mg for g)",
	},
];

/** The usual slip that puts a number wrong by such a ratio (either way up); "" where none does. */
export function likelySlip(ratio: number): string {
	const factor = Math.max(ratio, 1 / ratio);
	return (
		slips.find(
			(s) => Math.max(factor / s.factor, s.factor / factor) <= s.within,
		)?.cause ?? ""
	);
}
