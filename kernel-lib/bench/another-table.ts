import { type Problem, problem } from "../quantity";
import type { SheetName } from "./columns";
import { readHeaders } from "./headers";
import type { RawTable } from "./raw-table";
import { formOf, type TableForm } from "./table-form";

/** So many of the columns that some row must fill make it the table that was expected, even where the column of names is missing. A decision of ours. */
const enoughColumns = 2;

/** Heads of another table that a message names. */
const mostNamed = 4;

function quotedHeads(heads: readonly string[]): string {
	const named = heads.slice(0, mostNamed).map((h) => `"${h}"`);
	const more = heads.length - named.length;
	return `${named.join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
}

/**
 * One problem for a table of another kind than the one expected, such as firings where flasks should stand, instead of one for each column and cell that it lacks; none where it is the table expected, whatever is
 * wrong with it.
 * @param what the table expected, with its article: "a bench sheet of flasks"
 */
export function anotherTable<Key extends string>(
	raw: RawTable,
	form: SheetName | TableForm<Key>,
	what: string,
): Problem[] {
	const { key, columns } = formOf(form);
	const found = new Set(readHeaders(raw, form).matches.map((m) => m.key));
	const needed = [...found].filter(
		(k) => columns[k as keyof typeof columns].required !== "",
	);
	const heads = raw.headers.filter((h) => h.trim() !== "");
	return heads.length === 0 || found.has(key) || needed.length >= enoughColumns
		? []
		: [
				problem(
					"another-table",
					{ file: raw.file },
					`a table with the columns ${quotedHeads(heads)}`,
					`${what}, with a column "${key}"`,
					`Give the file that holds it; or, if this is it, name its columns as they are named there, "${key}" first.`,
				),
			];
}
