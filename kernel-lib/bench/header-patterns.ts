import type { Column } from "./column";
import type { SheetName } from "./columns";
import { formOf, type TableForm } from "./table-form";

/** A known column and what its header may look like. */
export interface Pattern {
	readonly key: string;
	readonly column: Column;
	readonly test: RegExp;
}

const patterns = new WeakMap<TableForm["columns"], readonly Pattern[]>();

/** The known columns of a table, each with its test. */
export function patternsOf(sheet: SheetName | TableForm): readonly Pattern[] {
	const { columns } = formOf(sheet);
	let known = patterns.get(columns);
	if (known === undefined) {
		known = Object.entries<Column>(columns).map(([key, column]) => ({
			key,
			column,
			test: new RegExp(
				`^(?:${[key, ...column.also]
					.map((head) =>
						head.replace(/, /g, ",? ?").replace(" #", " ?(\\d{1,3})?"),
					)
					.join("|")})$`,
			),
		}));
		patterns.set(columns, known);
	}
	return known;
}
