import { listed, type Problem, problem } from "../quantity";
import type { DeviationKey } from "./columns";
import { hasPart, partsOf, targetText } from "./deviations";
import type { Deviation, DeviationTarget } from "./mark";
import { missingCells } from "./missing-cells";
import {
	isEmpty,
	type ParsedRow,
	type ParsedTable,
	placeOf,
	textOf,
} from "./parsed-table";
import type { Trial } from "./trial";

export type DeviationTable = ParsedTable<DeviationKey>;

/** The names that a deviation may use, by what they name. */
export type KnownNames = Readonly<
	Record<DeviationTarget["is"], ReadonlySet<string>>
>;

const kinds = ["flask", "solution", "standard", "firing"] as const;

const tableOfKind: Readonly<Record<DeviationTarget["is"], string>> = {
	flask: "a flask of the flasks table",
	solution: "a solution of the solutions table",
	standard: "a standard of the calibration table",
	firing: "a firing of the activation table",
};

/** The names in a cell: the whole text where that is one, else the parts between semicolons. */
function namesIn(text: string, known: ReadonlySet<string>): string[] {
	if (known.has(text)) return [text];
	return text
		.split(";")
		.map((t) => t.trim())
		.filter((t) => t !== "");
}

const partForm = /^(titre|reading|rinse|weighing)\s*(\d+)$/i;

function partIn(text: string): DeviationTarget["part"] | "unreadable" {
	if (text === "") return { is: "whole" };
	const found = partForm.exec(text);
	return found === null
		? "unreadable"
		: {
				is: found[1].toLowerCase() as "titre",
				number: Number(found[2]),
			};
}

function checkPart(
	table: DeviationTable,
	row: ParsedRow,
	problems: Problem[],
): void {
	const written = textOf(table, row, "part");
	const part = partIn(written);
	const refuse = (expected: string): void => {
		problems.push(
			problem(
				"deviation-part",
				placeOf(table, row, "part"),
				`"${written}"`,
				expected,
				"Number the part as its column is numbered in the sheet, or leave the cell empty for the whole.",
			),
		);
	};
	if (part === "unreadable") {
		refuse('one part, such as "titre 2", "reading 1", "rinse 3", "weighing 4"');
		return;
	}
	if (part.is === "whole") return;
	for (const kind of kinds)
		if (
			!isEmpty(table, row, kind) &&
			!(partsOf[kind] as readonly string[]).includes(part.is)
		)
			refuse(
				`a part that a ${kind} has: ${listed(
					partsOf[kind].map((p) => `"${p} 1"`),
					"or",
				)}`,
			);
}

/** Everything that is wrong with the table, but for parts that the named thing does not have. */
export function checkDeviations(
	table: DeviationTable,
	known: KnownNames,
	problems: Problem[],
): void {
	const missing = missingCells(table, problems);
	for (const row of table.rows) {
		if (kinds.every((kind) => isEmpty(table, row, kind)))
			missing.require(row, "flask", "the flask, or flasks, that it touched");
		missing.require(row, "what happened", "what went wrong, in words");
		for (const kind of kinds)
			for (const name of namesIn(textOf(table, row, kind), known[kind]))
				if (!known[kind].has(name))
					problems.push(
						problem(
							`${kind}-not-found`,
							placeOf(table, row, kind),
							`"${name}"`,
							tableOfKind[kind],
							/[,/]/.test(name)
								? 'Separate several by ";".'
								: "Write the name as it stands there.",
						),
					);
		checkPart(table, row, problems);
	}
	missing.report();
}

/** The deviations; only after the checks found nothing. */
export function buildDeviations(
	table: DeviationTable,
	known: KnownNames,
	assumptions: Set<string>,
): Deviation[] {
	return table.rows.map((row: ParsedRow): Deviation => {
		if (isEmpty(table, row, "handling"))
			assumptions.add(
				"Deviations without a handling: what they touched is left out of the main result; the page shows it both ways.",
			);
		const part = partIn(textOf(table, row, "part"));
		const targets = kinds.flatMap((is) =>
			namesIn(textOf(table, row, is), known[is]).map(
				(name): DeviationTarget => ({
					is,
					name,
					part: part === "unreadable" ? { is: "whole" } : part,
				}),
			),
		);
		return {
			targets,
			whatHappened: textOf(table, row, "what happened"),
			handling:
				textOf(table, row, "handling") === "keep" ? "keep" : "leave out",
			place: placeOf(
				table,
				row,
				kinds.find((kind) => !isEmpty(table, row, kind)) ?? "flask",
			),
		};
	});
}

/** Deviations that name a part which the thing does not have. */
export function missingParts(
	deviations: readonly Deviation[],
	trial: Pick<Trial, "flasks" | "solutions" | "standards" | "firings">,
): Problem[] {
	return deviations.flatMap(({ targets, place }) =>
		targets
			.filter((target) => !hasPart(target, trial))
			.map((target) =>
				problem(
					"deviation-part-missing",
					{ ...place, column: "part" },
					`${targetText(target)}, which the sheet does not have`,
					`a part of ${target.is} ${target.name} that was written down`,
					"Look at the number, or leave the cell empty for the whole.",
				),
			),
	);
}
