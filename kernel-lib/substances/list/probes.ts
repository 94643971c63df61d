import {
	entry,
	type Substance,
	unclassified,
	unknownEffect,
} from "../substance";

const dye = unknownEffect(
	"what this dye does to iodine in a flask is not known",
);

const organic = { organic: true, goneAt600: true } as const;

/** What is dosed to be read by its colour or by an instrument, beside iodine, phenol and tannic acid. Formulas from memory. */
export const probes: readonly Substance[] = [
	entry(
		"methylene blue",
		"C16H18ClN3S",
		[
			"methylene blue hydrate",
			"methylene blue trihydrate",
			"methylthioninium chloride",
			"basic blue 9",
			"methylenblau",
			"bleu de méthylène",
			"azul de metileno",
		],
		unknownEffect(
			"iodine and methylene blue form compounds of little solubility; how much in a flask is not known",
		),
		{
			...organic,
			weighingNote:
				"Methylene blue is sold as a hydrate of no fixed water (often three) and of 80 to 97 % dye: milligrams of the powder are not milligrams of the dye. Moles here count the dry dye, C16H18ClN3S.",
			dangers: ["dye"],
		},
	),
	entry(
		"crystal violet",
		"C25H30ClN3",
		["gentian violet", "basic violet 3"],
		dye,
		{ ...organic, dangers: ["dye"] },
	),
	entry("malachite green", "C23H25ClN2", ["basic green 4"], dye, {
		...organic,
		dangers: ["dye"],
	}),
	entry("rhodamine B", "C28H31ClN2O3", ["basic violet 10"], dye, {
		...organic,
		dangers: ["dye"],
	}),
	entry("methyl orange", "C14H14N3NaO3S", ["acid orange 52"], dye, {
		...organic,
		dangers: ["dye"],
	}),
	entry("congo red", "C32H22N6Na2O6S2", ["direct red 28"], dye, {
		...organic,
		dangers: ["dye"],
	}),
	entry(
		"caffeine",
		"C8H10N4O2",
		["koffein"],
		unknownEffect(
			"caffeine falls out with iodine in acid; how much in a flask is not known",
		),
		organic,
	),
	entry(
		"benzoic acid",
		"C7H6O2",
		[],
		unknownEffect("what benzoic acid does to iodine in a flask is not known"),
		{
			...organic,
			acidity: "acid",
			dissociation: "partial",
		},
	),
	entry(
		"4-nitrophenol",
		"C6H5NO3",
		["p-nitrophenol", "para-nitrophenol"],
		unknownEffect(
			"nitrophenols take up iodine slowly; how much in a flask is not known",
		),
		{
			...organic,
			acidity: "acid",
			dissociation: "partial",
			dangers: ["phenol"],
		},
	),
	entry(
		"phenol red",
		"C19H14O5S",
		["phenolsulfonphthalein", "phenolrot", "rouge de phénol"],
		unknownEffect("what phenol red does to iodine in a flask is not known"),
		{ organic: true, harmless: unclassified },
	),
];
