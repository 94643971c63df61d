/** A value that does not exist, and why. The one spelling of "no value" in the whole library. */
export interface NotKnown {
	readonly is: "not known";
	readonly because: string;
}

/** A value, or the reason why there is none. */
export type MaybeKnown<T> =
	| { readonly is: "value"; readonly value: T }
	| NotKnown;

/** A value that is there. */
export function known<T>(value: T): MaybeKnown<T> {
	return { is: "value", value };
}

/** No value, because ... */
export function notKnown(because: string): NotKnown {
	return { is: "not known", because };
}

/** Known only if it is a finite number. */
export function knownIfFinite(
	value: number,
	because: string,
): MaybeKnown<number> {
	return Number.isFinite(value) ? known(value) : notKnown(because);
}

/** The value, changed; or the reason, unchanged. */
export function mapKnown<T, U>(
	from: MaybeKnown<T>,
	change: (value: T) => U,
): MaybeKnown<U> {
	return from.is === "value" ? known(change(from.value)) : from;
}
