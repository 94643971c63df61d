import type { ResultKind } from "../../quantity";

/** What an iodine number is known by. */
export const iodineNumberKind: ResultKind = {
	parts: ["is", "treatment", "sentence"],
	expected: "one of the numbers that uptake.iodineNumbers(trial) returns",
};
