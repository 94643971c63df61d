import { listed, type Problem, problem } from "../quantity";
import type { CalibrationKey } from "./calibration-columns";
import type { Instruments } from "./glassware/instruments";
import type { CalibrationStandard } from "./instrument-readings";
import { type MissingCells, missingCells } from "./missing-cells";
import {
	isEmpty,
	numberOf,
	numbersOf,
	type ParsedRow,
	type ParsedTable,
	placeOf,
	textOf,
} from "./parsed-table";
import { buildReadings, checkReadings, filledReadings } from "./reading-cells";
import { byThemselves, readingKeys } from "./reading-columns";

export type CalibrationTable = ParsedTable<CalibrationKey>;

const usualLine = "calibration";

export function lineOf(table: CalibrationTable, row: ParsedRow): string {
	return textOf(table, row, "line") || usualLine;
}

/** The names of the lines, in the order of the table. */
export function lineNames(table: CalibrationTable): string[] {
	return [...new Set(table.rows.map((row) => lineOf(table, row)))];
}

/** What all rows of one line must agree in. */
const ofTheLine = [
	"model",
	"reading error",
	"made from",
	"wavelength",
	"second wavelength",
] as const satisfies readonly CalibrationKey[];

/** A standard has a reading that a line can turn into a concentration, and says at which second wavelength it was read. */
function checkReadingsOf(
	table: CalibrationTable,
	row: ParsedRow,
	missing: MissingCells<CalibrationKey>,
	problems: Problem[],
): void {
	const filled = filledReadings(table, row);
	if (filled.length === 0) {
		const key =
			readingKeys.find((k) => numbersOf(table, k).length > 0) ?? "absorbance #";
		missing.require(
			row,
			key,
			"a reading of the standard",
			numbersOf(table, key)[0] ?? 1,
		);
	}
	if (filled.some((key) => byThemselves.includes(key)))
		problems.push(
			problem(
				"no-line-needed",
				placeOf(table, row, filled[0]),
				"a dry residue among the standards",
				"a reading that a line turns into a concentration",
				"A dry residue is a mass already: it needs no standards.",
			),
		);
	checkReadings(table, row, problems);
	if (
		!isEmpty(table, row, "absorbance at second wavelength") &&
		isEmpty(table, row, "second wavelength")
	)
		missing.require(
			row,
			"second wavelength",
			"the wavelength of the second absorbance",
		);
}

/** A problem where a cell names something that the other table does not have. */
function named(
	table: CalibrationTable,
	row: ParsedRow,
	key: CalibrationKey,
	known: ReadonlySet<string>,
	{ code, expected, mend }: Pick<Problem, "code" | "expected" | "mend">,
): Problem[] {
	const name = textOf(table, row, key);
	return name === "" || known.has(name)
		? []
		: [problem(code, placeOf(table, row, key), `"${name}"`, expected, mend)];
}

/** All problems of the calibration table beyond single cells. */
export function checkCalibration(
	table: CalibrationTable,
	flasks: ReadonlySet<string>,
	solutions: ReadonlySet<string>,
	problems: Problem[],
): void {
	const missing = missingCells(table, problems);
	for (const row of table.rows) {
		missing.require(row, "standard", "a name for the standard");
		missing.require(row, "concentration", "the concentration of the standard");
		checkReadingsOf(table, row, missing, problems);
		problems.push(
			...named(table, row, "read after", flasks, {
				code: "flask-not-found",
				expected: "a flask of the flasks table",
				mend: "Write the name as it stands there.",
			}),
			...named(table, row, "made from", solutions, {
				code: "solution-not-found",
				expected: `a solution of the solutions table: ${[...solutions].map((n) => `"${n}"`).join(", ") || "none yet"}`,
				mend: "Write the name as it stands there, or add a row for it.",
			}),
		);
	}
	missing.report();
	for (const name of lineNames(table)) checkLine(table, name, problems);
}

function rowsOf(table: CalibrationTable, name: string): ParsedRow[] {
	return table.rows.filter((row) => lineOf(table, row) === name);
}

function checkLine(
	table: CalibrationTable,
	name: string,
	problems: Problem[],
): void {
	const rows = rowsOf(table, name);
	const kinds = new Map(
		rows.flatMap((row) =>
			filledReadings(table, row)
				.slice(0, 1)
				.map((key) => [key, row] as const),
		),
	);
	if (kinds.size > 1) {
		const [, [key, row]] = [...kinds];
		problems.push(
			problem(
				"two-instruments",
				placeOf(table, row, key),
				`line "${name}" with readings in ${listed([...kinds.keys()].map((k) => `"${k.replace(" #", "")}"`))}`,
				"one kind of reading a line",
				"Give the standards of each instrument a name of their own in the column `line`.",
			),
		);
	}
	for (const key of ofTheLine) {
		const said = new Map<string, ParsedRow>();
		for (const row of rows) {
			const written =
				key === "wavelength" || key === "second wavelength"
					? String(numberOf(table, row, key)?.value ?? "")
					: textOf(table, row, key);
			if (written !== "" && !said.has(written)) said.set(written, row);
		}
		const [, other] = [...said];
		if (other !== undefined)
			problems.push(
				problem(
					"line-disagrees",
					placeOf(table, other[1], key),
					`"${other[0]}", while another row of line "${name}" has "${[...said.keys()][0]}"`,
					`one ${key} for the whole line`,
					"Write it once, or alike in all rows of the line.",
				),
			);
	}
}

/** The rows of the calibration table; only after the checks found nothing. */
export function buildCalibration(
	table: CalibrationTable,
	instruments: Instruments,
	assumptions: Set<string>,
): CalibrationStandard[] {
	return lineNames(table).flatMap((line) => {
		const rows = rowsOf(table, line);
		const ofLine = (key: CalibrationKey): string =>
			rows.map((row) => textOf(table, row, key)).find((t) => t !== "") ?? "";
		const nanometres = (key: "wavelength" | "second wavelength"): number =>
			rows
				.map((row) => numberOf(table, row, key)?.value ?? 0)
				.find((v) => v > 0) ?? 0;
		return rows.map((row): CalibrationStandard => {
			const concentration = numberOf(table, row, "concentration");
			const standard = textOf(table, row, "standard");
			return {
				line,
				standard,
				concentration: concentration?.value ?? 0,
				unit: concentration?.unit ?? "mg/L",
				readings: buildReadings(
					table,
					row,
					`standard ${standard} in row ${row.row}`,
					line,
					instruments,
					assumptions,
				),
				readAfter: textOf(table, row, "read after"),
				madeFrom: ofLine("made from"),
				model: (ofLine("model") || "straight") as CalibrationStandard["model"],
				readingError: (ofLine("reading error") ||
					"alike") as CalibrationStandard["readingError"],
				wavelength: nanometres("wavelength"),
				secondWavelength: nanometres("second wavelength"),
				marks: [],
				place: placeOf(table, row, "standard"),
			};
		});
	});
}
