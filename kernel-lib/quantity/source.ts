/**
 * Where a number came from, when it was not computed. `cell` is a cell of a bench sheet (the hash is of the file's content, so that reading the same
 * sheet twice gives the same input, not two independent ones); `stated` is a constant, a certificate, a tolerance or an assumption, with its source in words.
 */
export type Source =
	| {
			readonly is: "cell";
			readonly file: string;
			readonly hash: string;
			readonly sheet: string;
			readonly row: number;
			readonly column: string;
			/** Digits after the decimal mark as they were typed; not there for what the file holds as a number. */
			readonly decimals?: number;
	  }
	| { readonly is: "stated"; readonly source: string };

/** The shape assumed for an input's error; matters for Monte Carlo only, first order uses the standard uncertainty alone. */
export type Distribution =
	| "exact"
	| "normal"
	| "rectangular"
	| "triangular"
	| "student";

/**
 * Whether the error of an input belongs to one reading (independent from flask to flask, already inside the scatter of replicates), to one of several things that were made alike and differ ("replicate": what a jar loses, the
 * moisture of one portion: where there are replicates, their scatter shows it and takes its place), or to something that several results lean on (a titrant, a burette's calibration, a blank).
 */
export type Scope = "reading" | "replicate" | "shared";

/** A number that was not computed: a reading, a constant, a certificate, a tolerance. */
export interface Input {
	/** Two inputs with one key are one and the same error, in this session. */
	readonly key: string;
	readonly source: Source;
	readonly distribution: Distribution;
	readonly scope: Scope;
	/** In base units of the kind. */
	readonly uncertainty: number;
	/** Infinity where the uncertainty itself is taken as known. */
	readonly degreesOfFreedom: number;
}
