import { substancesIn } from "../substances";
import {
	acids,
	alkalis,
	ammonias,
	bleaches,
	chromates,
	metalSalts,
	oxidisers,
	poisons,
	solvents,
	sulfides,
	sulfites,
	treatedFeedstock,
} from "./groups";
import { forbiddenIn } from "./pairs";

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
		substances: ammonias,
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
		substances: alkalis,
		words: [],
		caution:
			"Alkali burns skin and eyes; strong alkali heats up when it dissolves: goggles and gloves, add the solid to cold water in portions, rinse splashes with plenty of water at once.",
	},
	{
		what: "acid",
		substances: acids,
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
		substances: ["potassium iodate", ...chromates],
		words: [],
		caution:
			"Iodate and dichromate are strong oxidisers; dichromates and chromates are also toxic and may cause cancer (danger): no dust, gloves, separate waste, never down the drain.",
	},
	{
		what: "oxidiser",
		substances: oxidisers,
		words: [],
		caution:
			"Oxidisers (danger) set fire to what burns: keep them apart from char, paper and acids, never dry, grind or heat them together, rinse spills with plenty of water, no leftovers into a waste bin.",
	},
	{
		what: "bleach and chlorine",
		substances: bleaches,
		words: [],
		caution:
			"Bleach burns skin and eyes, and chlorine the lungs (danger): never with acid or ammonia, windows open, leftovers diluted and reduced with thiosulfate.",
	},
	{
		what: "hydrofluoric acid",
		substances: ["hydrofluoric acid", "sodium fluoride"],
		words: [],
		caution:
			"Hydrofluoric acid goes through the skin to the bone, often without pain at first, and kills (danger); fluorides make it with acid: no bench without people trained for it and calcium gluconate gel at hand, and no glass.",
	},
	{
		what: "poison",
		substances: poisons,
		words: ["mercury", "arsenic", "cyanide", "thallium", "cadmium"],
		caution:
			"What this sheet names is acutely poisonous (danger): only where licensed work with it is done, in a fume hood, with its own waste; nothing of it down the drain, no char of it in the open.",
	},
	{
		what: "sulfide or sulfite",
		substances: [
			...sulfides,
			...sulfites,
			"sulfur dioxide",
			"hydrogen sulfide",
		],
		words: [],
		caution:
			"Sulfides and sulfites give off hydrogen sulfide or sulfur dioxide with acid, which poison at once or choke (danger): never with acid, fume hood.",
	},
	{
		what: "solvent",
		substances: solvents,
		words: [],
		caution:
			"Alcohols and solvents catch fire, and their vapour creeps along the bench (danger): no flame, no hot plate without a hood, never into a drying oven with the char; methanol is poisonous too.",
	},
	{
		what: "metal salt",
		substances: metalSalts,
		words: [],
		caution:
			"Salts of iron, copper, zinc, aluminium, tin, silver and manganese burn eyes or harm water life (warning): goggles and gloves, washings collected, heated only under a hood (some give off hydrogen chloride or nitrogen oxides).",
	},
	{
		what: "gases of a kiln",
		substances: ["carbon dioxide", "flue gas", "carbon monoxide"],
		words: ["pyrolysis gas", "wood gas", "syngas"],
		caution:
			"Carbon dioxide on red-hot char makes carbon monoxide, and gas from a kiln holds it: it has no smell and kills (danger). Outdoors or under working extraction, with an alarm; carbon dioxide itself gathers in pits.",
	},
	{
		what: "treated feedstock",
		substances: [],
		words: treatedFeedstock,
		caution:
			"Feedstock that holds chlorine, paint, glue, preservative or rubber gives off hydrogen chloride, dioxins, arsenic or other poisons when it is charred, and leaves them in the char (danger).",
	},
	{
		what: "wood tar",
		substances: ["wood tar", "bio-oil", "cresol"],
		words: [],
		caution:
			"Tar, creosote and bio-oil burn the skin and may cause cancer (danger): gloves made for it, fume hood, no smoke.",
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
			"Charring gives off carbon monoxide and tar: only outdoors or under working extraction, with an alarm. Hot char catches fire again hours later: cool it closed, without air, in a metal bin.",
	},
	{
		what: "hot char",
		substances: [],
		words: ["kiln", "firing", "fired", "retort", "furnace", "charring"],
		caution:
			"Char that looks cold can glow inside: open the kiln only when its wall has been hand-warm for hours, spread the char outdoors on metal or stone, with something to put out a fire at hand (dry sand where alkali went into the kiln, else water). Never store or pack it on the day of the firing.",
	},
	{
		what: "steam",
		substances: [],
		words: ["steam"],
		caution:
			"Steam scalds before it is seen, and on red-hot char it makes carbon monoxide and hydrogen, which burn and explode: let the gas off burning in the open, never into a room.",
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
	"These are the usual cautions only (signal words from memory). Labels, safety data sheets, local codes and the person responsible for the laboratory come first.";

function mentions(text: string, word: string): boolean {
	return new RegExp(`(^|[^a-z0-9])${word}($|[^a-z0-9])`).test(text);
}

/** Names of the listed substances in some texts. */
export function namedIn(texts: readonly string[]): ReadonlySet<string> {
	return new Set(
		texts
			.flatMap((text) => substancesIn(text))
			.flatMap((s) => (s.is === "known" ? [s.substance.name] : [])),
	);
}

/** One row of a sheet, or what goes together. */
export interface RowWords {
	/** Of its fields: what was done, dosed, soaked and fired. */
	readonly words: readonly string[];
	/** Free texts (notes, samples, what happened), which are searched for substances and feedstock only. */
	readonly texts: readonly string[];
}

/** What a sheet says that a caution may hang on. */
export interface SheetWords {
	readonly rows: readonly RowWords[];
	/** Names of what it treats char with that are on no list. */
	readonly unknown: readonly string[];
}

/** The cautions that any of these words call for, in the order of the list. */
export function hazardsIn(
	words: readonly string[],
	texts: readonly string[] = [],
): readonly Hazard[] {
	const text = words.join(" | ").toLowerCase();
	const free = texts.join(" | ").toLowerCase();
	const named = namedIn([...words, ...texts]);
	return hazards.filter(
		(h) =>
			h.substances.some((name) => named.has(name)) ||
			h.words.some(
				(word) =>
					mentions(text, word) ||
					(h.words === treatedFeedstock && mentions(free, word)),
			),
	);
}

const lookUp = (name: string): string =>
	`"${name}" is not on this program's list of substances: look it up in its safety data sheet before you handle it, and ask what it does with iodine, acid, alkali and heat.`;

/** As sentences for a page: first what must not be done, then the cautions in the order of the list, then what is not known; the last line defers to local codes and licensed practice. */
export function cautionTexts({ rows, unknown }: SheetWords): string[] {
	const unique = (of: (row: RowWords) => readonly string[]): string[] => [
		...new Set(rows.flatMap(of)),
	];
	return [
		...forbiddenIn(
			rows.map(({ words, texts }) => ({
				named: namedIn([...words, ...texts]),
				texts: [...words, ...texts],
			})),
		),
		...hazardsIn(
			unique((r) => r.words),
			unique((r) => r.texts),
		).map((h) => h.caution),
		...unknown.map(lookUp),
		local,
	];
}
