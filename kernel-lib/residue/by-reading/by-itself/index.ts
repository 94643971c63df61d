import type { ReadingKind } from "../../../bench";
import type { ByItself } from "./by-itself";
import { dryResidue } from "./dry-residue";

export type { ByItself } from "./by-itself";

const all: readonly ByItself[] = [dryResidue];

/** How a kind of reading becomes a concentration without a line. A kind that needs one never comes here: `requireLines` and `concentrationOfLiquid` ask for its line first. */
export function byItself(kind: ReadingKind): ByItself {
	const found = all.find((k) => k.kind === kind);
	if (found === undefined)
		throw new Error(`A reading of the kind "${kind}" needs a line.`);
	return found;
}
