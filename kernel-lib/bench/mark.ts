import type { ProblemPlace } from "../quantity";

/** What a deviation does to the main result; the page shows it both ways. */
export type Handling = "leave out" | "keep";

/** What went wrong with a thing, written on the thing itself. */
export interface Mark {
	readonly whatHappened: string;
	readonly handling: Handling;
}

/** What a deviation touched: a flask (blanks and leachates are flasks too), a solution, a standard of a calibration line or a firing; the whole of it, or one numbered part. */
export interface DeviationTarget {
	readonly is: "flask" | "solution" | "standard" | "firing";
	readonly name: string;
	readonly part:
		| { readonly is: "whole" }
		| {
				readonly is: "titre" | "reading" | "rinse" | "weighing";
				readonly number: number;
		  };
}

/** One row of the deviations table. */
export interface Deviation {
	readonly targets: readonly DeviationTarget[];
	readonly whatHappened: string;
	readonly handling: Handling;
	readonly place: ProblemPlace;
}
