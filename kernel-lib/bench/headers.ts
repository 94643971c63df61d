import { type Kind, type Problem, problem, readUnit } from "../quantity";
import type { Column } from "./column";
import { headerText, type SheetName } from "./columns";
import { type RawTable, tidy } from "./raw-table";
import { formOf, type TableForm } from "./table-form";

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

interface Pattern {
	readonly key: string;
	readonly column: Column;
	readonly test: RegExp;
}

const patterns = new WeakMap<TableForm["columns"], readonly Pattern[]>();

function patternsOf(sheet: SheetName | TableForm): readonly Pattern[] {
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

/** "Dose  1 [ml]" -> name "dose 1", unit "ml". */
function splitHeader(header: string): { name: string; unit: string } {
	const m = /^(.*?)\s*[([]([^()[\]]*)[)\]]$/.exec(header);
	return {
		name: (m ? m[1] : header).toLowerCase(),
		unit: m ? m[2].trim() : "",
	};
}

/** Number of letters added, lost, changed or swapped with their neighbour between two words; 3 where it is at least that by length alone. */
export function distance(a: string, b: string): number {
	if (Math.abs(a.length - b.length) > 2) return 3;
	const d = Array.from({ length: a.length + 1 }, (_, i) => [i]);
	d[0] = Array.from({ length: b.length + 1 }, (_, j) => j);
	for (let i = 1; i <= a.length; i++)
		for (let j = 1; j <= b.length; j++) {
			const same = a[i - 1] === b[j - 1];
			d[i][j] = Math.min(
				d[i - 1][j] + 1,
				d[i][j - 1] + 1,
				d[i - 1][j - 1] + (same ? 0 : 1),
			);
			if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
				d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
		}
	return d[a.length][b.length];
}

/** The known column that a header was perhaps meant for: same letters, or at most two of them different (one in short words). */
function nearMiss(
	sheet: SheetName | TableForm,
	name: string,
): { key: string; column: Column; number: string } | null {
	const letters = (s: string): string => s.replace(/[^a-z]/g, "");
	const written = letters(name);
	if (written.length < 3) return null;
	let best: { key: string; column: Column } | null = null;
	let least = 3;
	for (const { key, column } of patternsOf(sheet)) {
		const d = distance(written, letters(key));
		const allowed = letters(key).length <= 6 ? 1 : 2;
		if (d <= allowed && d < least) {
			least = d;
			best = { key, column };
		}
	}
	return best === null
		? null
		: { ...best, number: /\d+/.exec(name)?.[0] ?? "" };
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

/** Recognises the columns of a table. Case, extra spaces and the kind of bracket do not matter; everything unknown is carried along. */
export function readHeaders(
	table: RawTable,
	sheet: SheetName | TableForm,
): Headers {
	const matches: ColumnMatch[] = [];
	const unknown: { index: number; header: string; perhaps: string }[] = [];
	const problems: Problem[] = [];
	const at = (header: string): Parameters<typeof problem>[1] => ({
		file: table.file,
		sheet: table.sheet,
		row: table.headerRow,
		column: header,
	});
	table.headers.forEach((raw, index) => {
		const header = tidy(raw);
		const filled = table.rows.some((r) => (r.cells[index] ?? "") !== "");
		if (header === "") {
			if (filled)
				unknown.push({ index, header: `(column ${index + 1})`, perhaps: "" });
			return;
		}
		const { name, unit } = splitHeader(header);
		for (const { key, column, test } of patternsOf(sheet)) {
			const m = test.exec(name);
			if (m === null) continue;
			const number = Number(m[1] ?? 1);
			const read = unitOf(column, unit);
			if (read === null) {
				const units =
					column.holds.is === "number" ? column.holds.units.join(", ") : "";
				const example = headerText(
					key,
					m[1] ?? "",
					column.holds.is === "number" ? column.holds.units[0] : "",
				);
				problems.push(
					problem(
						unit === "" ? "unit-missing" : "unit-unknown",
						at(header),
						unit === "" ? "no unit" : `the unit "${unit}"`,
						`one of the units ${units} in round brackets`,
						`Write it after the name of the column, e.g. "${example}".`,
					),
				);
			}
			matches.push({
				key,
				number,
				column,
				kind: read?.kind ?? "ratio",
				unit: read?.unit ?? "unreadable",
				index,
				header,
			});
			return;
		}
		const near = nearMiss(sheet, name);
		const usual =
			near?.column.holds.is === "number"
				? (near.column.holds.units[0] ?? "")
				: "";
		const perhaps = near ? headerText(near.key, near.number, usual) : "";
		if (near?.column.counts && filled)
			problems.push(
				problem(
					"column-unclear",
					at(header),
					`a column that is nearly "${perhaps}"`,
					"the exact name, or one that cannot be mistaken for it",
					`If "${perhaps}" is meant, rename the column to that; if not, give it a name that differs more. It would change the results.`,
				),
			);
		unknown.push({ index, header, perhaps });
	});
	for (const [i, m] of matches.entries()) {
		const first = matches.slice(0, i).find(
			(o) =>
				o.key === m.key &&
				o.number === m.number &&
				// One concentration column for each unit is fine; each row fills one of them.
				(o.unit === m.unit ||
					m.column.holds.is !== "number" ||
					m.column.holds.kinds.length < 2),
		);
		if (first && !table.headsByRow)
			problems.push(
				problem(
					"column-twice",
					at(m.header),
					`two columns for the same thing: "${first.header}" and "${m.header}"`,
					"one column for each thing",
					m.key.includes("#")
						? `Number them, e.g. "${headerText(m.key, "1", m.unit)}" and "${headerText(m.key, "2", m.unit)}", or take one away.`
						: "Rename one of them or take it away.",
				),
			);
	}
	return { matches, unknown, problems };
}
