import { substancesIn } from "./search";

/** Whether what a text names may bring ammonia into a char: "not known" where it names something that is not on the list. */
export type AmmoniaNamed = "named" | "not known" | "none named";

/** Ammonia in words that the list may not have: "ammonium citrate", "ammoniakalisch", "amoníaco". */
const anyAmmonia = /amm?on[iyí]/iu;

/**
 * Whether a text names ammonia, an ammonium salt or something else that gives ammonia off. With iodine ammonia forms nitrogen triiodide, a solid that explodes when it is dry and touched (from memory of general
 * chemistry).
 */
export function ammoniaNamedIn(text: string): AmmoniaNamed {
	const found = substancesIn(text);
	if (
		anyAmmonia.test(text) ||
		found.some(
			(s) => s.is === "known" && s.substance.dangers.includes("ammonia"),
		)
	)
		return "named";
	return found.some((s) => s.is === "not known") ? "not known" : "none named";
}
