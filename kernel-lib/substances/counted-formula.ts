import { type NotKnown, notKnown } from "../quantity";
import { composition } from "./formula";
import { substanceNamed } from "./search";

/** What a mole of a substance counts: a formula written in its place is obeyed, its water of crystallisation included; a name gives the formula on the list. */
export function countedFormula(
	written: string,
): { readonly is: "known"; readonly formula: string } | NotKnown {
	if (written.trim() !== "" && composition(written).ok)
		return { is: "known", formula: written.trim() };
	const found = substanceNamed(written);
	return found.is === "known" && found.substance.formula !== ""
		? { is: "known", formula: found.substance.formula }
		: notKnown(
				`"${written.trim()}" is neither a substance whose formula is on the list nor a formula`,
			);
}
