/** A substance that is read by its colour (or dosed to be read by an instrument), with the formula that its grams count. */
export interface Dye {
	readonly name: string;
	/** Other names that sheets use, in small letters. */
	readonly alsoCalled: readonly string[];
	/** What a molar concentration of it counts. */
	readonly formula: string;
	/** What to bear in mind when it is weighed; "" for nothing. */
	readonly note: string;
}

/** Formulas from memory of their textbooks. */
export const dyes: readonly Dye[] = [
	{
		name: "methylene blue",
		alsoCalled: [
			"methylene blue hydrate",
			"methylene blue trihydrate",
			"methylthioninium chloride",
			"basic blue 9",
		],
		formula: "C16H18ClN3S",
		note: "Methylene blue is sold as a hydrate of no fixed water (often three) and of 80 to 97 % dye: milligrams of the powder are not milligrams of the dye. Moles here count the dry dye, C16H18ClN3S.",
	},
	{ name: "phenol", alsoCalled: ["c6h5oh"], formula: "C6H6O", note: "" },
	{
		name: "tannic acid",
		alsoCalled: ["tannin"],
		formula: "C76H52O46",
		note: "Tannic acid is a mixture; its formula stands for the usual decagalloyl glucose.",
	},
];

/** The dye of a name; none where it is not on record (its name may be a formula). */
export function dyeOf(
	name: string,
): { readonly known: true; readonly dye: Dye } | { readonly known: false } {
	const text = name.trim().toLowerCase().replaceAll(/\s+/g, " ");
	const dye = dyes.find((d) => d.name === text || d.alsoCalled.includes(text));
	return dye === undefined ? { known: false } : { known: true, dye };
}
