import type { Table } from "./table";

/** A result with its table, which is what a notebook shows and reports of it. */
export type WithTable<T> = T & { readonly table: Table };

/** Gives a result its table: made when it is first asked for and then kept, and left out where the result is written down or looked through. */
export function withTable<T extends object>(
	result: T,
	make: (result: T) => Table,
): WithTable<T> {
	let made: Table | null = null;
	Object.defineProperty(result, "table", {
		enumerable: false,
		get: () => {
			made ??= make(result);
			return made;
		},
	});
	return result as WithTable<T>;
}
