/** What a deviation does to the main result; the page shows it both ways. */
export type Handling = "leave out" | "keep";

/** What went wrong with a thing, written on the thing itself. */
export interface Mark {
	readonly whatHappened: string;
	readonly handling: Handling;
}

/** True where some deviation leaves the thing out. */
export function isLeftOut({
	marks,
}: {
	readonly marks: readonly Mark[];
}): boolean {
	return marks.some((m) => m.handling === "leave out");
}
