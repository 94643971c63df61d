/** A value that does not exist, and why. The one spelling of "no value" in the whole library. */
export interface NotKnown {
	readonly is: "not known";
	readonly because: string;
}

/** No value, because ... */
export function notKnown(because: string): NotKnown {
	return { is: "not known", because };
}
