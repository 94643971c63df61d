import { z } from "zod";
import { fromBase, type Kind, listed, toBase } from "../quantity";
import type { Column, Range } from "./column";
import type { ColumnMatch } from "./headers";
import { type Moment, readMoment } from "./moments";
import { type DecimalMark, readNumber } from "./numbers";
import type { RawCell } from "./raw-table";

/** A cell that was read: text, number (in the column's unit) or moment. */
export type CellValue = string | number | Moment;

/** What is wrong with a cell, without the place. */
export interface CellFault {
	readonly code: string;
	readonly found: string;
	readonly expected: string;
	readonly mend: string;
}

export type CellReading =
	| { readonly ok: true; readonly value: CellValue }
	| { readonly ok: false; readonly faults: readonly CellFault[] };

export type CellReader = (cell: RawCell) => CellReading;

type Context = z.RefinementCtx<unknown>;

function fault(context: Context, f: CellFault): typeof z.NEVER {
	context.addIssue({ code: "custom", message: f.expected, params: { ...f } });
	return z.NEVER;
}

function outside(
	value: number,
	range: Range,
	kind: Kind,
	unit: string,
): boolean {
	const x =
		range.unit === "" || unit === ""
			? value
			: fromBase(kind, toBase(kind, value, unit), range.unit);
	// A limit reached by rounding in another unit is still the limit.
	const slack = 1e-12 * Math.abs(x);
	return range.leastAllowed
		? x < range.least - slack || x > range.most + slack
		: x <= range.least || x > range.most + slack;
}

function numberSchema(
	range: Range,
	kind: Kind,
	unit: string,
	mark: DecimalMark,
	commaLikely: boolean,
): z.ZodType<CellValue> {
	const expected =
		unit === ""
			? range.words
			: `${range.words}, in ${unit === "1" ? "parts of one" : unit}`;
	return z
		.union([z.number(), z.string()])
		.transform((cell, context): number => {
			if (typeof cell === "number") return cell;
			const read = readNumber(cell, mark, commaLikely, kind, unit);
			return read.is === "number"
				? read.value
				: fault(context, { ...read, expected });
		})
		.superRefine((value, context) => {
			if (!Number.isFinite(value))
				fault(context, {
					code: "not-a-number",
					found: String(value),
					expected,
					mend: "Write a number, or leave the cell empty where nothing was recorded.",
				});
			else if (outside(value, range, kind, unit))
				fault(context, {
					code: value < 0 && range.least === 0 ? "negative" : "out-of-range",
					found: String(value),
					expected,
					mend:
						value === 0
							? "Leave the cell empty where nothing was measured; else write the reading."
							: "Look the reading up again, and the unit at the head of the column.",
				});
		});
}

function choiceSchema(
	choices: Readonly<Record<string, readonly string[]>>,
): z.ZodType<CellValue> {
	const meant = new Map<string, string>();
	for (const [word, others] of Object.entries(choices))
		for (const way of [word, ...others]) meant.set(way.toLowerCase(), word);
	const words = Object.keys(choices);
	return z.union([z.number(), z.string()]).transform((cell, context) => {
		const word = meant.get(String(cell).toLowerCase());
		return (
			word ??
			fault(context, {
				code: "not-a-choice",
				found: `"${cell}"`,
				expected: listed(
					words.map((w) => `"${w}"`),
					"or",
				),
				mend: "Write one of these words.",
			})
		);
	});
}

const textSchema: z.ZodType<CellValue> = z
	.union([z.number(), z.string()])
	.transform((cell, context) => {
		const text = String(cell);
		return text.startsWith("#") &&
			/^#(REF!|N\/A|VALUE!|DIV\/0!|NAME\?|NUM!|NULL!)/.test(text)
			? fault(context, {
					code: "spreadsheet-error",
					found: `the spreadsheet error "${text}"`,
					expected: "text",
					mend: "Mend the formula in the spreadsheet, or type the text.",
				})
			: text;
	});

const dateSchema: z.ZodType<CellValue> = z
	.union([z.number(), z.string()])
	.transform(
		(cell, context) =>
			readMoment(String(cell)) ??
			fault(context, {
				code: "not-a-date",
				found: `"${cell}"`,
				expected: "a date, or a date and time of day",
				mend: 'Write it as year-month-day, e.g. "2031-05-03" or "2031-05-03 14:30"; in a spreadsheet give the cell a date format.',
			}),
	);

function schemaOf(
	holds: Column["holds"],
	match: Pick<ColumnMatch, "kind" | "unit">,
	mark: DecimalMark,
	commaLikely: boolean,
): z.ZodType<CellValue> {
	switch (holds.is) {
		case "text":
			return textSchema;
		case "date":
			return dateSchema;
		case "choice":
			return choiceSchema(holds.choices);
		case "number":
			return numberSchema(
				holds.range,
				match.kind,
				match.unit,
				mark,
				commaLikely,
			);
	}
}

/** The reader for the cells of one column: a zod schema made from the table of columns. Empty cells are not passed to it. */
export function cellReader(
	match: ColumnMatch,
	mark: DecimalMark,
	commaLikely: boolean,
): CellReader {
	const schema = schemaOf(match.column.holds, match, mark, commaLikely);
	return (cell) => {
		const parsed = schema.safeParse(cell);
		if (parsed.success) return { ok: true, value: parsed.data };
		return {
			ok: false,
			faults: parsed.error.issues.map((issue) => {
				if (issue.code === "custom" && issue.params)
					return issue.params as unknown as CellFault;
				return {
					code: "cell-unreadable",
					found: String(cell),
					expected: "text or a number",
					mend: "Write plain text or a number.",
				};
			}),
		};
	};
}
