/** A reagent or a step that can hurt someone, and the usual cautions. Common practice; labels, safety data sheets and local codes come first. */
export interface Hazard {
	readonly what: string;
	/** Words in a sheet that call for it, lower case, matched as whole words. */
	readonly words: readonly string[];
	readonly caution: string;
}

export const hazards: readonly Hazard[] = [
	{
		what: "iodine",
		words: ["iodine", "i2"],
		caution:
			"Iodine stains, corrodes metal and its vapour irritates eyes and lungs: goggles, gloves, a lid on every jar, good ventilation. Keep it away from ammonia. Reduce leftovers with thiosulfate before disposal.",
	},
	{
		what: "alkali",
		words: [
			"potash",
			"k2co3",
			"potassium carbonate",
			"washing soda",
			"na2co3",
			"sodium carbonate",
			"koh",
			"naoh",
			"sodium hydroxide",
			"potassium hydroxide",
			"lye",
			"lime",
			"wood ash",
		],
		caution:
			"Alkali burns skin and eyes; strong alkali heats up when it dissolves: goggles and gloves, add the solid to cold water in portions, rinse splashes with plenty of water at once.",
	},
	{
		what: "acid",
		words: [
			"hydrochloric",
			"hcl",
			"sulfuric",
			"h2so4",
			"phosphoric",
			"h3po4",
			"nitric",
			"wood vinegar",
			"acetic",
			"citric",
			"pyroligneous",
		],
		caution:
			"Acids burn skin and eyes: goggles and gloves, acid into water and never the other way round. Wood vinegar also carries tar and phenols: keep it off the skin.",
	},
	{
		what: "zinc chloride",
		words: ["zinc chloride", "zncl2"],
		caution:
			"Zinc chloride is corrosive and toxic to water life, and its fume when heated is dangerous to the lungs: fume hood only, collect all washings.",
	},
	{
		what: "oxidising standard",
		words: [
			"iodate",
			"kio3",
			"dichromate",
			"k2cr2o7",
			"potassium iodate",
			"potassium dichromate",
		],
		caution:
			"Iodate and dichromate are strong oxidisers; dichromate is also toxic and may cause cancer: no dust, gloves, separate waste.",
	},
	{
		what: "firing",
		words: [
			"firing",
			"fired",
			"kiln",
			"retort",
			"furnace",
			"second firing",
			"steam",
		],
		caution:
			"Charring gives off carbon monoxide and tar: only outdoors or under working extraction, with an alarm. Hot char catches fire again hours later: cool it closed and wetted, in a metal bin.",
	},
	{
		what: "char dust",
		words: ["char", "charcoal", "biochar"],
		caution:
			"Char dust irritates the lungs and can burn: wet it or wear a dust mask, no open flame nearby.",
	},
];

const local =
	"These are the usual cautions only. Labels, safety data sheets, local codes and the person responsible for the laboratory come first.";

function mentioned(text: string, word: string): boolean {
	return new RegExp(`(^|[^a-z0-9])${word}($|[^a-z0-9])`).test(text);
}

/** The cautions that any of these words call for, in the order of the list; the closing line defers to local codes and licensed practice. */
export function hazardsIn(words: readonly string[]): readonly Hazard[] {
	const text = words.join(" | ").toLowerCase();
	return hazards.filter((h) => h.words.some((word) => mentioned(text, word)));
}

/** The same as sentences for a page, the deferring line last. */
export function cautionTexts(words: readonly string[]): string[] {
	return [...hazardsIn(words).map((h) => h.caution), local];
}
