import { type Table, table } from "../quantity";

const practice = "common practice, no source";

/** How each figure of a firing is defined. */
const definitions: readonly (readonly [string, string, string])[] = [
	[
		"char yield",
		"dry mass of the product / dry mass of the precursor",
		practice,
	],
	[
		"carbonisation yield",
		"mass after charring / dry mass of the precursor",
		practice,
	],
	[
		"activation yield",
		"dry mass of the product / mass of char before activation; char yield = carbonisation yield × activation yield",
		practice,
	],
	[
		"burn-off",
		"mass of char lost on activation / mass of char before activation = 1 − activation yield",
		practice,
	],
	[
		"fixed carbon",
		"1 − ash − volatile matter, of the dry product",
		"by difference, as in proximate analysis (ASTM D3172, from memory)",
	],
	[
		"fixed-carbon yield",
		"char yield × fixed carbon / (1 − ash of the dry precursor)",
		"literature on charcoal making (Antal and Grønli 2003, from memory)",
	],
	[
		"impregnation ratio",
		"mass of pure agent measured out / dry mass of the precursor",
		practice,
	],
	[
		"impregnation ratio kept",
		"the same after the agent in the liquor poured off is taken away",
		practice,
	],
	[
		"agent per dry precursor",
		"moles of agent / dry mass of the precursor",
		practice,
	],
	[
		"agent per carbon",
		"moles of agent / moles of carbon in the dry precursor",
		practice,
	],
	[
		"agent recovered",
		"agent in the liquor poured off and in the rinses / agent measured out; by conductivity in proportion to a reference solution",
		practice,
	],
];

/** The definitions that yields, burn-off and ratios follow, each with its source. */
export function definitionTable(): Table {
	return table(
		"Definitions (all masses dry)",
		["figure", "definition", "source"],
		definitions,
	);
}
