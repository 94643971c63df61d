import { type Problem, problem, quoted } from "../quantity";
import { controlByName } from "./control-names";
import { contentsOf, type FlaskTable } from "./flask-table";
import { rowList } from "./missing-cells";
import {
	cellOf,
	type ParsedRow,
	placeOf,
	textOf,
	unreadable,
} from "./parsed-table";
import { spelling, spellingProblems } from "./spelling";

export interface Controls {
	/** Treatment -> the treatment that it is compared with; "" for a control. */
	readonly of: ReadonlyMap<string, string>;
	/** The control that was found by its name; "" where rows name one. */
	readonly byName: string;
	readonly assumptions: readonly string[];
}

/** Finds out which treatment each one is compared with, and everything that is wrong with it. */
export function findControls(table: FlaskTable, problems: Problem[]): Controls {
	const rows = table.rows.filter((row) => {
		if (cellOf(table, row, "contents") === unreadable) return false;
		const contents = contentsOf(table, row);
		return contents === "char" || contents === "leachate";
	});
	checkSpellings(table, rows, problems);
	const chars = rows.filter((row) => contentsOf(table, row) === "char");
	const treatments = new Set(
		chars.map((row) => textOf(table, row, "treatment")).filter((t) => t !== ""),
	);
	checkLeachates(table, rows, treatments, problems);
	const named = namedControls(table, chars, problems);
	if (treatments.size === 0)
		return { of: new Map(), byName: "", assumptions: [] };
	if ([...named.values()].every((v) => v.control === ""))
		return defaultControl(table, treatments, problems);
	return checkedControls(table, treatments, named, problems);
}

function checkSpellings(
	table: FlaskTable,
	rows: readonly ParsedRow[],
	problems: Problem[],
): void {
	const names = (["treatment", "control"] as const).flatMap((key) =>
		rows.map((row) => ({
			text: textOf(table, row, key),
			row: row.row,
			place: placeOf(table, row, key),
		})),
	);
	problems.push(...spellingProblems(names, "treatment"));
}

function checkLeachates(
	table: FlaskTable,
	rows: readonly ParsedRow[],
	treatments: ReadonlySet<string>,
	problems: Problem[],
): void {
	const keys = new Set([...treatments].map(spelling));
	for (const row of rows) {
		const text = textOf(table, row, "treatment");
		if (
			contentsOf(table, row) === "leachate" &&
			text !== "" &&
			!keys.has(spelling(text))
		)
			problems.push(
				problem(
					"leachate-without-char",
					placeOf(table, row, "treatment"),
					`a leachate of "${text}", which no char flask has as its treatment`,
					`one of ${list(treatments)}`,
					"Write the treatment as in the char rows, or take the row away.",
				),
			);
	}
}

const list = (names: Iterable<string>): string =>
	[...names].map(quoted).join(", ");

interface Named {
	readonly control: string;
	readonly row: ParsedRow;
	readonly rows: number[];
}

/** What the rows of each treatment say; a row that names its own treatment is a control's. */
function namedControls(
	table: FlaskTable,
	chars: readonly ParsedRow[],
	problems: Problem[],
): Map<string, Named> {
	const named = new Map<string, Named>();
	for (const row of chars) {
		const treatment = textOf(table, row, "treatment");
		if (treatment === "") continue;
		const written = textOf(table, row, "control");
		const control = written === treatment ? "" : written;
		const known = named.get(treatment);
		if (known === undefined || (known.control === "" && control !== ""))
			named.set(treatment, {
				control,
				row,
				rows: [...(known?.rows ?? []), row.row],
			});
		else {
			known.rows.push(row.row);
			if (control !== "" && control !== known.control)
				problems.push(
					problem(
						"control-inconsistent",
						placeOf(table, row, "control"),
						`${quoted(control)} for ${quoted(treatment)}, while row ${known.row.row} compares it with ${quoted(known.control)}`,
						"one control for each treatment",
						"Write the same control in all rows of a treatment.",
					),
				);
		}
	}
	return named;
}

function checkedControls(
	table: FlaskTable,
	treatments: ReadonlySet<string>,
	named: ReadonlyMap<string, Named>,
	problems: Problem[],
): Controls {
	const of = new Map<string, string>();
	const controls = new Set([...named.values()].map((n) => n.control));
	const spelt = new Set([...treatments].map(spelling));
	for (const [treatment, { control, row, rows }] of named) {
		of.set(treatment, control);
		if (control === "") {
			if (!controls.has(treatment))
				problems.push(
					problem(
						"control-not-said",
						placeOf(table, row, "control"),
						`no control for ${quoted(treatment)} (rows ${rowList(rows)}), and nothing is compared with it`,
						`one of ${list([...controls].filter((c) => c !== ""))}`,
						"Name its control, or name it as the control of others.",
					),
				);
		} else if (!treatments.has(control)) {
			// A control that differs in spelling only was asked about already.
			if (!spelt.has(spelling(control)))
				problems.push(
					problem(
						"control-not-found",
						placeOf(table, row, "control"),
						`${quoted(control)} as the control of ${quoted(treatment)}, which no char flask has as its treatment`,
						treatments.size < 2
							? "a treatment that char flasks of the sheet have"
							: `one of ${list([...treatments].filter((t) => t !== treatment))}`,
						"Write the name as in the column `treatment`, or add the control's flasks.",
					),
				);
		} else if (named.get(control)?.control !== "")
			problems.push(
				problem(
					"control-of-control",
					placeOf(table, row, "control"),
					`${quoted(control)} as the control of ${quoted(treatment)}, while ${quoted(control)} is itself compared with ${quoted(named.get(control)?.control ?? "")}`,
					"a control that is not compared with anything itself",
					"Leave the control empty in the rows of the control, or compare both with the same one.",
				),
			);
	}
	return { of, byName: "", assumptions: [] };
}

function defaultControl(
	table: FlaskTable,
	treatments: ReadonlySet<string>,
	problems: Problem[],
): Controls {
	const where = {
		file: table.raw.file,
		sheet: table.raw.sheet,
		row: table.raw.headerRow,
		column: "control",
	};
	// A single char (an isotherm, an iodine number) is compared with nothing.
	if (treatments.size === 1)
		return {
			of: new Map([...treatments].map((t) => [t, ""])),
			byName: "",
			assumptions: [],
		};
	const { is, names } = controlByName([...treatments]);
	if (is === "one")
		return {
			of: new Map(
				[...treatments].map((t) => [t, t === names[0] ? "" : names[0]]),
			),
			byName: names[0],
			assumptions: [
				`No row names a control: ${quoted(names[0])} is taken as the control of every other treatment.`,
			],
		};
	problems.push(
		is === "several"
			? problem(
					"control-ambiguous",
					where,
					`no control named, and ${names.length} treatments that could be it: ${list(names)}`,
					`the control of each treatment: the treatments are ${list(treatments)}`,
					"Fill the column `control` in the rows of the treatments and leave it empty in the rows of the controls.",
				)
			: problem(
					"control-missing",
					where,
					`no control named, and none of ${list(treatments)} is by its whole name a control ("control", "untreated", "raw char", "water only" and the like are)`,
					"a control to compare the treatments with",
					"Write the name of its control in the column `control` of each treated row (such as the treatment that was handled alike with water), and leave it empty in the rows of the control.",
				),
	);
	return { of: new Map(), byName: "", assumptions: [] };
}
