import { type Table, table } from "../quantity";

/** What is known of a method: the standard that it follows, its formula, and what its readings stand for. */
export interface Standard {
	/** Number of the standard; "" for common practice without one. */
	readonly designation: string;
	readonly formula: string;
	/** What the figure is per gram of, or per what else. */
	readonly basis: string;
	/** How the readings come about, in a sentence. */
	readonly procedure: string;
}

const wet = "the char as weighed (wet basis)";
const dry = "the dry char";

/**
 * The properties, in the order in which they are worked out. Formulas and procedures are from memory; the current clauses of the standards were not at hand, and their texts come
 * first.
 */
export const standards = {
	moisture: {
		designation: "ASTM D2867 (oven)",
		formula: "W = (C - D)/(C - B), dish B, with sample C, dried D",
		basis: wet,
		procedure:
			"Dried in an oven to constant mass. Everything that leaves is counted as water: a char that holds vinegar, alcohol or tar needs another way.",
	},
	"total ash": {
		designation: "ASTM D2866",
		formula: "A = (D - B)/(C - B), crucible B, with dried sample C, ashed D",
		basis: dry,
		procedure:
			"Burnt in an open crucible at about 650 °C to constant mass. Salt that a soak left in the char is counted with the ash, as far as it does not evaporate.",
	},
	"volatile matter": {
		designation: "ASTM D5832",
		formula: "VM = ((C - D)/(C - B) - W)/(1 - W)",
		basis: dry,
		procedure:
			"Heated for 7 min at about 950 °C in a covered crucible; what leaves beyond the moisture is volatile matter.",
	},
	"fixed carbon": {
		designation: "",
		formula: "FC = 1 - A - VM",
		basis: dry,
		procedure:
			"By difference: what is neither ash nor volatile matter. All errors of the two gather in it; it is no analysis of carbon.",
	},
	"apparent density": {
		designation: "ASTM D2854",
		formula: "ρ = m (1 - W)/V",
		basis: "volume of the packed bed, voids between the grains included",
		procedure:
			"A graduated cylinder filled slowly and evenly from a vibrating feeder. Not the density of the grains.",
	},
	"water-soluble content": {
		designation: "",
		formula: "S = m_residue (V_extract/V_aliquot)/(m (1 - W))",
		basis: dry,
		procedure:
			"Extracted with boiling water, filtered; an aliquot evaporated and its residue weighed (common practice).",
	},
	"ball-pan hardness": {
		designation: "ASTM D3802",
		formula: "H = m_retained/m",
		basis: "the sieved char that was put into the pan",
		procedure:
			"Shaken with steel balls in a pan, then sieved on the hardness test sieve. A hardness number, not abrasion in use: it compares lots of one kind of char.",
	},
	pH: {
		designation: "ASTM D3838",
		formula: "pH of the extract, as read; the mean is the mean of the readings",
		basis: "the extract of 10 g of dry char with 100 mL of water",
		procedure:
			"Boiled gently in water, filtered, read. It depends on how much water there was and on how warm it was read.",
	},
	"effective size": {
		designation: "ASTM D2862",
		formula:
			"d10: ln d straight between two sieves in the part by mass that passes",
		basis: "mass",
		procedure:
			"A tenth of the mass is finer. The standard reads it off a graph; the straight line in ln d is a choice of this library.",
	},
	"uniformity coefficient": {
		designation: "ASTM D2862",
		formula: "UC = d60/d10",
		basis: "mass",
		procedure: "1 would be grains of one size.",
	},
	"mean particle diameter": {
		designation: "ASTM D2862",
		formula: "Σ f d, d midway between two sieves, half the finest for the pan",
		basis: "mass",
		procedure:
			"The standard has a list of its own for the openings between two sieves; theirs may be given instead of the middle.",
	},
	"floated share": {
		designation: "",
		formula: "F = m_floated/(m_floated + m_sunk)",
		basis: dry,
		procedure:
			"Stirred into a liquid of known density, left to part, both parts rinsed, dried and weighed. A grain that holds air floats more easily: how long it was soaked belongs to the result.",
	},
} as const satisfies Record<string, Standard>;

export type PropertyName = keyof typeof standards;
export const propertyNames = Object.keys(standards) as readonly PropertyName[];

/** Every property with its standard, formula and basis. */
export function standardsTable(): Table {
	return table(
		"What is determined, and how",
		["property", "standard", "formula", "per", "remarks"],
		propertyNames.map((name) => {
			const s: Standard = standards[name];
			return [
				name,
				s.designation === "" ? "common practice" : s.designation,
				s.formula,
				s.basis,
				s.procedure,
			];
		}),
		[
			"Formulas and procedures are from memory: the current texts of the standards come first. Their repeatability limits are not known to this library; give those of your own copy, and replicates are held against them.",
		],
	);
}
