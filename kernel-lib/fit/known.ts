/** A number that may not exist; then the reason stands in its place. */
export type Known<T> =
	| { readonly kind: "known"; readonly value: T }
	| { readonly kind: "unknown"; readonly reason: string };

export function known<T>(value: T): Known<T> {
	return { kind: "known", value };
}

export function unknown(reason: string): {
	readonly kind: "unknown";
	readonly reason: string;
} {
	return { kind: "unknown", reason };
}

/** Known only if it is a finite number. */
export function knownIfFinite(value: number, reason: string): Known<number> {
	return Number.isFinite(value) ? known(value) : unknown(reason);
}

/** The value, changed; or the reason, unchanged. */
export function mapKnown<T, U>(
	from: Known<T>,
	change: (value: T) => U,
): Known<U> {
	return from.kind === "known" ? known(change(from.value)) : from;
}

/** Yes or no, with the reason for either. */
export interface Flag {
	readonly holds: boolean;
	readonly reason: string;
}
