import { requireText } from "../quantity";

/**
 * What a comparison of uptakes may never be used to claim, whatever its verdict. Shown on every page that carries a verdict.
 */
export const neverConcluded: readonly string[] = [
	"This does not show that a char is fit for drinking water. That takes certified tests of a finished product (extractables, metals, microbiology, performance) by an accredited laboratory under the rules that hold where it is used.",
	"This does not show that a char may protect anyone's breathing. That takes certified tests of the finished filter.",
	"This does not show that a char may be given to anyone against poisoning. That takes a licensed medicine; in an emergency call the poison service or a doctor.",
	"Iodine uptake stands for small pores and for this method only; other substances, waters and temperatures may rank the chars differently.",
];

/**
 * What uptakes of a probe may never be used to claim: the limits that stand on every page with a verdict, the last of them worded for what was taken up.
 *
 * @param probe "iodine", "methylene blue"
 * @example
 * cautions.neverConcludedOf("methylene blue")[3].startsWith("Uptake of methylene blue stands for") // => true
 */
export function neverConcludedOf(probe: string): readonly string[] {
	requireText(
		probe,
		'what was taken up, in quotes, such as "iodine"',
		"neverConcludedOf",
	);
	return probe === "iodine"
		? neverConcluded
		: [
				...neverConcluded.slice(0, -1),
				`Uptake of ${probe} stands for the pores that it reaches and for this method only; other substances, waters and temperatures may rank the chars differently.`,
			];
}
