import {
	listOption,
	numberFromOption,
	numberOption,
	type OptionRule,
	objectOption,
	optionProblems,
	type Problem,
	problem,
	textOption,
	wordOption,
} from "../quantity";
import { halfDrop } from "./glassware/end-point";

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

/**
 * How a loss that blanks without char show is shared out: in proportion to the mean of what was dosed and what is left, with the spread between the two extremes as an error of all flasks; wholly from the one or
 * from the other; or not at all, because what the blank held is taken for the dose.
 */
export type LossRule =
	| "between the extremes"
	| "from the dose"
	| "from what is left"
	| "the blank is the dose";

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
	/** How losses are shared out, where blanks without char show them. */
	readonly losses: LossRule;
	/** Liquid that a gram of char displaces where a volume was made up with the char in it, mL/g; known to a fifth of itself. */
	readonly displacement: number;
	/** Error of stopping at the drop that turned the colour, mL, as standard uncertainty of every titre. */
	readonly endPoint: number;
}

export type TrialOptions = Partial<TrialSettings>;

/** What is taken unless told otherwise. */
export const usualSettings: TrialSettings = {
	probe: "",
	drift: "check",
	limitDefinition: "DIN 32645",
	errorProbability: 0.05,
	quantificationFactor: 3,
	wavelengths: { first: 0, second: 0 },
	absorptivities: [],
	losses: "between the extremes",
	// Common practice, no source.
	displacement: 0.5,
	endPoint: halfDrop,
};

const aboveZero = numberOption(0, Number.POSITIVE_INFINITY);
const notNegative = numberFromOption(0);

const trialOptions: Readonly<Record<keyof TrialSettings, OptionRule>> = {
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
	losses: wordOption(
		"between the extremes",
		"from the dose",
		"from what is left",
		"the blank is the dose",
	),
	displacement: numberFromOption(0, 2),
	endPoint: numberFromOption(0, 1),
};

const wavelengthRules = { first: notNegative, second: notNegative };

const absorptivityRules: Readonly<Record<keyof Absorptivity, OptionRule>> = {
	name: textOption,
	molarAbsorptivity: aboveZero,
	standardUncertainty: notNegative,
	pathLength: aboveZero,
	readingDeviation: notNegative,
	highestAbsorbance: aboveZero,
	source: textOption,
};

/** What an option that is an object itself lacks. */
function lacking(
	given: object,
	needed: readonly string[],
	of: string,
): Problem[] {
	return needed
		.filter((name) => (given as Record<string, unknown>)[name] === undefined)
		.map((name) =>
			problem(
				"option-missing",
				{ call: "readTrial" },
				`no "${name}" in the option "${of}"`,
				needed.map((n) => `"${n}"`).join(", "),
				"Add it.",
			),
		);
}

/** What is wrong with the options that a sheet is to be read with. */
export function settingProblems(options: TrialOptions, of: string): Problem[] {
	const own = optionProblems(options, trialOptions, of);
	if (own.length > 0) return own;
	const { wavelengths, absorptivities = [] } = options;
	return [
		...(wavelengths === undefined
			? []
			: [
					...optionProblems(wavelengths, wavelengthRules, "wavelengths"),
					...lacking(wavelengths, ["first", "second"], "wavelengths"),
				]),
		...absorptivities.flatMap((a) => [
			...optionProblems(a, absorptivityRules, "absorptivities"),
			...lacking(
				a,
				["molarAbsorptivity", "standardUncertainty", "source"],
				"absorptivities",
			),
		]),
	];
}

/** The settings of a trial; an option that is undefined counts as not given. */
export function settingsOf(options: TrialOptions): TrialSettings {
	const given = Object.fromEntries(
		Object.entries(options).filter(([, value]) => value !== undefined),
	);
	return { ...usualSettings, ...given };
}
