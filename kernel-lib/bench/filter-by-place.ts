/** A frame of the package, as far as its rows are picked. */
interface Rows {
	readonly index: readonly (string | number)[];
	resetIndex(options?: { inplace?: boolean }): Rows | undefined;
}

type Pick = (this: Rows, ...args: unknown[]) => unknown;

const inOrder = ({ index }: Rows): boolean =>
	index.every((label, i) => label === i);

/** True for rows given as true and false, a list or a series of them. */
function isMask(rows: unknown): boolean {
	const values: unknown =
		typeof rows === "object" && rows !== null && "values" in rows
			? (rows as { readonly values: unknown }).values
			: rows;
	return Array.isArray(values) && values.some((v) => typeof v === "boolean");
}

/** The owner of a method in a chain of prototypes. */
function ownerOf(prototype: object, name: string): object {
	return Object.hasOwn(prototype, name)
		? prototype
		: ownerOf(Object.getPrototypeOf(prototype), name);
}

/**
 * Mends how the package's frames filter: they take the label of a row for its place, so that of a frame that was sorted or filtered before they give other rows than were asked for, or break off. Rows are numbered anew
 * before they are picked by true and false.
 *
 * @param made the package's class of frames, whose `query` and `iloc` are replaced
 */
export function filterByPlace(made: new (...args: never[]) => object): void {
	for (const name of ["query", "iloc"]) {
		const owner = ownerOf(made.prototype, name) as Record<string, Pick>;
		const pick = owner[name];
		owner[name] = function (...args) {
			const rows =
				name === "query"
					? args[0]
					: (args[0] as { readonly rows?: unknown } | undefined)?.rows;
			if (inOrder(this) || !isMask(rows)) return pick.apply(this, args);
			const inplace =
				(args[1] as { inplace?: boolean } | undefined)?.inplace === true;
			return pick.apply(this.resetIndex({ inplace }) ?? this, args);
		};
	}
}
