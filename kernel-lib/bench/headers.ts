import { type Kind, type Problem, problem, readUnit } from "../quantity";
import type { Column } from "./column";
import { headerText, type SheetName } from "./columns";
import { patternsOf } from "./header-patterns";
import { nearMiss } from "./near-miss";
import { type RawTable, tidy } from "./raw-table";
import type { TableForm } from "./table-form";

/** What a column of a file was taken for. */
export interface ColumnMatch {
	/** Key in the table of columns. */
	readonly key: string;
	/** The number in the header; 1 where it was left out. */
	readonly number: number;
	readonly column: Column;
	/** Kind and unit of a number column, the unit in the library's spelling; "" and "ratio" where there is none. */
	readonly kind: Kind;
	readonly unit: string;
	readonly index: number;
	/** The header as written. */
	readonly header: string;
}

export interface Headers {
	readonly matches: readonly ColumnMatch[];
	/** Columns that are carried along: index, header, and the known column that was perhaps meant ("" for none). */
	readonly unknown: readonly {
		readonly index: number;
		readonly header: string;
		readonly perhaps: string;
	}[];
	readonly problems: readonly Problem[];
}

/** "Dose  1 [ml]" -> name "dose 1", unit "ml". */
function splitHeader(header: string): { name: string; unit: string } {
	const m = /^(.*?)\s*[([]([^()[\]]*)[)\]]$/.exec(header);
	return {
		name: (m ? m[1] : header).toLowerCase(),
		unit: m ? m[2].trim() : "",
	};
}

function unitOf(
	column: Column,
	written: string,
): { kind: Kind; unit: string } | null {
	if (column.holds.is !== "number" || column.holds.kinds.length === 0)
		return { kind: "ratio", unit: "" };
	if (written === "") return null;
	for (const kind of column.holds.kinds) {
		const unit = readUnit(kind, written);
		if (unit.ok) return { kind, unit: unit.value };
	}
	return null;
}

type Place = Parameters<typeof problem>[1];

function unitProblem(
	{ key, number, column }: Known,
	unit: string,
	place: Place,
): Problem {
	const units = column.holds.is === "number" ? column.holds.units : [""];
	const example = headerText(key, number, units[0]);
	return problem(
		unit === "" ? "unit-missing" : "unit-unknown",
		place,
		unit === "" ? "no unit" : `the unit "${unit}"`,
		`one of the units ${units.join(", ")} in round brackets`,
		`Write it after the name of the column, e.g. "${example}".`,
	);
}

/** A known column, with the number that the header gives it ("" where there is none). */
interface Known {
	readonly key: string;
	readonly column: Column;
	readonly number: string;
}

function knownColumn(
	sheet: SheetName | TableForm,
	name: string,
): Known | undefined {
	for (const { key, column, test } of patternsOf(sheet)) {
		const found = test.exec(name);
		if (found !== null) return { key, column, number: found[1] ?? "" };
	}
	return undefined;
}

/** The column that a header stands for, whatever its unit; none for one that is carried along. */
export function knownHead(
	sheet: SheetName | TableForm,
	header: string,
): { key: string; number: number; column: Column } | undefined {
	const found = knownColumn(sheet, splitHeader(tidy(header)).name);
	return (
		found && {
			key: found.key,
			column: found.column,
			number: Number(found.number || 1),
		}
	);
}

/** What the header of an unknown column was perhaps meant for, spelled out; "" for nothing. */
function perhapsMeant(near: ReturnType<typeof nearMiss>): string {
	if (near === null) return "";
	const { holds } = near.column;
	return headerText(
		near.key,
		near.number,
		holds.is === "number" ? (holds.units[0] ?? "") : "",
	);
}

const unclear = (perhaps: string, place: Place): Problem =>
	problem(
		"column-unclear",
		place,
		`a column that is nearly "${perhaps}"`,
		"the exact name, or one that cannot be mistaken for it",
		`If "${perhaps}" is meant, rename the column to that; if not, give it a name that differs more. It would change the results.`,
	);

/** One concentration column for each unit is fine, for each row fills one of them; any other column stands once. */
const sameColumn = (a: ColumnMatch, b: ColumnMatch): boolean =>
	a.key === b.key &&
	a.number === b.number &&
	(a.unit === b.unit ||
		b.column.holds.is !== "number" ||
		b.column.holds.kinds.length < 2);

function twice(
	matches: readonly ColumnMatch[],
	at: (header: string) => Place,
): Problem[] {
	return matches.flatMap((match, i) => {
		const first = matches.slice(0, i).find((m) => sameColumn(m, match));
		if (first === undefined) return [];
		return [
			problem(
				"column-twice",
				at(match.header),
				`two columns for the same thing: "${first.header}" and "${match.header}"`,
				"one column for each thing",
				match.key.includes("#")
					? `Number them, e.g. "${headerText(match.key, "1", match.unit)}" and "${headerText(match.key, "2", match.unit)}", or take one away.`
					: "Rename one of them or take it away.",
			),
		];
	});
}

/** A text under another head of its column, where a column of the exact name stands beside it: carried along. */
const isSpareText = (
	{ key, column }: Known,
	name: string,
	heads: ReadonlySet<string>,
): boolean =>
	column.holds.is === "text" &&
	!column.counts &&
	column.required === "" &&
	name !== key &&
	heads.has(key);

/** Recognises the columns of a table. Case, extra spaces and the kind of bracket do not matter; everything unknown is carried along. */
export function readHeaders(
	table: RawTable,
	sheet: SheetName | TableForm,
): Headers {
	const matches: ColumnMatch[] = [];
	const unknown: { index: number; header: string; perhaps: string }[] = [];
	const problems: Problem[] = [];
	const at = (header: string): Place => ({
		file: table.file,
		sheet: table.sheet,
		row: table.headerRow,
		column: header,
	});
	const heads = new Set(table.headers.map((h) => splitHeader(tidy(h)).name));
	for (const [index, raw] of table.headers.entries()) {
		const header = tidy(raw);
		const filled = table.rows.some((r) => (r.cells[index] ?? "") !== "");
		if (header === "") {
			if (filled)
				unknown.push({ index, header: `(column ${index + 1})`, perhaps: "" });
			continue;
		}
		const { name, unit } = splitHeader(header);
		const known = knownColumn(sheet, name);
		if (known === undefined) {
			const near = nearMiss(sheet, name);
			const perhaps = perhapsMeant(near);
			if (near?.column.counts && filled)
				problems.push(unclear(perhaps, at(header)));
			unknown.push({ index, header, perhaps });
			continue;
		}
		const { key, column, number } = known;
		if (isSpareText(known, name, heads)) {
			unknown.push({ index, header, perhaps: "" });
			continue;
		}
		const read = unitOf(column, unit);
		if (read === null) problems.push(unitProblem(known, unit, at(header)));
		matches.push({
			key,
			number: Number(number || 1),
			column,
			kind: read?.kind ?? "ratio",
			unit: read?.unit ?? "unreadable",
			index,
			header,
		});
	}
	return {
		matches,
		unknown,
		problems: [...problems, ...(table.headsByRow ? [] : twice(matches, at))],
	};
}
