/** Steps, things and feedstocks that can hurt someone and are no substances of the list, by the words of a sheet. Common practice; local codes come first. */
export interface Step {
	readonly what: string;
	readonly signal: "danger" | "warning";
	/** In small letters, matched as whole words. */
	readonly words: readonly string[];
	/** Whether free texts (notes, samples) count, too. */
	readonly inNotes: boolean;
	readonly caution: string;
}

/** Words that say that something was heated with char. */
export const heated: readonly string[] = [
	"kiln",
	"firing",
	"fired",
	"retort",
	"furnace",
	"charring",
	"calcined",
];

const treated =
	"Feedstock that holds chlorine, paint, glue, preservative or rubber gives off hydrogen chloride, dioxins, arsenic or other poisons when it is charred, and leaves them in the char: do not char it.";

/** The gravest first. */
export const steps: readonly Step[] = [
	{
		what: "treated feedstock",
		signal: "danger",
		words: [
			"pvc",
			"tyre",
			"tyres",
			"tire",
			"tires",
			"treated wood",
			"pressure-treated",
			"pressure treated",
			"painted",
			"varnished",
			"chipboard",
			"particle board",
			"plywood",
			"osb",
			"mdf",
			"cca",
			"creosoted",
			"electronic waste",
			"railway sleeper",
			"railway sleepers",
		],
		inNotes: true,
		caution: treated,
	},
	{
		what: "feedstock that may be treated",
		signal: "danger",
		// Everyday words: in a note they speak of bags, stoppers and gloves.
		words: [
			"vinyl",
			"plastics?",
			"chlorinated",
			"rubber(?! seed| wood| tree)",
			"laminated?",
			"foam",
			"textiles?",
			"preservative",
			"batteries",
		],
		inNotes: false,
		caution: treated,
	},
	{
		what: "hot char",
		signal: "danger",
		words: heated,
		inNotes: false,
		caution:
			"Char that looks cold can glow inside and catch fire again hours later: cool it closed, without air, in a metal bin; open the kiln only when its wall has been hand-warm for hours, spread the char outdoors on metal or stone, with something to put out a fire at hand (dry sand where alkali went into the kiln, else water). Never store or pack it on the day of the firing.",
	},
	{
		what: "hot crucibles",
		signal: "danger",
		words: ["total ash", "volatile matter", "muffle furnace", "crucible"],
		inNotes: false,
		caution:
			"A crucible from the furnace burns through gloves and bench and looks cold: tongs, face shield, heat-proof mat, no one behind you. Volatile matter burns off as gas: furnace under a working hood, lid on, never an open crucible of char at red heat near anything that burns.",
	},
	{
		what: "drying oven",
		signal: "danger",
		words: ["drying oven"],
		inNotes: false,
		caution:
			"Dry char in an oven can catch fire: not above 150 °C, not with solvents in it, not unattended at first, and away from air draughts while it cools.",
	},
	{
		what: "hot extracts",
		signal: "warning",
		words: ["water-soluble content", "ph"],
		inNotes: false,
		caution:
			"Boiling char froths over and spits, and extracts of treated char may be strongly alkaline or acid: large vessel, goggles, no open flame beside dust.",
	},
	{
		what: "char dust",
		signal: "warning",
		words: ["char", "charcoal", "biochar"],
		inNotes: false,
		caution:
			"Char dust irritates the lungs and can burn: wet it or wear a dust mask, no open flame nearby.",
	},
];
