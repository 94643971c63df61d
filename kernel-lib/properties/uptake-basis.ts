import { type Measured, named, type Quantity } from "../quantity";
import { type Basis, type Contents, toBasis } from "./basis";

/** An uptake and what it is per gram of, as flasks give it. */
export interface UptakePerGram {
	readonly perGram: "dry char" | "char as weighed";
	readonly uptake: Measured<"uptake">;
}

/** The uptake of a flask on a stated basis. */
export interface UptakeOnBasis<T extends UptakePerGram = UptakePerGram> {
	readonly of: T;
	readonly basis: Basis;
	readonly uptake: Measured<"uptake">;
}

const perGramOf: Readonly<Record<Basis, string>> = {
	"as weighed": "char as weighed",
	dry: "dry char",
	"dry, ash-free": "dry, ash-free char",
};

/**
 * The uptake of a flask per gram of dry char, or of dry and ash-free char: salt that a treatment left behind adds mass that takes up nothing, and char that was not dried holds water.
 * Bounds stay bounds. Flasks converted with one moisture or one ash share its error, since the graph knows it; so do the differences between them.
 *
 * Ash-free answers another question than per gram of product: who buys or weighs out the char does so with its ash. Say which one a verdict is about.
 *
 * @param contents moisture (wet basis, at the time when the flasks were weighed) and ash (of the dry char), as needed
 * @throws ProblemError where a content that is needed is missing
 */
export function uptakeOnBasis<T extends UptakePerGram>(
	flask: T,
	basis: Basis,
	contents: Partial<Contents>,
): UptakeOnBasis<T> {
	const from: Basis = flask.perGram === "dry char" ? "dry" : "as weighed";
	const quantity: Quantity<"uptake"> =
		from === basis
			? flask.uptake.quantity
			: named(
					toBasis(flask.uptake.quantity, from, basis, contents),
					"q",
					`uptake per gram of ${perGramOf[basis]}`,
				);
	return {
		of: flask,
		basis,
		uptake: { ...flask.uptake, quantity },
	};
}
