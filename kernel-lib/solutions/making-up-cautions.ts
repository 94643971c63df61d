import { composition, substanceNamed } from "../substances";

/** What to beware of while a substance is being dissolved or diluted; common practice. */
const cautions: readonly {
	/** Usual names on the list of substances. */
	readonly substances: readonly string[];
	readonly caution: string;
}[] = [
	{
		substances: ["sodium hydroxide", "potassium hydroxide"],
		caution:
			"Alkali heats up strongly when it dissolves and can spit: goggles and gloves, add the solid to cold water in portions, never water to the solid, never in a closed or thick-walled bottle. Splashes burn skin and eyes: rinse with plenty of water at once.",
	},
	{
		substances: [
			"calcium chloride",
			"zinc chloride",
			"potassium carbonate",
			"sodium carbonate",
		],
		caution:
			"This salt warms the water when it dissolves: add it in portions and let it cool before filling to the mark; goggles and gloves.",
	},
	{
		substances: ["zinc chloride"],
		caution:
			"Zinc chloride is corrosive and harmful to water life: gloves, no dust, collect all leftovers.",
	},
	{
		substances: [
			"phosphoric acid",
			"hydrochloric acid",
			"sulfuric acid",
			"nitric acid",
			"acetic acid",
			"citric acid",
		],
		caution:
			"Acid into water, never water into acid: the heat of mixing makes it spit. Goggles and gloves; concentrated hydrochloric acid in the fume hood.",
	},
	{
		substances: ["iodine"],
		caution:
			"Iodine gives off vapour that irritates eyes and lungs and attacks metal: weigh it in a closed bottle, away from the balance's open pan, in good ventilation; gloves; keep it away from ammonia.",
	},
	{
		substances: ["potassium iodate", "potassium dichromate"],
		caution:
			"Iodate and dichromate are strong oxidisers, dichromate is toxic and may cause cancer: no dust, gloves, separate waste.",
	},
];

const localRules =
	"Usual cautions only: the label, the safety data sheet and the rules of the place come first.";

/** What to beware of with each of these, named or written as formulas, and that local rules come first. */
export function cautionsOf(written: readonly string[]): readonly string[] {
	const named = written.flatMap((w) => {
		const found = substanceNamed(w);
		return found.is === "known" ? [found.substance.name] : [];
	});
	const found = cautions
		.filter((c) => c.substances.some((name) => named.includes(name)))
		.map((c) => c.caution);
	const chemical = named.length > 0 || written.some((w) => composition(w).ok);
	return chemical ? [...found, localRules] : [];
}
