import { composition } from "../substances";

/** What to beware of while a substance is being dissolved or diluted; common practice. */
const byFormula: readonly {
	readonly formulas: readonly string[];
	readonly caution: string;
}[] = [
	{
		formulas: ["NaOH", "KOH"],
		caution:
			"Alkali heats up strongly when it dissolves and can spit: goggles and gloves, add the solid to cold water in portions, never water to the solid, never in a closed or thick-walled bottle. Splashes burn skin and eyes: rinse with plenty of water at once.",
	},
	{
		formulas: ["CaCl2", "ZnCl2", "K2CO3", "Na2CO3"],
		caution:
			"This salt warms the water when it dissolves: add it in portions and let it cool before filling to the mark; goggles and gloves.",
	},
	{
		formulas: ["ZnCl2"],
		caution:
			"Zinc chloride is corrosive and harmful to water life: gloves, no dust, collect all leftovers.",
	},
	{
		formulas: ["H3PO4", "HCl", "H2SO4", "HNO3", "CH3COOH", "C6H8O7"],
		caution:
			"Acid into water, never water into acid: the heat of mixing makes it spit. Goggles and gloves; concentrated hydrochloric acid in the fume hood.",
	},
	{
		formulas: ["I2"],
		caution:
			"Iodine gives off vapour that irritates eyes and lungs and attacks metal: weigh it in a closed bottle, away from the balance's open pan, in good ventilation; gloves; keep it away from ammonia.",
	},
	{
		formulas: ["KIO3", "K2Cr2O7"],
		caution:
			"Iodate and dichromate are strong oxidisers, dichromate is toxic and may cause cancer: no dust, gloves, separate waste.",
	},
];

const localRules =
	"Usual cautions only: the label, the safety data sheet and the rules of the place come first.";

/** The anhydrous part of a formula: "CaCl2·2H2O" is treated like "CaCl2". */
function anhydrous(formula: string): string {
	return formula.split(/[·•*]|\.(?=\d*H2O)/)[0].trim();
}

export function cautionsOf(formulas: readonly string[]): readonly string[] {
	const parts = formulas.map(anhydrous);
	const found = byFormula
		.filter((c) => c.formulas.some((f) => parts.includes(f)))
		.map((c) => c.caution);
	const chemical = parts.some((f) => composition(f).ok);
	return found.length > 0 || chemical ? [...found, localRules] : [];
}
