import { type Problem, problem } from "../quantity";
import type { DeviationKey } from "./columns";
import { missingCells } from "./missing-cells";
import {
	isEmpty,
	type ParsedRow,
	type ParsedTable,
	placeOf,
	textOf,
} from "./parsed-table";
import type { Deviation } from "./trial";

export type DeviationTable = ParsedTable<DeviationKey>;

/** The flasks that a cell names: the whole text where that is a flask, else the parts between semicolons. */
function flasksIn(text: string, known: ReadonlySet<string>): string[] {
	if (known.has(text)) return [text];
	return text
		.split(";")
		.map((t) => t.trim())
		.filter((t) => t !== "");
}

export function checkDeviations(
	table: DeviationTable,
	flasks: ReadonlySet<string>,
	problems: Problem[],
): void {
	const missing = missingCells(table, problems);
	for (const row of table.rows) {
		missing.require(row, "flask", "the flask, or flasks, that it touched");
		missing.require(row, "what happened", "what went wrong, in words");
		for (const name of flasksIn(textOf(table, row, "flask"), flasks))
			if (!flasks.has(name))
				problems.push(
					problem(
						"flask-not-found",
						placeOf(table, row, "flask"),
						`"${name}"`,
						"a flask of the flasks table",
						/[,/]/.test(name)
							? 'Separate several flasks by ";".'
							: "Write the name as it stands there.",
					),
				);
	}
	missing.report();
}

export function buildDeviations(
	table: DeviationTable,
	flasks: ReadonlySet<string>,
	assumptions: Set<string>,
): Deviation[] {
	return table.rows.map((row: ParsedRow) => {
		if (isEmpty(table, row, "handling"))
			assumptions.add(
				"Deviations without a handling: the flasks are left out of the main verdict; the page shows it both ways.",
			);
		return {
			flasks: flasksIn(textOf(table, row, "flask"), flasks),
			whatHappened: textOf(table, row, "what happened"),
			handling:
				textOf(table, row, "handling") === "keep" ? "keep" : "leave out",
			place: placeOf(table, row, "flask"),
		};
	});
}
