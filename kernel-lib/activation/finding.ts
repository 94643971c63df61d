import type { Measured } from "../quantity";
import { type Kind, measuredText, type Quantity } from "../quantity";

/** A derived number, a limit, or the reason why there is none. */
export type Finding<K extends Kind> =
	| Measured<K>
	| { readonly is: "not known"; readonly because: string };

export function notKnown(because: string): {
	readonly is: "not known";
	readonly because: string;
} {
	return { is: "not known", because };
}

export function found<K extends Kind>(quantity: Quantity<K>): Finding<K> {
	return { is: "value", quantity };
}

/** A finding made from another; limits and reasons are passed on. `because` of a limit stays what it was. */
export function mapFinding<A extends Kind, B extends Kind>(
	from: Finding<A>,
	change: (quantity: Quantity<A>) => Quantity<B>,
): Finding<B> {
	if (from.is === "not known") return from;
	return from.is === "value"
		? found(change(from.quantity))
		: {
				is: from.is,
				quantity: change(from.quantity),
				because: from.because,
			};
}

export function findingText(finding: Finding<Kind>): string {
	return finding.is === "not known"
		? `not known: ${finding.because}`
		: measuredText(finding);
}
