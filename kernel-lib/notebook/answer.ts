/** The answer of a notebook as its author puts it together: what was found, with the picture, the table and the sentences behind it. */
import type { Figure } from "../figures";
import {
	type LineIds,
	listOption,
	type OptionRule,
	objectOption,
	requireOptions,
	type Table,
	textOption,
} from "../quantity";
import type { ReportedAnswer } from "./reported";
import { isTable, structuredTable } from "./structured-table";

/** The answer of a notebook. Reported under the name "verdict" it becomes the head of the page. */
export interface Answer {
	/** What was found, in one sentence: the title of the page. */
	readonly finding: string;
	/** The figure that shows it; it stands still at the head, and interactive where it was reported. */
	readonly figure?: Figure;
	/** Beside the figure, one or a few; at most five columns each. */
	readonly table?: Table | readonly Table[];
	/** What stands behind the finding, the weightiest first. */
	readonly statements?: readonly string[];
}

/** The table of a head has at most so many columns. Our decision. */
export const mostColumns = 5;

/** The table of a head shows so many rows; more belong into a table of their own. Our decision. */
export const mostRows = 40;

/** What is meant as a figure: it says in words what it shows. */
export function isFigure(
	value: unknown,
): value is { readonly alt: string; readonly layers: unknown } {
	return (
		typeof value === "object" &&
		value !== null &&
		"alt" in value &&
		typeof value.alt === "string" &&
		"layers" in value
	);
}

const figureOption: OptionRule = {
	...objectOption("a figure, such as figures.differences(comparison)"),
	accepts: isFigure,
};

const fits = (value: unknown): boolean =>
	isTable(value) && value.columns.length <= mostColumns;

const tableOption: OptionRule = {
	expected: `a table of at most ${mostColumns} columns, or a list of such tables`,
	accepts: (value) => (Array.isArray(value) ? value.every(fits) : fits(value)),
};

const rules = {
	finding: {
		expected: "what was found, in one sentence",
		accepts: (value: unknown) =>
			typeof value === "string" && value.trim() !== "",
	},
	figure: figureOption,
	table: tableOption,
	statements: listOption(textOption),
};

/** What is meant as an answer: an object with a finding. */
export function isAnswer(value: unknown): value is Answer {
	return (
		typeof value === "object" &&
		value !== null &&
		"finding" in value &&
		!Array.isArray(value)
	);
}

const isList = (given: Table | readonly Table[]): given is readonly Table[] =>
	Array.isArray(given);

/** The first rows of a table, and how many more there are. */
function atHead(table: Table): Table {
	const more = table.rows.length - mostRows;
	return more > 0
		? {
				...table,
				rows: table.rows.slice(0, mostRows),
				notes: [...table.notes, `${more} more rows are not shown here.`],
			}
		: table;
}

/**
 * An answer in the form in which it is reported. Its figure travels beside it.
 * @throws ProblemError for a finding that is no sentence, a table of too many columns, parts that an answer does not have
 */
export function answerContent(answer: Answer, lines: LineIds): ReportedAnswer {
	requireOptions(answer, rules, "an answer", ["finding"]);
	const { finding, figure, table = [], statements = [] } = answer;
	return {
		kind: "answer",
		finding,
		figure: figure?.alt ?? "",
		tables: (isList(table) ? table : [table]).map((t) =>
			structuredTable(atHead(t), lines),
		),
		statements,
	};
}
