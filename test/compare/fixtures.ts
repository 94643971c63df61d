import {
	type Deviation,
	type Flask,
	nothingOfASoak,
	readTrial,
	type Trial,
} from "../../kernel-lib/bench";
import {
	type CompareOptions,
	type Comparison,
	compareCarried,
	compareOnIsotherms,
	type Portions,
	residueOf,
	type TreatmentVerdict,
} from "../../kernel-lib/compare";
import {
	exact,
	input,
	known,
	normal,
	notKnown,
	nowhere,
	plus,
	type Quantity,
	scaled,
	stated,
} from "../../kernel-lib/quantity";
import type { FlaskUptake, IodineDemand } from "../../kernel-lib/uptake";
import {
	comparableDose,
	methodSentences,
	replicatesReason,
	verdictReasons,
	verdictSentence,
} from "../../kernel-lib/words";

type Unlimited = Omit<Extract<IodineDemand, { is: "suspected" }>, "ceiling">;

/** What a test says of a flask; everything else is made up to be harmless. */
export interface FlaskFixture {
	readonly flask: string;
	readonly treatment: string;
	/** "" for a control. */
	readonly control?: string;
	readonly soak?: string;
	readonly day?: string;
	readonly batch?: string;
	/** mg/g; the limit where `is` says so. */
	readonly uptake: number;
	readonly is?: "value" | "at least" | "at most";
	/** Standard uncertainty of this flask's own reading, mg/g. */
	readonly reading?: number;
	/** Effect of shared inputs on this flask: one standard uncertainty of the input moves the uptake by so many mg/g. */
	readonly shared?: Readonly<Record<string, number>>;
	/** Residual concentration, mg/L, and its own standard uncertainty. */
	readonly residue?: number;
	readonly residueReading?: number;
	/** mg of the probe on 1 g of char; one dose for all flasks unless told otherwise. */
	readonly dose?: number;
	/** mL */
	readonly liquid?: number;
	readonly perGram?: FlaskUptake["perGram"];
	readonly lossesTakenOff?: boolean;
	/** A suspicion without a ceiling is one that nothing limits. */
	readonly demand?: IodineDemand | Unlimited;
	readonly soakMass?: FlaskUptake["soakMass"];
	readonly ammonia?: FlaskUptake["ammonia"];
	readonly cautions?: readonly string[];
	readonly contradiction?: string;
	readonly nextDose?: string;
}

/** An error that several flasks lean on: mean 0, standard uncertainty 1 mg/g; the same name is the same error. */
export function sharedInput(name: string): Quantity<"uptake"> {
	return input("uptake", 0, "mg/g", normal(1), {
		symbol: name,
		meaning: name,
		source: stated(`fixture: ${name}`),
		scope: "shared",
	});
}

function uptakeQuantity(f: FlaskFixture): Quantity<"uptake"> {
	const own = input(
		"uptake",
		f.uptake,
		"mg/g",
		f.reading === undefined ? exact : normal(f.reading),
		{
			symbol: "q",
			meaning: `uptake of flask ${f.flask}`,
			source: stated(`fixture: flask ${f.flask}`),
			scope: "reading",
		},
	);
	const parts = Object.entries(f.shared ?? {}).map(([name, effect]) =>
		scaled(sharedInput(name), effect),
	);
	return parts.length > 0 ? plus(own, ...parts) : own;
}

function flaskOf(f: FlaskFixture): Flask {
	const aliquot = input("volume", 25, "mL", exact, {});
	return {
		name: f.flask,
		contents: "char",
		treatment: f.treatment,
		control: f.control ?? "",
		sample: "",
		charBatch: f.batch ?? "",
		soak: f.soak ?? "",
		soakedIn: "",
		soaking: nothingOfASoak,
		soakConsumesIodine: "not recorded",
		replicate: "",
		day: f.day ?? "",
		charMass: { recorded: false },
		massBasis: "as weighed",
		moisture: { recorded: false },
		events: [],
		aliquot,
		titrations: [],
		readings: { recorded: false },
		liquorRetained: { recorded: false },
		leachateVolume: { recorded: false },
		leachateTaken: { recorded: false },
		acidified: "not recorded",
		firstRunningsDiscarded: "not recorded",
		blueReturned: "not recorded",
		acidBoiled: "not recorded",
		groundFine: "not recorded",
		lid: "not recorded",
		finalPH: { recorded: false },
		dosedAt: { recorded: false },
		titratedAt: { recorded: false },
		contactTime: { recorded: false },
		particleSize: "",
		photographs: [],
		photographShows: "",
		notes: "",
		extra: {},
		marks: [],
		place: nowhere,
	};
}

function demandOf(given: FlaskFixture["demand"]): IodineDemand {
	if (given === undefined) return { is: "none expected" };
	if (given.is !== "suspected" || "ceiling" in given) return given;
	return {
		...given,
		ceiling: {
			more: notKnown("nothing limits it"),
			less: notKnown("nothing limits it"),
			steps: [],
		},
	};
}

/** A flask's uptake as the chain from readings to uptake would hand it on, with exactly the numbers and errors that a test wants. */
export function flaskUptake(f: FlaskFixture): FlaskUptake {
	const uptake = uptakeQuantity(f);
	const is = f.is ?? "value";
	const residue = input(
		"massConcentration",
		f.residue ?? 300,
		"mg/L",
		f.residueReading === undefined ? exact : normal(f.residueReading),
		{
			symbol: "c",
			source: stated(`fixture: residue of flask ${f.flask}`),
			scope: "reading",
		},
	);
	const mass = (mg: number): Quantity<"mass"> =>
		input("mass", mg, "mg", exact, {});
	return {
		flask: flaskOf(f),
		probe: "iodine",
		balance: {
			// One dose for all, of which half is left.
			added: mass(f.dose ?? 60),
			takenUp: mass(f.uptake),
			left: mass((f.dose ?? 60) / 2),
			withdrawn: mass(0),
			lost: mass(0),
		},
		liquid: input("volume", f.liquid ?? 100, "mL", exact, {}),
		charMass: input("mass", 1, "g", exact, {}),
		perGram: f.perGram ?? "dry char",
		uptake:
			is === "value"
				? { is, quantity: uptake }
				: { is, quantity: uptake, because: "the fixture says so" },
		computedUptake: uptake,
		residue:
			is === "at least"
				? { is: "at most", quantity: residue, because: "the flask ran dry" }
				: { is: "value", quantity: residue },
		atWithdrawals: [],
		demand: demandOf(f.demand),
		soakMass: f.soakMass ?? known({ most: 0, steps: [] }),
		ammonia: f.ammonia ?? "none named",
		takenAs: [],
		lossesTakenOff: f.lossesTakenOff ?? true,
		cautions: f.cautions ?? [],
		contradiction: f.contradiction ?? "",
		likelyCause: "",
		nextDose: f.nextDose ?? "",
	};
}

/** Flasks of one treatment, named T1, T2, ... after it; with a soak for every flask unless told otherwise. */
export function group(
	treatment: string,
	control: string,
	uptakes: readonly number[],
	more: Partial<FlaskFixture> = {},
): FlaskFixture[] {
	return uptakes.map((uptake, i) => ({
		flask: `${treatment}${i + 1}`,
		treatment,
		control,
		soak: `${treatment}-soak${i + 1}`,
		uptake,
		...more,
	}));
}

export function flasks(fixtures: readonly FlaskFixture[]): FlaskUptake[] {
	return fixtures.map(flaskUptake);
}

/** A deviation that names flasks; blanks and the like may be among them. */
export function deviation(
	names: readonly string[],
	whatHappened: string,
	handling: Deviation["handling"] = "leave out",
): Deviation {
	return {
		targets: names.map((name) => ({
			is: "flask",
			name,
			part: { is: "whole" },
		})),
		whatHappened,
		handling,
		place: nowhere,
	};
}

/** Some trial, for what a comparison reads off it beside the flasks: iodine. */
/** A sheet that names glassware and control, as far as a comparison asks for them. */
const anyTrial: Trial = {
	...readTrial("data/demo-run/small-trial.csv"),
	instruments: [],
	controlByName: "",
};

/** Made-up uptakes as the deviations leave them; the trial's own part in this has tests of its own. */
export function portions(
	uptakes: readonly FlaskUptake[],
	deviations: readonly Deviation[] = [],
): Portions {
	const present = new Set(uptakes.map((u) => u.flask.name));
	const named = deviations.flatMap((d) =>
		d.targets.map((t) => ({ name: t.name, d })),
	);
	const touched = new Set(named.map((n) => n.name));
	const out = new Set(
		named.filter((n) => n.d.handling === "leave out").map((n) => n.name),
	);
	const own = named.filter((n) => present.has(n.name));
	return {
		trial: anyTrial,
		main: uptakes.filter((u) => !out.has(u.flask.name)),
		kept: uptakes,
		leftOut: uptakes.filter((u) => !touched.has(u.flask.name)),
		every: uptakes,
		flasks: uptakes.map((u) => u.flask.name).filter((n) => touched.has(n)),
		happened: [...new Set(own.map((n) => n.d.whatHappened))],
		elsewhere: [
			...new Set(
				named.filter((n) => !present.has(n.name)).map((n) => `flask ${n.name}`),
			),
		],
	};
}

type Deviating<T> = T & { readonly deviations?: readonly Deviation[] };

/** A verdict with all that is said of it. */
export interface ToldVerdict extends TreatmentVerdict {
	readonly sentence: string;
	readonly reasons: readonly string[];
	readonly comparableDose: string;
	readonly replicatesBecause: string;
}

export interface ToldComparison extends Comparison {
	readonly verdicts: readonly ToldVerdict[];
	readonly methodSaid: readonly string[];
}

/** A comparison with its sentences beside it. */
export function told(comparison: Comparison): ToldComparison {
	return {
		...comparison,
		verdicts: comparison.verdicts.map((v) => ({
			...v,
			sentence: verdictSentence(comparison, v),
			reasons: verdictReasons(comparison, v),
			comparableDose: comparableDose(v),
			replicatesBecause: replicatesReason(comparison, v),
		})),
		methodSaid: methodSentences(comparison),
	};
}

/** At 300 mg/L, where the flasks of fixtures stand unless told otherwise. */
export function compareTreatments(
	uptakes: readonly FlaskUptake[],
	{ deviations, ...options }: Deviating<CompareOptions>,
): ToldComparison {
	return told(
		compareCarried(portions(uptakes, deviations), {
			residue: residueOf(300),
			...options,
		}),
	);
}

export type AtResidueOptions = Deviating<
	CompareOptions & Required<Pick<CompareOptions, "residue">>
>;

export type AtStatedResidue = ToldComparison &
	Extract<Comparison["at"], { readonly is: "isotherms" }>;

/** With what stands under `at` beside the rest. */
export function compareAtResidue(
	uptakes: readonly FlaskUptake[],
	{ deviations, ...options }: AtResidueOptions,
): AtStatedResidue {
	const comparison = told(
		compareOnIsotherms(portions(uptakes, deviations), options),
	);
	if (comparison.at.is !== "isotherms")
		throw new Error("not compared at a stated residue");
	return { ...comparison, ...comparison.at };
}

export function verdictOf(
	comparison: Comparison,
	treatment: string,
): ToldVerdict {
	const found = told(comparison).verdicts.find(
		(v) => v.treatment === treatment,
	);
	if (!found) throw new Error(`No verdict for "${treatment}".`);
	return found;
}
