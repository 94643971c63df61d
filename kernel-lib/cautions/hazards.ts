import { substancesIn } from "../substances";

/** A reagent or a step that can hurt someone, and the usual cautions. Common practice; labels, safety data sheets and local codes come first. */
export interface Hazard {
	readonly what: string;
	/** Substances that call for it, by their usual names on the list of substances; a sheet may use any of their names. */
	readonly substances: readonly string[];
	/** Other words in a sheet that call for it, in small letters, matched as whole words. */
	readonly words: readonly string[];
	readonly caution: string;
}

export const hazards: readonly Hazard[] = [
	{
		what: "iodine",
		substances: ["iodine", "iodine preparation"],
		words: [],
		caution:
			"Iodine stains, corrodes metal and its vapour irritates eyes and lungs: goggles, gloves, a lid on every flask, good ventilation. Keep it away from ammonia. Reduce leftovers with thiosulfate before disposal.",
	},
	{
		what: "ammonia",
		substances: [
			"ammonia",
			"ammonium carbonate",
			"ammonium bicarbonate",
			"ammonium chloride",
			"ammonium nitrate",
			"ammonium sulfate",
			"diammonium phosphate",
			"ammonium dihydrogen phosphate",
			"urea",
			"urine",
		],
		words: ["ammonium"],
		caution:
			"Ammonia and iodine form a solid that explodes when it is dry and touched: never dose iodine onto a char that may hold ammonia or an ammonium salt. Rinse it out and drive off the ammonia first.",
	},
	{
		what: "methylene blue",
		substances: ["methylene blue"],
		words: [],
		caution:
			"Methylene blue is harmful if swallowed and can act together with some medicines; it stains skin, benches and drains for days: gloves, weigh it without dust, rinse small spills at once. Do not pour it down the drain: let spent char take up leftovers and hand them in as local rules ask.",
	},
	{
		what: "phenol",
		substances: ["phenol"],
		words: [],
		caution:
			"Phenol burns and poisons through the skin, often without pain at first: fume hood, gloves made for it, someone at hand who knows what to do; no work for a school bench.",
	},
	{
		what: "alkali",
		substances: [
			"potassium carbonate",
			"sodium carbonate",
			"potassium hydroxide",
			"sodium hydroxide",
			"alkali, not named",
			"calcium hydroxide",
			"calcium oxide",
			"soda lime",
			"wood ash",
		],
		words: [],
		caution:
			"Alkali burns skin and eyes; strong alkali heats up when it dissolves: goggles and gloves, add the solid to cold water in portions, rinse splashes with plenty of water at once.",
	},
	{
		what: "acid",
		substances: [
			"hydrochloric acid",
			"sulfuric acid",
			"phosphoric acid",
			"nitric acid",
			"acetic acid",
			"vinegar",
			"citric acid",
			"wood vinegar",
		],
		words: [],
		caution:
			"Acids burn skin and eyes: goggles and gloves, acid into water and never the other way round. Wood vinegar also carries tar and phenols: keep it off the skin.",
	},
	{
		what: "zinc chloride",
		substances: ["zinc chloride"],
		words: [],
		caution:
			"Zinc chloride is corrosive and toxic to water life, and its fume when heated is dangerous to the lungs: fume hood only, collect all washings.",
	},
	{
		what: "oxidising standard",
		substances: ["potassium iodate", "potassium dichromate"],
		words: [],
		caution:
			"Iodate and dichromate are strong oxidisers; dichromate is also toxic and may cause cancer: no dust, gloves, separate waste.",
	},
	{
		what: "firing",
		substances: [],
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
		what: "hot char",
		substances: [],
		words: ["kiln", "firing", "fired", "retort", "furnace", "charring"],
		caution:
			"Char that looks cold can glow inside: open the kiln only when its wall has been hand-warm for hours, spread the char outdoors on metal or stone, and keep water at hand. Never store or pack it on the day of the firing.",
	},
	{
		what: "steam",
		substances: [],
		words: ["steam"],
		caution:
			"Steam scalds before it is seen, and on red-hot char it makes carbon monoxide and hydrogen, which burn and explode: let the gas off burning in the open, never into a room.",
	},
	{
		what: "caustic alkali in the kiln",
		substances: ["potassium hydroxide", "sodium hydroxide"],
		words: [],
		caution:
			"Caustic alkali at red heat eats steel and glass and may give off potassium or sodium vapour, which catches fire in air and in water: cool under nitrogen or a tight lid, and quench only when cold.",
	},
	{
		what: "phosphoric acid in the kiln",
		substances: ["phosphoric acid"],
		words: [],
		caution:
			"Phosphoric acid gives off choking acid fumes when it is heated, and the hot mass spits: fume hood or outdoors, face shield, cold before it is opened or rinsed.",
	},
	{
		what: "drying oven",
		substances: [],
		words: ["drying oven"],
		caution:
			"Dry char in an oven can catch fire: not above 150 °C, not with solvents in it, not unattended at first, and away from air draughts while it cools.",
	},
	{
		what: "hot crucibles",
		substances: [],
		words: ["total ash", "volatile matter", "muffle furnace", "crucible"],
		caution:
			"A crucible from the furnace burns through gloves and bench and looks cold: tongs, face shield, heat-proof mat, no one behind you. Volatile matter burns off as gas: furnace under a working hood, lid on, never an open crucible of char at red heat near anything that burns.",
	},
	{
		what: "hot extracts",
		substances: [],
		words: ["water-soluble content", "ph"],
		caution:
			"Boiling char froths over and spits, and extracts of treated char may be strongly alkaline or acid: large vessel, goggles, no open flame beside dust.",
	},
	{
		what: "float liquids",
		substances: ["calcium chloride"],
		words: ["float liquid", "brine"],
		caution:
			"Dense brines sting eyes and cuts and eat metal; calcium chloride heats up when it dissolves. Goggles and gloves, salt into cold water in portions, rinse the char until salt no longer weighs with it, and dispose of the brine as local rules say.",
	},
	{
		what: "char dust",
		substances: [],
		words: ["char", "charcoal", "biochar"],
		caution:
			"Char dust irritates the lungs and can burn: wet it or wear a dust mask, no open flame nearby.",
	},
];

const local =
	"These are the usual cautions only. Labels, safety data sheets, local codes and the person responsible for the laboratory come first.";

function mentions(text: string, word: string): boolean {
	return new RegExp(`(^|[^a-z0-9])${word}($|[^a-z0-9])`).test(text);
}

/** The cautions that any of these words call for, in the order of the list; the closing line defers to local codes and licensed practice. */
export function hazardsIn(words: readonly string[]): readonly Hazard[] {
	const text = words.join(" | ").toLowerCase();
	const named = new Set(
		words
			.flatMap((word) => substancesIn(word))
			.flatMap((s) => (s.is === "known" ? [s.substance.name] : [])),
	);
	return hazards.filter(
		(h) =>
			h.substances.some((name) => named.has(name)) ||
			h.words.some((word) => mentions(text, word)),
	);
}

/** The same as sentences for a page, the deferring line last. */
export function cautionTexts(words: readonly string[]): string[] {
	return [...hazardsIn(words).map((h) => h.caution), local];
}
