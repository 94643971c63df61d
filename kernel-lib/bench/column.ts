import type { Kind } from "../quantity";

/** One column of a bench sheet: what it holds, what it means, when it must be filled. */
export interface Column {
	readonly holds: Holds;
	/** Other heads under which it is accepted. */
	readonly also: readonly string[];
	/** What it means, in words. */
	readonly meaning: string;
	/** When a cell must be filled, in words; "" where it never must. */
	readonly required: string;
	/** What is assumed for an empty cell; "" where nothing is. */
	readonly otherwise: string;
	/** True for columns whose loss would change the arithmetic: a misspelt one is a problem, not a note. */
	readonly counts: boolean;
}

export type Holds =
	| { readonly is: "text" }
	/** Canonical word -> other ways of writing it. */
	| {
			readonly is: "choice";
			readonly choices: Readonly<Record<string, readonly string[]>>;
	  }
	| { readonly is: "date" }
	| {
			readonly is: "number";
			/** Kinds that the unit in the header may belong to, the usual one first; none for a bare number. */
			readonly kinds: readonly Kind[];
			/** Units, named in messages; the first is the usual one. */
			readonly units: readonly string[];
			readonly range: Range;
	  };

export interface Range {
	readonly least: number;
	/** Whether `least` itself is allowed. */
	readonly leastAllowed: boolean;
	readonly most: number;
	/** In words, for messages. */
	readonly words: string;
	/** Unit that the limits are in; "" for the unit of the column. */
	readonly unit: string;
}

export const notNegative: Range = {
	least: 0,
	leastAllowed: true,
	most: Number.POSITIVE_INFINITY,
	words: "a number of 0 or more",
	unit: "",
};
export const aboveZero: Range = {
	least: 0,
	leastAllowed: false,
	most: Number.POSITIVE_INFINITY,
	words: "a number above 0",
	unit: "",
};

export const text: Holds = { is: "text" };
export const date: Holds = { is: "date" };
export const yesNo: Holds = {
	is: "choice",
	choices: {
		yes: ["y", "true", "1"],
		no: ["n", "false", "0"],
		"not recorded": ["not known", "unknown", "?"],
	},
};
const volumeUnits = ["mL", "L", "µL"];
const massUnits = ["g", "mg", "µg", "kg"];

export function volume(range: Range): Holds {
	return { is: "number", kinds: ["volume"], units: volumeUnits, range };
}
export function mass(range: Range): Holds {
	return { is: "number", kinds: ["mass"], units: massUnits, range };
}
export function ratio(range: Range): Holds {
	return { is: "number", kinds: ["ratio"], units: ["%", "fraction"], range };
}

/** A number without a unit: a pH, a factor. */
export function bare(range: Range): Holds {
	return { is: "number", kinds: [], units: [], range };
}
/** From `least` to `most`, both allowed, in the unit of the column unless told otherwise. */
export function between(
	least: number,
	most: number,
	words: string,
	unit = "",
): Range {
	return { least, leastAllowed: true, most, words, unit };
}
export const pH: Holds = bare(between(-1, 15, "a pH between -1 and 15"));
export const absorbance: Holds = bare(
	between(-0.5, 5, "an absorbance between -0.5 and 5"),
);

export interface Details {
	readonly required?: string;
	readonly otherwise?: string;
	readonly counts?: boolean;
	readonly also?: readonly string[];
}
export function column(
	holds: Holds,
	meaning: string,
	details: Details = {},
): Column {
	return {
		holds,
		meaning,
		required: details.required ?? "",
		otherwise: details.otherwise ?? "",
		counts: details.counts ?? false,
		also: details.also ?? [],
	};
}

/** What people write down besides. */
export const notes: Column = column(text, "anything worth remembering", {
	also: ["note", "comments", "comment", "remarks", "remark"],
});

export const wetMoisture: Range = {
	least: 0,
	leastAllowed: true,
	most: 0.99,
	words: "between 0 and 99 % (0 and 0.99 as a fraction)",
	unit: "1",
};
export const dryMoisture: Range = {
	least: 0,
	leastAllowed: true,
	most: 5,
	words: "between 0 and 500 % (0 and 5 as a fraction)",
	unit: "1",
};
