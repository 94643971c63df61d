import type { Kind, Measured, NotKnown, TableCell } from "../quantity";

export const notDetermined = "not determined";

/** What a table says of a determination or of the mean of several. */
export function outcomeCell(outcome: Measured<Kind> | NotKnown): TableCell {
	return outcome.is === "not known" ? notDetermined : outcome;
}
