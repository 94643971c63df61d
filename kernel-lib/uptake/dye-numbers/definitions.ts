/** How far a definition may be relied on: nothing here was checked against the text of a standard. */
export type Provenance = "from memory" | "common practice, no source";

interface Common {
	readonly name: string;
	/** Whose definition it is. */
	readonly standard: string;
	/** What is done and counted, in words. */
	readonly words: string;
	readonly provenance: Provenance;
}

/** A number by titrating with a dye until its colour stays. */
export interface TitrationDefinition extends Common {
	readonly form: "titration to a colour";
	/** Strength of the dye solution, g/L. */
	readonly strength: number;
	/** Char for one test, g. */
	readonly char: number;
	/** Soak or shake for one addition, min. */
	readonly minutes: number;
}

/** A number that is the uptake at a stated residue, read on an isotherm. */
export interface ResidueDefinition extends Common {
	readonly form: "uptake at a residue";
	/** mg/L. */
	readonly residue: number;
}

/** A number that is the dose of char for a stated removal. */
export interface RemovalDefinition extends Common {
	readonly form: "dose for a removal";
	/** mg/L before and after. */
	readonly from: number;
	readonly to: number;
}

/** Methylene-blue numbers by titration to a colour. They differ in when the colour is called gone, so that their values differ. */
export const methyleneBlueTitrations = {
	"GB/T 12496.10": {
		name: "methylene-blue number, filtrate against a colour standard",
		standard: "GB/T 12496.10",
		form: "titration to a colour",
		strength: 1.5,
		char: 0.1,
		minutes: 10,
		words:
			"0.100 g of dry, finely ground char is shaken for 10 min with methylene blue of 1.5 g/L in phosphate buffer and filtered; the number is the volume whose filtrate is as blue as a solution of 4 g/L copper sulfate pentahydrate, in mL for 0.1 g, or 15 times that in mg/g",
		provenance: "from memory",
	},
	CEFIC: {
		name: "methylene-blue value, decolourised within five minutes",
		standard: "CEFIC test methods for activated carbons",
		form: "titration to a colour",
		strength: 1.5,
		char: 0.1,
		minutes: 5,
		words:
			"methylene blue of 1.5 g/L (0.15 %) is added in portions to 0.1 g of dry, ground char; the value is the volume, in mL, that is still decolourised within 5 min",
		provenance: "from memory",
	},
} as const satisfies Record<string, TitrationDefinition>;

/** Uptakes at a residue that a definition fixes. */
export const uptakesAtResidue = {
	"methylene blue, JIS K 1474": {
		name: "methylene-blue adsorption performance",
		standard: "JIS K 1474",
		form: "uptake at a residue",
		residue: 0.24,
		words:
			"uptake at a residue of 0.24 mg/L, on the log-log line of several doses in phosphate buffer",
		provenance: "from memory",
	},
	"phenol, at 1 mg/L": {
		name: "phenol loading at 1 mg/L",
		standard: "German waterworks practice (DIN 19603)",
		form: "uptake at a residue",
		residue: 1,
		words:
			"uptake at a residue of 1 mg/L of phenol, on the log-log line of several doses",
		provenance: "from memory",
	},
} as const satisfies Record<string, ResidueDefinition>;

/** Doses of char that bring a substance from one concentration to another. The concentrations are what the definitions differ in; see that yours is the one that was agreed. */
export const dosesForRemoval = {
	"phenol value, JWWA K 113": {
		name: "phenol value",
		standard: "JWWA K 113",
		form: "dose for a removal",
		from: 0.1,
		to: 0.01,
		words: "mg/L of char that bring phenol from 0.1 to 0.01 mg/L",
		provenance: "from memory",
	},
	"phenol value, AWWA B600": {
		name: "phenol value",
		standard: "AWWA B600, older editions",
		form: "dose for a removal",
		from: 200,
		to: 20,
		words: "mg/L of char that bring phenol from 200 to 20 mg/L",
		provenance: "from memory",
	},
	"tannin value, AWWA B600": {
		name: "tannin value",
		standard: "AWWA B600",
		form: "dose for a removal",
		from: 20,
		to: 2,
		words: "mg/L of char that bring tannic acid from 20 to 2 mg/L",
		provenance: "from memory",
	},
} as const satisfies Record<string, RemovalDefinition>;

/** Two ways of telling what a char does to the colour of a caramel (or molasses) solution, whose amount of colour has no unit of its own. */
export const caramelDefinitions = {
	"share of the colour removed": {
		name: "caramel decolourising, share of the colour removed",
		words:
			"100 (A0 - A)/A0 at one wavelength (often 420 to 430 nm), one dose of char and one time, which must be named with it",
		provenance: "common practice, no source",
	},
	"against a reference char": {
		name: "caramel decolourising, against a reference char",
		words:
			"100 times the dose of the reference char over the dose of the sample that leave the same colour, each read on the log-log line of its own doses",
		provenance: "common practice, no source",
	},
} as const satisfies Record<
	string,
	{
		readonly name: string;
		readonly words: string;
		readonly provenance: Provenance;
	}
>;
