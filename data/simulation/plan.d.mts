/** Types of what designs.json and ../demo-run/scenario.json hold, and of what a simulated trial gives back. Units are in ABOUT.md. */

/** A row of a bench sheet: column name to cell. */
export type Row = Record<string, string | number>;

/** The day a jar was dosed on; or the day and what was different about the jar. */
export type PlannedJar =
	| string
	| { day: string; doses?: number[]; leak?: number };

export interface PlannedTreatment {
	treatment: string;
	/** Begins the names of its flasks. */
	prefix: string;
	/** "" for a control. */
	control: string;
	soakedIn: string;
	consumesIodine: "yes" | "no" | "not known";
	finalPH: number;
	uptake: number;
	soakSpread: number;
	demand: number;
	demandSpread: number;
	leachate: boolean;
	/** One list of jars for each soak. */
	lots: PlannedJar[][];
}

export interface Bench {
	iodine: number;
	thiosulfate: number;
	strengthSpread: number;
	standardised: boolean;
	statedUncertainty: number;
	dose: number;
	madeUp: number;
	aliquot: number;
	titrations: number;
	/** Drawn off a jar that looks colourless before it is dosed again. */
	drawnToCheck: number;
	displaced: number;
	charMass: number;
	charMassSpread: number;
	moisture: number;
	exponent: number;
	referenceResidue: number;
	flaskSpread: number;
	early: number;
	lossSpread: number;
	reagentBlank: number;
	days: Record<
		string,
		{
			loss: number;
			factor: number;
			reagentBlanks: number;
			iodineBlanks: number;
		}
	>;
	spreads: {
		doseCalibration: number;
		dose: number;
		madeUp: number;
		aliquotCalibration: number;
		aliquot: number;
		burette: number;
		reading: number;
		balance: number;
		moisture: number;
	};
	step: number;
	drop: number;
	leachate: { charMass: number; volume: number; taken: number; dose: number };
}

export interface Plan {
	bench: Bench;
	treatments: PlannedTreatment[];
}

export interface TreatmentTruth {
	treatment: string;
	control: string;
	/** Uptake of a faultless jar of the control's dose, mg/g, and the residue that it stands at, mg/L. */
	uptake: number;
	residue: number;
	/** Treated minus control, mg/g; absent for a control. */
	differenceAtSameResidue?: number;
	differenceAsDosed?: number;
	/** Of the soaks that chance made, at the same residue. */
	differenceOfTheseLots?: number;
}

export interface Truth {
	/** mol/L; iodine counted as I2. */
	iodine: number;
	thiosulfate: number;
	treatments: TreatmentTruth[];
	/** At the reference residue; demand in mg of iodine per g. */
	lots: { treatment: string; soak: string; uptake: number; demand: number }[];
	/** Dry char (g), what the char alone took up (mg/g), the residue (mg/L), what the soak's residue consumed (mg/g) and what escaped (mg). */
	flasks: {
		flask: string;
		char: number;
		uptake: number;
		residue: number;
		demand: number;
		lost: number;
	}[];
}

export interface DesignedTreatment extends PlannedTreatment {
	/** Words that are true of the treatment, or modest enough; absent for the control. */
	right?: string[];
	/** How often, at least, one of the right words is asked for; absent in a poor design. */
	asked?: number;
	because?: string;
}

export interface Design extends Plan {
	name: string;
	title: string;
	good: boolean;
	/** Smallest difference that matters, mg/g. */
	margin: number;
	scope: "treatment" | "these lots";
	glassware: Row[];
	treatments: DesignedTreatment[];
}

export interface SimulatedRun {
	flasks: Row[];
	solutions: Row[];
	deviations: Row[];
	glassware: Row[];
	truth: Truth;
}
