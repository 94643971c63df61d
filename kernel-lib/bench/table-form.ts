import type { Column } from "./column";
import { type SheetName, sheets } from "./columns";

/** A table beside those of the bench sheet: its columns, declared once, and the one that every row fills. */
export interface TableForm<Key extends string = string> {
	/** What messages call the table. */
	readonly name: string;
	readonly key: Key;
	/** By name, lower case; "#" stands for a number. */
	readonly columns: Readonly<Record<Key, Column>>;
}

type Form = Pick<TableForm, "key" | "columns">;

/** The heads that the key column may have, lower case. */
export function keyHeads({ key, columns }: Form): readonly string[] {
	return [key, ...columns[key].also];
}

/** The form of one of the bench sheet's own tables, or of a further one. */
export function formOf(table: SheetName | TableForm): Form {
	return typeof table === "string" ? sheets[table] : table;
}
