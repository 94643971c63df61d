/** How substances hurt, kind by kind, the gravest first: what a caution, a recipe and a kiln have to say of each. Signal words and GHS classes are from memory; the safety data sheet comes first. */
export interface Danger {
	readonly signal: "danger" | "warning";
	/** Whether a mistake on an ordinary bench may kill at once or within hours; such kinds stand before all others, whatever their signal word. */
	readonly kills: boolean;
	/** GHS classes. */
	readonly classes: string;
	/** What it does to people, and what keeps it off them. */
	readonly says: string;
	/** What to know before it is heated with char; "" for nothing in particular. */
	readonly inKiln: string;
	/** What to know while it is dissolved or diluted; "" for nothing in particular. */
	readonly inSolution: string;
	/** What to do with a spill; "" for nothing in particular. */
	readonly spilt: string;
	/** Where leftovers go; "" for nothing in particular. */
	readonly waste: string;
}

const wipe = "wipe up with gloves on, rinse";
const diluted =
	"a little, much diluted and neutral, as local rules allow; the rest collected";
const collected = "collected in a vessel of its own, never down the drain";
const leave = "leave the room, air it, do not go back alone";

export const dangers = {
	cyanide: {
		signal: "danger",
		kills: true,
		classes: "acute toxicity 1 or 2, aquatic hazard",
		says: "Cyanides kill within minutes when swallowed, breathed or through the skin: only where licensed work with them is done, never alone.",
		inKiln: "gives off hydrogen cyanide",
		inSolution: "only in strong alkali, under a hood",
		spilt: leave,
		waste: "handed in alkaline, never near acid",
	},
	azide: {
		signal: "danger",
		kills: true,
		classes: "acute toxicity 2, aquatic hazard",
		says: "Azides poison like cyanides, give off a poisonous, explosive acid with acids, and explode with lead, copper and silver: only where licensed work with them is done.",
		inKiln: "explodes",
		inSolution: "only alkaline, under a hood",
		spilt: "much water, no acid, no metal",
		waste: "handed in alkaline, never into a drain of metal",
	},
	fluoride: {
		signal: "danger",
		kills: true,
		classes: "acute toxicity 1 to 3, skin corrosion 1",
		says: "Hydrofluoric acid goes through the skin to the bone, often without pain at first, and kills; fluorides make it with acid: only with people trained for it and calcium gluconate gel at hand.",
		inKiln: "gives off hydrogen fluoride",
		inSolution: "never in glass",
		spilt:
			"on skin: water at once, calcium gluconate gel, hospital; on the bench: leave it to trained people",
		waste: collected,
	},
	poison: {
		signal: "danger",
		kills: true,
		classes: "acute toxicity 1 to 3, some carcinogenic or toxic to the unborn",
		says: "It poisons when swallowed or breathed, some also through the skin or over years: only where licensed work with it is done, gloves, fume hood.",
		inKiln:
			"may leave as vapour and poisons the air; what stays is in the char",
		inSolution: "under a hood, no dust",
		spilt: "no bare hands, no dust; leave vapours",
		waste: collected,
	},
	"gas of a kiln": {
		signal: "danger",
		kills: true,
		classes: "carbon monoxide acute toxicity 3, flammable gas 1",
		says: "A kiln gives off tar, and carbon monoxide, which has no smell and kills; carbon dioxide and steam make more of it on red-hot char: only outdoors or under working extraction, with an alarm; where it leaks, leave and do not go back alone.",
		inKiln: "burn the gas off in the open",
		inSolution: "",
		spilt: "",
		waste: "",
	},
	perchlorate: {
		signal: "danger",
		kills: true,
		classes: "oxidising 1 or 2",
		says: "With char or anything else that burns it may explode, wet or dry: never bring it onto char.",
		inKiln: "explodes with char",
		inSolution: "cold, no wood, paper or solvent near it",
		spilt: "much water, no paper or sawdust",
		waste: collected,
	},
	oxidiser: {
		signal: "danger",
		kills: true,
		classes: "oxidising 1 to 3, many corrosive or harmful",
		says: "Oxidisers set fire to what burns: apart from char, paper, solvents and acids; never dried, ground or heated together with char.",
		inKiln: "burns at once or explodes with char",
		inSolution: "cold, in small portions, no organic matter near it",
		spilt: "much water, no paper or sawdust",
		waste: "reduced or collected, never into a waste bin",
	},
	nitrate: {
		signal: "danger",
		kills: true,
		classes: "oxidising 2 or 3, nitrites toxic if swallowed",
		says: "Nitrates and nitrites with char are a gunpowder once they are dry: never dried, ground or heated together with it.",
		inKiln: "burns at once or explodes with char, gives off nitrogen oxides",
		inSolution: "no organic matter near the solid",
		spilt: "much water, no paper or sawdust",
		waste: "collected, never into a waste bin",
	},
	bleach: {
		signal: "danger",
		kills: true,
		classes: "skin corrosion 1, aquatic hazard; chlorine acute toxicity 2 or 3",
		says: "Bleach burns skin and eyes, chlorine and its like the lungs: never with acid or ammonia, goggles, gloves, windows open.",
		inKiln: "gives off chlorine or hydrogen chloride",
		inSolution: "into cold water only, in a hood or the open",
		spilt: "much water, windows open; no acid, no other cleaner",
		waste: "diluted and reduced with thiosulfate",
	},
	ammonia: {
		signal: "danger",
		kills: true,
		classes: "ammonia skin corrosion 1; some of its salts harmful",
		says: "Ammonia and iodine form a solid that explodes when it is dry and touched: never dose iodine onto a char that may hold ammonia or an ammonium salt. Rinse it out and drive off the ammonia first. Ammonia itself burns eyes and lungs.",
		inKiln: "gives off ammonia or hydrogen cyanide with hot char",
		inSolution: "under a hood, apart from iodine and bleach",
		spilt: "much water, windows open",
		waste: "neutralised by itself, never into bleach or iodine",
	},
	sulfide: {
		signal: "danger",
		kills: true,
		classes: "acute toxicity 2 to 4, skin corrosion 1",
		says: "Sulfides give off hydrogen sulfide with acid, which kills and dulls the nose first: never with acid, fume hood.",
		inKiln: "gives off hydrogen sulfide and sulfur dioxide",
		inSolution: "only alkaline, under a hood",
		spilt: "much water, no acid",
		waste: "collected alkaline",
	},
	chromate: {
		signal: "danger",
		kills: false,
		classes: "carcinogenic 1B, acute toxicity 2 or 3, oxidising 2",
		says: "Chromates and dichromates may cause cancer, are toxic, and are strong oxidisers: no dust, gloves.",
		inKiln: "sets char on fire and leaves chromium in it",
		inSolution: "under a hood, no dust, no solvents near it",
		spilt: "wet it, wipe up with gloves on, all of it to the waste",
		waste: collected,
	},
	borate: {
		signal: "danger",
		kills: false,
		classes: "may harm fertility and the unborn child 1B",
		says: "Borates may harm fertility and the unborn child: gloves, no dust, nothing of it eaten.",
		inKiln: "",
		inSolution: "no dust",
		spilt: wipe,
		waste: collected,
	},
	iodine: {
		signal: "danger",
		kills: false,
		classes: "acute toxicity 4, harms organs on repeated use, aquatic hazard",
		says: "Iodine stains, corrodes metal and its vapour irritates eyes and lungs: goggles, gloves, a lid on every flask, good ventilation. Keep it away from ammonia.",
		inKiln: "leaves as a corrosive vapour",
		inSolution:
			"weighed in a closed bottle away from the balance's open pan, dissolved in strong potassium iodide",
		spilt: "thiosulfate on it, then water",
		waste: "reduced with thiosulfate",
	},
	iodate: {
		signal: "danger",
		kills: false,
		classes: "oxidising 2, harmful if swallowed",
		says: "Iodate is a strong oxidiser: its powder apart from char, paper and strong acids, no dust.",
		inKiln: "sets char on fire",
		inSolution: "no dust",
		spilt: "wet it, wipe up with gloves on",
		waste: "reduced with thiosulfate",
	},
	steam: {
		signal: "danger",
		kills: true,
		classes: "none; hot",
		says: "Steam scalds before it is seen, and on red-hot char it makes carbon monoxide and hydrogen, which burn and explode: let the gas off burning in the open, never into a room. Cool a scald with water for many minutes.",
		inKiln: "",
		inSolution: "",
		spilt: "",
		waste: "",
	},
	"strong acid": {
		signal: "danger",
		kills: false,
		classes: "skin corrosion 1",
		says: "Strong acids burn skin and eyes: goggles and gloves.",
		inKiln: "gives off choking acid fumes: fume hood or outdoors",
		inSolution:
			"acid into water, never water into acid, for the heat of mixing makes it spit; concentrated acid in the fume hood",
		spilt: "baking soda by portions till it froths no more, then much water",
		waste: diluted,
	},
	"phosphoric acid": {
		signal: "danger",
		kills: false,
		classes: "skin corrosion 1",
		says: "Hot phosphoric acid spits and eats glass and glaze.",
		inKiln:
			"hot mass spits: face shield, cold before it is opened or rinsed; red-hot char can free phosphorus from it, which catches fire in air",
		inSolution: "",
		spilt: "",
		waste: "",
	},
	"strong alkali": {
		signal: "danger",
		kills: false,
		classes: "skin corrosion 1, eye damage 1",
		says: "Strong alkali burns skin and blinds: goggles and gloves, splashes rinsed with plenty of water at once.",
		inKiln: "eats steel and glass",
		inSolution:
			"heats up strongly and can spit: the solid into cold water in portions, never water to the solid, never in a closed or thick-walled bottle",
		spilt: "much water, with gloves on",
		waste: diluted,
	},
	"alkali metal": {
		signal: "danger",
		kills: false,
		classes: "none as it is; the metal reacts with water 1",
		says: "In the kiln red-hot char frees potassium, sodium and carbon monoxide from it, which catch fire in air and in water.",
		inKiln:
			"cool it closed, under nitrogen or its own gas; wet it only when it is cold",
		inSolution: "",
		spilt: "",
		waste: "",
	},
	"zinc chloride": {
		signal: "danger",
		kills: true,
		classes: "skin corrosion 1, aquatic hazard 1",
		says: "Zinc chloride is corrosive and very toxic to water life; its fume destroys the lungs, hours later.",
		inKiln: "only under a working fume hood",
		inSolution: "warms the water: in portions, no dust",
		spilt: "wipe up with gloves on, all of it to the waste",
		waste: "washings and leftovers collected",
	},
	phenol: {
		signal: "danger",
		kills: true,
		classes: "acute toxicity 3, skin corrosion 1, suspected mutagen",
		says: "Phenols burn and poison through the skin, often without pain at first: fume hood, gloves made for it, someone at hand who knows what to do; no work for a school bench.",
		inKiln: "leaves as a poisonous vapour",
		inSolution: "under a hood",
		spilt: "on skin: water at once and long, hospital",
		waste: collected,
	},
	tar: {
		signal: "danger",
		kills: false,
		classes: "carcinogenic 1B, skin irritation 2",
		says: "Tar, creosote, wood vinegar and bio-oil hold phenols and what may cause cancer: off the skin, gloves made for it, fume hood.",
		inKiln: "gives off thick smoke that burns",
		inSolution: "under a hood",
		spilt: "soaked up with dry char or sand, to the waste",
		waste: collected,
	},
	solvent: {
		signal: "danger",
		kills: false,
		classes: "flammable liquid 1 to 3; methanol acute toxicity 3",
		says: "Solvents catch fire, and their vapour creeps along the bench: no flame, no hot plate without a hood, never into a drying oven with the char.",
		inKiln: "never into a hot kiln: the vapour explodes",
		inSolution: "no flame near it",
		spilt: "flames out, windows open, soaked up",
		waste: collected,
	},
	"gas that burns": {
		signal: "danger",
		kills: true,
		classes: "flammable gas 1, gas under pressure",
		says: "Hydrogen and borohydride, which gives it off, explode with air: no flame, working extraction.",
		inKiln: "flush with nitrogen before and after",
		inSolution: "never acid",
		spilt: "",
		waste: "",
	},
	oxygen: {
		signal: "danger",
		kills: true,
		classes: "oxidising gas 1, gas under pressure",
		says: "Oxygen makes char, grease and cloth burn like a fuse: no oil, no flame, working ventilation.",
		inKiln: "hot char burns away in it, suddenly",
		inSolution: "",
		spilt: "",
		waste: "",
	},
	"choking gas": {
		signal: "warning",
		kills: true,
		classes: "gas under pressure",
		says: "Nitrogen, argon and carbon dioxide push out the air that people breathe, without a sign: ventilation, never into a closed room or a pit.",
		inKiln: "",
		inSolution: "",
		spilt: "",
		waste: "",
	},
	sulfite: {
		signal: "danger",
		kills: false,
		classes: "harmful, eye damage; sulfur dioxide acute toxicity 3",
		says: "Sulfites give off sulfur dioxide with acid or heat, which chokes, asthmatics first: never with acid outside a hood.",
		inKiln: "gives off sulfur dioxide and hydrogen sulfide",
		inSolution: "under a hood",
		spilt: "much water, no acid",
		waste: "collected or oxidised, never near acid",
	},
	sulfur: {
		signal: "warning",
		kills: false,
		classes: "flammable solid 2, skin irritation 2",
		says: "Sulfur burns to sulfur dioxide, which chokes, and with an oxidiser it is a gunpowder.",
		inKiln: "burns to sulfur dioxide; with hot char it gives carbon disulfide",
		inSolution: "",
		spilt: "swept up wet, no dust",
		waste: "collected",
	},
	dye: {
		signal: "warning",
		kills: false,
		classes: "harmful if swallowed, some eye damage or suspected carcinogens",
		says: "Dyes stain skin and bench for days, and some are harmful when swallowed (methylene blue acts together with some medicines): gloves, weigh them without dust.",
		inKiln: "burns to harmful smoke",
		inSolution: "no dust",
		spilt: "rinse small spills at once",
		waste:
			"taken up by spent char and handed in as local rules ask, never down the drain",
	},
	"metal salt": {
		signal: "danger",
		kills: false,
		classes: "harmful, eye damage, aquatic hazard; some skin corrosion",
		says: "Salts of iron, copper, zinc, aluminium, tin, silver and manganese hurt eyes, and many harm water life: goggles and gloves.",
		inKiln:
			"under a hood: some give off hydrogen chloride, sulfur dioxide or nitrogen oxides",
		inSolution: "some heat up and fume: in portions",
		spilt: wipe,
		waste: "washings collected",
	},
	"mild acid": {
		signal: "warning",
		kills: false,
		classes:
			"eye irritation 2; glacial acetic and formic acid skin corrosion 1",
		says: "Weak acids sting eyes and skin, and burn them where they are concentrated: goggles and gloves. Oxalic acid is poisonous, too.",
		inKiln: "gives off stinging vapour",
		inSolution: "acid into water; concentrated acid under a hood",
		spilt: wipe,
		waste: diluted,
	},
	"mild alkali": {
		signal: "warning",
		kills: false,
		classes: "eye irritation 2, skin irritation 2",
		says: "Washing soda, potash, ash and other alkalis of their strength irritate eyes and skin: goggles, no dust, splashes rinsed with water at once.",
		inKiln: "",
		inSolution:
			"some warm the water: in portions, cooled before filling to the mark",
		spilt: wipe,
		waste: diluted,
	},
	carbonate: {
		signal: "warning",
		kills: false,
		classes: "none for most",
		says: "Carbonates froth up with acid and fill a closed vessel with carbon dioxide till it bursts: acid in portions, vessel open.",
		inKiln: "",
		inSolution: "",
		spilt: "",
		waste: "",
	},
	brine: {
		signal: "warning",
		kills: false,
		classes: "eye irritation 2",
		says: "Dense brines sting eyes and cuts and eat metal: goggles and gloves, char rinsed until salt no longer weighs with it.",
		inKiln: "",
		inSolution:
			"warms the water: salt into cold water in portions, cooled before filling to the mark",
		spilt: wipe,
		waste: "as local rules say",
	},
} as const satisfies Record<string, Danger>;

export type DangerKind = keyof typeof dangers;

/** The kinds, the gravest first. */
export const dangerKinds = Object.keys(dangers) as readonly DangerKind[];

/** A part of a danger as a sentence behind others, under its label; "" where there is nothing to say. */
export const labelled = (label: string, text: string): string =>
	text === "" ? "" : ` ${label}: ${text}.`;
