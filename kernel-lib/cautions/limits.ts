/**
 * What a comparison of uptakes may never be used to claim, whatever its verdict. Shown on every page that carries a verdict.
 */
export const neverConcluded: readonly string[] = [
	"This does not show that a char is fit for drinking water. That takes certified tests of a finished product (extractables, metals, microbiology, performance) by an accredited laboratory under the rules that hold where it is used.",
	"This does not show that a char may protect anyone's breathing. That takes certified tests of the finished filter.",
	"This does not show that a char may be given to anyone against poisoning. That takes a licensed medicine; in an emergency call the poison service or a doctor.",
	"Iodine uptake stands for small pores and for this method only; other substances, waters and temperatures may rank the chars differently.",
];

/** The last of these is about iodine; for anything else that was taken up it reads so. */
export function neverConcludedOf(probe: string): readonly string[] {
	return probe === "iodine"
		? neverConcluded
		: [
				...neverConcluded.slice(0, -1),
				`Uptake of ${probe} stands for the pores that it reaches and for this method only; other substances, waters and temperatures may rank the chars differently.`,
			];
}
