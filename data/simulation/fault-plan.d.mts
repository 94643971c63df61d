/** Types of what fault-designs.json holds, and of what a simulated sheet of one gives back. Units as in ABOUT.md. */
import type { Tail } from "./heavy-tails.mjs";
import type { Row } from "./plan.mjs";

/** A bench whose errors are larger and of another shape than the sheet says. */
export interface FaultBench {
	iodine: number;
	thiosulfate: number;
	/** Relative standard deviation of a solution's strength from what the sheet states, and what it states (%). */
	strengthSpread: number;
	statedUncertainty: number;
	madeUp: number;
	aliquot: number;
	titrations: number;
	displaced: number;
	charMass: number;
	/** Relative: nobody weighs the same mass twice. */
	charMassSpread: number;
	exponent: number;
	/** Shape of everything that differs between soaks, flasks, batches, days and readings; of losses it is `lossTail`. */
	tail: Tail;
	lossTail: Tail;
	/** mg/g at the stated residue. */
	flaskSpread: number;
	batchSpread: number;
	/** Relative. */
	daySpread: number;
	early: number;
	/** Share of the iodine in solution that escapes, and its standard deviation from jar to jar in the same unit. */
	loss: number;
	lossSpread: number;
	/** Of the iodine blanks; the same as of the jars where it is not given. */
	blankLoss?: number;
	reagentBlank: number;
	reagentBlankSpread: number;
	/** Each day. */
	reagentBlanks: number;
	iodineBlanks: number;
	/** Dose of the iodine blanks, mL. */
	blankDose: number;
	/** True moisture (%), how it differs between soaks, what one determination is off by, and for what there is one determination. */
	moisture: number;
	moistureSpread: number;
	moistureError: number;
	moistureFor: "treatment" | "soak" | "nobody";
	/** Each time anew. */
	spreads: {
		dose: number;
		madeUp: number;
		aliquot: number;
		reading: number;
		/** Relative scatter of titres of one flask, beyond the reading. */
		titration: number;
		balance: number;
	};
	/** mL: limits within which a piece is off by one amount, the same in all flasks; `vessel`: each flask has a vessel of its own. Multiplied by `beyond`. */
	tolerances: { dose: number; aliquot: number; vessel: number; burette: number };
	beyond: number;
	step: number;
	drop: number;
	leachate: { charMass: number; volume: number; taken: number; dose: number };
}

export interface FaultTreatment {
	treatment: string;
	/** Begins the names of its flasks. */
	prefix: string;
	/** True difference from the control at the stated residue, mg/g; absent for the control. */
	difference?: number;
	soaks: number;
	/** Of each soak. */
	flasks: number;
	soakSpread: number;
	/** mL, taken in turn over all flasks of the treatment. The same of char masses (g), days and names of soaks. */
	doses: number[];
	charMasses?: number[];
	days: string[];
	soakNames?: string[];
	/** Taken in turn over the soaks. */
	batches: string[];
	/** 1/n of its own. */
	exponent?: number;
	/** Moisture of its own, %. */
	moisture?: number;
	soakedIn: string;
	consumesIodine: "yes" | "no" | "";
	/** mmol of I2 per g that the soak's remains consume; below 0 they free iodine. Relative spread from soak to soak. */
	demand: number;
	demandSpread: number;
	leachates: number;
	/** What truly happens to its flasks that the sheet's numbers do not hold. */
	happens: {
		/** Share that escapes, in place of the bench's. */
		loss?: number;
		/** Share of the dissolved iodine that the titration does not find. */
		unseen?: number;
		/** Share of the equilibrium uptake that was reached. */
		reached?: number;
	};
	/** Cells that stand in each of its rows. */
	writes: Row;
	/** Words that are true or modest enough. */
	right?: string[];
	/** How often, at least, one of the right words is asked for; a share of 1. */
	asked?: number;
}

export interface FaultDesign {
	name: string;
	/** Number of the fault in `faults` of fault-designs.json; 0: none, a trial as it should be. */
	fault: number;
	about: string;
	/** mg/L, stated beforehand, and the control's uptake there, mg/g. */
	residue: number;
	uptake: number;
	/** mg/g */
	margin: number;
	claim: "difference";
	/** Whether the sheet holds enough to know: rates and coverage are asked for. Else "cannot tell" is, or a head that says what it rests on. */
	enough: boolean;
	/** Where it is not enough: parts of words, one of which the head has to hold if it says more than "cannot tell". */
	told: string[];
	/** Shares of the trials in which an interval of 95 % (simultaneous where there are several treatments) must hold the truth. */
	coverage: { least: number; most: number } | null;
	/** Whether Dunnett on soak means and two one-sided tests are the measure of power. */
	benign: boolean;
	/** Another design whose intervals may be at most so much narrower. */
	cliff?: { from: string; widerAtMost: number };
	bench: FaultBench;
	glassware: Row[];
	treatments: FaultTreatment[];
	/** Rows of the deviations table, as typed. */
	deviations: Row[];
	/** A person who leaves out flasks that look empty, and says so. */
	leavesOutDry: boolean;
	/** Factors by which a whole column is typed wrongly. */
	typed: Record<string, number>;
	/** Whether treatments name their control. */
	controlNamed: boolean;
	/** In place of the solutions that the bench states. */
	solutions?: Row[];
}

export interface FaultTruth {
	treatments: { treatment: string; difference: number }[];
	/** Dry char (g); moisture (%); what the char alone took up (mg/g); the residue (mg/L); what chance added to the soak, the batch and the flask (mg/g). */
	flasks: {
		flask: string;
		treatment: string;
		soak: string;
		char: number;
		moisture: number;
		uptake: number;
		residue: number;
		lost: number;
		soakShift: number;
		batchShift: number;
		flaskShift: number;
	}[];
}

export interface FaultRun {
	flasks: Row[];
	solutions: Row[];
	deviations: Row[];
	glassware: Row[];
	truth: FaultTruth;
}
