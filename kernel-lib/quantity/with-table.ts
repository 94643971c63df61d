import type { Table } from "./table";

/** A result with its table, which is what a notebook shows and reports of it. */
export type WithTable<T> = T & { readonly table: Table };

/** Gives a result its table: made when it is first asked for and then kept, and left out where the result is written down or looked through. A second table takes a name. */
export function withTable<T extends object>(
	result: T,
	make: (result: T) => Table,
): WithTable<T>;
export function withTable<T extends object, Name extends string>(
	result: T,
	make: (result: T) => Table,
	name: Name,
): T & { readonly [K in Name]: Table };
export function withTable<T extends object>(
	result: T,
	make: (result: T) => Table,
	name = "table",
): T {
	let made: Table | null = null;
	Object.defineProperty(result, name, {
		enumerable: false,
		get: () => {
			made ??= make(result);
			return made;
		},
	});
	return result;
}
