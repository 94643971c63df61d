import {
	type Firing,
	type Trial,
	type TypedRow,
	trialFromRows,
} from "../../kernel-lib/bench/index";

/** A trial that holds nothing but firings. */
export function kilnOf(
	activation: readonly TypedRow[],
	more: {
		readonly glassware?: readonly TypedRow[];
		readonly deviations?: readonly TypedRow[];
	} = {},
): Trial {
	return trialFromRows({ activation, ...more });
}

/** The firing of one row. */
export function firingOf(
	row: TypedRow,
	glassware: readonly TypedRow[] = [],
): Firing {
	return kilnOf([row], { glassware }).firings[0];
}
