import type { MaybeKnown, ProblemPlace, Quantity, Table } from "../quantity";
import type { Firing } from "./firing";
import type {
	CalibrationStandard,
	InstrumentReadings,
} from "./instrument-readings";
import type { Deviation, Mark } from "./mark";
import type { CharMoisture, Recorded } from "./recorded";
import type { Soaking } from "./soaking";
import type { TrialSettings } from "./trial-settings";

export type { CharMoisture, Moisture, Recorded } from "./recorded";

/** What a flask is there for. */
export type FlaskContents =
	| "char"
	| "reagent blank"
	| "iodine blank"
	| "leachate";

export type YesNo = "yes" | "no" | "not recorded";

/**
 * One titration as it was written down. The readings (and a titre written as such) carry reading errors only. The delivered volume is
 * end - start (with a refill: from - start + end - to) PLUS `calibration`, added once: the burette's calibration error, value 0, already counted for every filling, shared by
 * all titrations with that burette, nothing for nothing delivered.
 */
export type TitrationReading =
	| {
			readonly is: "burette";
			/** Number in the sheet: 2 for `titre 2`. */
			readonly number: number;
			readonly start: Quantity<"volume">;
			readonly end: Quantity<"volume">;
			/** Each refill: the reading at which the burette was refilled and the reading afterwards. */
			readonly refills: readonly {
				readonly from: Quantity<"volume">;
				readonly to: Quantity<"volume">;
			}[];
			readonly calibration: Quantity<"volume">;
			readonly titrant: string;
			readonly marks: readonly Mark[];
			readonly place: ProblemPlace;
	  }
	| {
			readonly is: "titre";
			readonly number: number;
			readonly titre: Quantity<"volume">;
			readonly calibration: Quantity<"volume">;
			readonly titrant: string;
			readonly marks: readonly Mark[];
			readonly place: ProblemPlace;
	  };

/** What happened to the liquid in a flask, in the order of the sheet's columns from left to right. */
export type FlaskEvent =
	| {
			readonly is: "dose";
			readonly volume: Quantity<"volume">;
			/** Name of the solution, as in the solutions table. */
			readonly solution: string;
	  }
	| { readonly is: "liquid added"; readonly volume: Quantity<"volume"> }
	| {
			readonly is: "made up";
			readonly volume: Quantity<"volume">;
			/** True: made up with the char in the flask; false: the filtrate was made up. */
			readonly charIn: boolean;
	  }
	| {
			readonly is: "withdrawn";
			readonly volume: Quantity<"volume">;
			/** The titration that says how much probe went out with it; "colourless" where the sheet says that none was left (a titre of 0). */
			readonly titration: TitrationReading;
			readonly aliquot: Quantity<"volume">;
			/** From dosing to the withdrawal. */
			readonly after: Recorded<Quantity<"time">>;
	  }
	| {
			/** Withdrawn from a flask that is read by an instrument. */
			readonly is: "withdrawn and read";
			readonly volume: Quantity<"volume">;
			readonly readings: InstrumentReadings;
			/** From dosing to the withdrawal. */
			readonly after: Recorded<Quantity<"time">>;
	  };

/** One row of the bench sheet. */
export interface Flask {
	readonly name: string;
	readonly contents: FlaskContents;
	/** "" where the sheet does not say; likewise the other texts below. */
	readonly treatment: string;
	/** The treatment that this one is compared with; "" for a control itself or for a blank. */
	readonly control: string;
	readonly sample: string;
	readonly charBatch: string;
	/** What was treated as one: a soak or a firing. */
	readonly soak: string;
	/** What it was soaked in, in words ("potash, 10 % w/w"). */
	readonly soakedIn: string;
	readonly soakConsumesIodine: YesNo;
	/** Strength, rinses and what was read of the last one. */
	readonly soaking: Soaking;
	readonly replicate: string;
	readonly day: string;
	readonly charMass: Recorded<Quantity<"mass">>;
	readonly massBasis: "as weighed" | "dry";
	readonly moisture: Recorded<CharMoisture>;
	readonly events: readonly FlaskEvent[];
	/** For a reagent blank, or a flask read by an instrument, of which the sheet names none: 0 mL, exact, never used. */
	readonly aliquot: Quantity<"volume">;
	/** At least one, unless the flask was read by an instrument. */
	readonly titrations: readonly TitrationReading[];
	/** What an instrument showed of its filtrate: colour, conductivity, a dry residue. Such a flask has no titrations. */
	readonly readings: Recorded<InstrumentReadings>;
	/** Liquor that the char (or, for a leachate row, the leached char) held when it was put in. */
	readonly liquorRetained: Recorded<Quantity<"volume">>;
	/** Leachate rows: the whole volume of leachate made from `charMass`, and the part of it that was dosed. */
	readonly leachateVolume: Recorded<Quantity<"volume">>;
	readonly leachateTaken: Recorded<Quantity<"volume">>;
	readonly acidified: YesNo;
	readonly firstRunningsDiscarded: YesNo;
	readonly blueReturned: YesNo;
	/** Boiled in acid before dosing, as for the iodine number. */
	readonly acidBoiled: YesNo;
	/** Ground so that 95 % passes 45 µm, as for the iodine number. */
	readonly groundFine: YesNo;
	readonly lid: YesNo;
	readonly finalPH: Recorded<Quantity<"pH">>;
	readonly dosedAt: Recorded<Date>;
	readonly titratedAt: Recorded<Date>;
	/** titratedAt minus dosedAt, where both are there. */
	readonly contactTime: Recorded<Quantity<"time">>;
	readonly particleSize: string;
	/** File names as written, seen from the sheet's folder. */
	readonly photographs: readonly string[];
	readonly photographShows: string;
	readonly notes: string;
	/** Columns that the library does not know, carried along as written. */
	readonly extra: Readonly<Record<string, string>>;
	/** What went wrong with this flask. */
	readonly marks: readonly Mark[];
	readonly place: ProblemPlace;
}

/** How a solution came to its concentration. */
export type SolutionBasis =
	| {
			readonly is: "stated";
			readonly concentration: StatedConcentration;
	  }
	| {
			/** Weighed and made up to volume. */
			readonly is: "weighed";
			readonly mass: Quantity<"mass">;
			readonly purity: Quantity<"ratio">;
			readonly volume: Quantity<"volume">;
	  }
	| {
			/**
			 * Titrated against another solution of the table. The burette holds thiosulfate in iodometry: for a thiosulfate row the aliquot is of the standard,
			 * for an iodine row the aliquot is of the iodine itself.
			 */
			readonly is: "standardised";
			readonly against: string;
			readonly aliquot: Quantity<"volume">;
			readonly titrations: readonly TitrationReading[];
			readonly blankTitre: Recorded<Quantity<"volume">>;
			/** The nominal concentration, where given: the concentration found is held against it, and nothing is computed with it. */
			readonly nominal: Recorded<StatedConcentration>;
	  };

/** A concentration as written, with what it counts already settled. */
export type StatedConcentration =
	| {
			readonly as: "concentration";
			readonly quantity: Quantity<"concentration">;
	  }
	| { readonly as: "normality"; readonly quantity: Quantity<"normality"> }
	| {
			readonly as: "mass concentration";
			readonly quantity: Quantity<"massConcentration">;
	  }
	| {
			readonly as: "mass fraction";
			readonly quantity: Quantity<"ratio">;
			readonly density: Quantity<"density">;
	  };

export interface Solution {
	readonly name: string;
	/** "iodine", "sodium thiosulfate" (weighed out: with "pentahydrate" or "anhydrous" behind it), "potassium iodate", "potassium dichromate", or as written. */
	readonly substance: string;
	readonly basis: SolutionBasis;
	readonly standardisedOn: Recorded<Date>;
	readonly notes: string;
	readonly marks: readonly Mark[];
	readonly extra: Readonly<Record<string, string>>;
	readonly place: ProblemPlace;
}

/** A piece of glassware or a balance, and what it was used for. */
export interface Instrument {
	readonly name: string;
	readonly usedFor: string;
	readonly description: string;
	/** Where its tolerance comes from: "stated in the sheet", or the standard that it was taken from. */
	readonly toleranceSource: string;
	/** False for a piece that was assumed, since the sheet names none. */
	readonly named: boolean;
	readonly place: ProblemPlace;
}

/** Something the sheet does not say, and what that limits. */
export interface NotRecorded {
	readonly what: string;
	readonly limits: string;
	/** Flasks concerned; empty for the whole trial. */
	readonly flasks: readonly string[];
}

/** What was dosed and is looked for in solution. */
export interface Probe {
	/** "iodine", "methylene blue"; "" for a sheet without a single dose. */
	readonly name: string;
	/** What a mole of it counts: "I2"; "" for a substance that is neither on the list nor written as a formula. */
	readonly formula: string;
	readonly molarMass: MaybeKnown<Quantity<"molarMass">>;
}

/** A file as it was read. */
export interface Source {
	/** Name without folders. */
	readonly file: string;
	readonly hash: string;
	readonly content: Uint8Array;
}

/**
 * The whole sheet: everything that was written down, read once and never changed. What follows from it (concentrations, residues, uptakes, verdict) are functions of the trial alone.
 */
export interface Trial {
	/** File name without folders; "typed in" for rows typed into a cell. */
	readonly file: string;
	/** Hash of that file's content. */
	readonly hash: string;
	/** The folder that the sheet lies in, as its path was given; "" for rows typed into a cell. */
	readonly folder: string;
	/** Every file that was read, the one above first; empty for rows typed into a cell. */
	readonly sources: readonly Source[];
	/** Name and hash of every table that was read, files or rows typed in. */
	readonly files: readonly { readonly file: string; readonly hash: string }[];
	readonly settings: TrialSettings;
	readonly probe: Probe;
	readonly flasks: readonly Flask[];
	readonly solutions: readonly Solution[];
	/** Names of all flasks of the sheet from top to bottom, those too that play no part: the drift of an instrument runs along them. Empty where the sheet holds nothing but firings. */
	readonly sheetOrder: readonly string[];
	/** Flasks of the sheet that play no part, and why, as full sentences: those dosed with another probe, those not selected. */
	readonly setAside: readonly string[];
	/** What went wrong on the bench, as written; what it touches carries a mark. */
	readonly deviations: readonly Deviation[];
	/** Rows of the activation table; empty where the sheet has none. */
	readonly firings: readonly Firing[];
	/** Readings of standards; empty where the sheet has no calibration table. */
	readonly standards: readonly CalibrationStandard[];
	readonly instruments: readonly Instrument[];
	readonly notRecorded: readonly NotRecorded[];
	/** The control that was found by its name, where no row names one; "" where rows do. */
	readonly controlByName: string;
	/** Defaults that were used where the sheet is silent, in words. */
	readonly assumptions: readonly string[];
	/** The columns as they were read, with what each was taken for; unknown ones are "carried along". */
	readonly columns: readonly {
		readonly sheet: string;
		readonly header: string;
		readonly takenFor: string;
	}[];
	/** What was read, what was assumed, what is not recorded and what was carried along: the first thing to look at, and what a trial is shown as. */
	readonly table: Table;
}
