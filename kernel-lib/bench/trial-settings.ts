import {
	listOption,
	numberOption,
	type OptionRule,
	objectOption,
	textOption,
	wordOption,
} from "../quantity";

/** A molar absorptivity from a table or a certificate: a line for absorbances where the sheet has no standards. */
export interface Absorptivity {
	/** Name of the line that it makes; "molar absorptivity" unless told otherwise. */
	readonly name?: string;
	/** Decadic, L/(mol cm), at the wavelength that was read. */
	readonly molarAbsorptivity: number;
	/** Its standard uncertainty, same unit. A value from a table rarely holds to better than 5 % on another instrument. */
	readonly standardUncertainty: number;
	/** Light path, cm; 1 unless told otherwise. */
	readonly pathLength?: number;
	/** Standard deviation of one reading of the absorbance; 0.005 unless told otherwise (our assumption). */
	readonly readingDeviation?: number;
	/** Up to what absorbance the law of Beer and Lambert is taken to hold; 1 unless told otherwise (common practice, no source). */
	readonly highestAbsorbance?: number;
	/** Where the value comes from. */
	readonly source: string;
}

/** How the sheet is to be read: what it leaves open, and what the person decides. */
export interface TrialSettings {
	/** The probe of the trial, where the sheet has flasks with several; "" for the only one. */
	readonly probe: string;
	/** "check" tells of a drift of the instrument; "correct" multiplies the readings by the drift factors between the standards that were read again. */
	readonly drift: "check" | "correct";
	/** The standard whose definition a detection limit follows. */
	readonly limitDefinition: "DIN 32645" | "ISO 11843";
	/** Chance of calling a blank a find, and of missing what stands at the detection limit. */
	readonly errorProbability: number;
	/** At the limit of quantification the half-width of the 95 % interval is one part in so many of the value. */
	readonly quantificationFactor: number;
	/** Wavelengths (nm) of first and second absorbance, for lines that the calibration table gives none for; zeros: not given. */
	readonly wavelengths: { readonly first: number; readonly second: number };
	/** Lines from molar absorptivities, beside those of the calibration table. */
	readonly absorptivities: readonly Absorptivity[];
}

export type TrialOptions = Partial<TrialSettings>;

const usual: TrialSettings = {
	probe: "",
	drift: "check",
	limitDefinition: "DIN 32645",
	errorProbability: 0.05,
	quantificationFactor: 3,
	wavelengths: { first: 0, second: 0 },
	absorptivities: [],
};

export const trialOptions: Readonly<Record<keyof TrialSettings, OptionRule>> = {
	probe: textOption,
	drift: wordOption("check", "correct"),
	limitDefinition: wordOption("DIN 32645", "ISO 11843"),
	errorProbability: numberOption(0, 0.5),
	quantificationFactor: numberOption(1, Number.POSITIVE_INFINITY),
	wavelengths: objectOption("{ first: 664, second: 800 }, in nm"),
	absorptivities: listOption(
		objectOption(
			'{ molarAbsorptivity: 74000, standardUncertainty: 3700, source: "..." }',
		),
	),
};

export function settingsOf(options: TrialOptions): TrialSettings {
	return { ...usual, ...options };
}
