import {
	exact,
	input,
	normal,
	type Quantity,
	rectangular,
	stated,
	toBase,
	type UnitOf,
} from "../quantity";
import { readingOf, sourceOf } from "./cell-source";
import type { FlaskKey } from "./columns";
import { type EventCell, flaskEvents } from "./flask-events";
import { solutionFor } from "./flask-solutions";
import {
	contentsOf,
	type FlaskSurroundings,
	isRead,
	titrationsOf,
} from "./flask-table";
import type { Instruments } from "./glassware/instruments";
import type { VolumeUse } from "./glassware/piece";
import type { InstrumentReadings } from "./instrument-readings";
import { moistureOf } from "./moisture";
import {
	extraOf,
	isEmpty,
	momentOf,
	type NumberCell,
	numberOf,
	type ParsedRow,
	placeOf,
	textOf,
} from "./parsed-table";
import { buildReadings, withdrawnReading } from "./reading-cells";
import { soakingOf } from "./soaking-build";
import type {
	Flask,
	FlaskEvent,
	Recorded,
	TitrationReading,
	YesNo,
} from "./trial";

export interface FlaskBuilder extends FlaskSurroundings {
	readonly instruments: Instruments;
	readonly controls: ReadonlyMap<string, string>;
	readonly assumptions: Set<string>;
}

const notRecorded = { recorded: false } as const;
const noAliquot: Quantity<"volume"> = input("volume", 0, "mL", exact, {
	symbol: "V_{\\text{aliquot}}",
	source: stated("no aliquot named, and none used"),
});

/** Symbols and meanings are made once for a column, not once for a cell. */
const texts = new Map<string, { symbol: string; meaning: string }>();
function textsFor(
	symbol: string,
	meaning: string,
): { symbol: string; meaning: string } {
	const known = texts.get(meaning);
	if (known) return known;
	const made = { symbol: `${symbol}_{\\text{${meaning}}}`, meaning };
	texts.set(meaning, made);
	return made;
}

function volume(
	b: FlaskBuilder,
	row: ParsedRow,
	cell: NumberCell,
	use: VolumeUse,
	meaning: string,
): Quantity<"volume"> {
	const { symbol } = textsFor("V", meaning);
	return b.instruments.volume(
		use,
		readingOf(b.table, row, cell, symbol, meaning),
	);
}

/** A volume that may be empty. */
function recordedVolume(
	b: FlaskBuilder,
	row: ParsedRow,
	key: FlaskKey,
	use: VolumeUse,
): Recorded<Quantity<"volume">> {
	const cell = numberOf(b.table, row, key);
	return cell === null
		? notRecorded
		: { recorded: true, value: volume(b, row, cell, use, key) };
}

/** Liquor retained is worked out from weighings of drained char, or from what ran off: relative standard uncertainty. Our decision. */
export const liquorSpread = 0.1;

function liquorOf(
	b: FlaskBuilder,
	row: ParsedRow,
): Recorded<Quantity<"volume">> {
	const cell = numberOf(b.table, row, "liquor retained");
	if (cell === null) return notRecorded;
	b.assumptions.add(
		`Liquor retained is taken as good to ${100 * liquorSpread} % of its value.`,
	);
	return {
		recorded: true,
		value: input(
			"volume",
			cell.value,
			cell.unit as UnitOf<"volume">,
			normal(liquorSpread * Math.abs(cell.value)),
			{
				symbol: "V_{\\text{liquor}}",
				meaning: "liquor retained",
				source: sourceOf(b.table, row, cell.header),
				scope: "reading",
			},
		),
	};
}

function eventsOf(b: FlaskBuilder, row: ParsedRow): FlaskEvent[] {
	return flaskEvents(b.table, row).map((e) => eventFrom(b, row, e));
}

function eventFrom(
	b: FlaskBuilder,
	row: ParsedRow,
	{ is, number, cell }: EventCell,
): FlaskEvent {
	const c = cell as NumberCell;
	switch (is) {
		case "dose":
			return {
				is,
				volume: volume(b, row, c, "dose", `dose ${number}`),
				solution: solutionFor(b, row, "dose # of", number, "iodine"),
			};
		case "liquid added":
			return {
				is,
				volume: volume(b, row, c, "liquid added", `liquid added ${number}`),
			};
		case "made up": {
			const charIn = textOf(b.table, row, "char in when made up");
			if (
				contentsOf(b.table, row) === "char" &&
				charIn !== "yes" &&
				charIn !== "no"
			)
				b.assumptions.add(
					"Flasks were made up with the char in them where the sheet does not say.",
				);
			return {
				is,
				volume: volume(b, row, c, "made up", "made up to"),
				charIn: charIn !== "no",
			};
		}
		case "withdrawn":
			return withdrawal(b, row, number, c);
	}
}

function withdrawal(
	b: FlaskBuilder,
	row: ParsedRow,
	n: number,
	cell: NumberCell,
): FlaskEvent {
	const out = volume(b, row, cell, "withdrawn", `withdrawn ${n}`);
	const after = timeSinceDosing(b, row, "withdrawn # at", n);
	const read = numberOf(b.table, row, "withdrawn # reading", n);
	if (isRead(b.table, row) && read !== null)
		return {
			is: "withdrawn and read",
			volume: out,
			readings: withdrawnReading(
				b.table,
				row,
				read,
				readingsOf(b, row),
				`what was withdrawn (${n}) from flask ${textOf(b.table, row, "flask")}`,
			),
			after,
		};
	const titre = numberOf(b.table, row, "withdrawn # titre", n) as NumberCell;
	const part = numberOf(b.table, row, "withdrawn # aliquot", n);
	if (part === null)
		b.assumptions.add(
			"The whole of what was withdrawn was titrated where the sheet names no aliquot of it.",
		);
	return {
		is: "withdrawn",
		volume: out,
		aliquot:
			part === null
				? out
				: volume(b, row, part, "aliquot", `aliquot of withdrawn ${n}`),
		titration: titreReading(b, row, titre, `titre of withdrawn ${n}`),
		after,
	};
}

function titreReading(
	b: FlaskBuilder,
	row: ParsedRow,
	cell: NumberCell,
	meaning: string,
	n = 1,
): TitrationReading {
	const { symbol } = textsFor("V", meaning);
	const ml = toBase("volume", cell.value, cell.unit) * 1000;
	return {
		is: "titre",
		number: n,
		titre: b.instruments.titre(
			"titre",
			readingOf(b.table, row, cell, symbol, meaning),
		),
		calibration: b.instruments.titreCalibration("titre", ml, 0),
		titrant: solutionFor(b, row, "titrated with", 1, "thiosulfate"),
		marks: [],
		place: { ...placeOf(b.table, row, "flask"), column: cell.header },
	};
}

function titration(
	b: FlaskBuilder,
	row: ParsedRow,
	n: number,
): TitrationReading {
	const read = (key: FlaskKey): NumberCell | null =>
		numberOf(b.table, row, key, n);
	const [start, end, from, to] = [
		read("burette start #"),
		read("burette end #"),
		read("refilled at #"),
		read("refilled to #"),
	];
	if (start === null || end === null)
		return titreReading(b, row, read("titre #") as NumberCell, `titre ${n}`, n);
	const reading = (cell: NumberCell, what: string): Quantity<"volume"> => {
		const { symbol, meaning } = textsFor("V", `${what} ${n}`);
		return b.instruments.buretteReading(
			"titre",
			readingOf(b.table, row, cell, symbol, meaning),
		);
	};
	const ml = (cell: NumberCell): number =>
		toBase("volume", cell.value, cell.unit) * 1000;
	const refilled = from !== null && to !== null;
	const delivered = refilled
		? ml(from) - ml(start) + ml(end) - ml(to)
		: ml(end) - ml(start);
	return {
		is: "burette",
		number: n,
		start: reading(start, "burette start"),
		end: reading(end, "burette end"),
		refills: refilled
			? [{ from: reading(from, "refilled at"), to: reading(to, "refilled to") }]
			: [],
		calibration: b.instruments.titreCalibration(
			"titre",
			delivered,
			refilled ? 1 : 0,
		),
		titrant: solutionFor(b, row, "titrated with", 1, "thiosulfate"),
		marks: [],
		place: { ...placeOf(b.table, row, "flask"), column: end.header },
	};
}

/** How long the char had stood by a time that the sheet records. */
function timeSinceDosing(
	b: FlaskBuilder,
	row: ParsedRow,
	until: "titrated at" | "withdrawn # at",
	number = 1,
): Recorded<Quantity<"time">> {
	const dosed = momentOf(b.table, row, "dosed at");
	const then = momentOf(b.table, row, until, number);
	if (!dosed?.hasTime || !then?.hasTime) return notRecorded;
	const minutes = (then.date.getTime() - dosed.date.getTime()) / 60_000;
	return {
		recorded: true,
		// Two times, each written to the minute.
		value: input(
			"time",
			minutes,
			"min",
			normal(Math.SQRT2 * rectangular(0.5).standardUncertainty),
			{
				symbol: "t",
				meaning: "contact time",
				source: sourceOf(
					b.table,
					row,
					placeOf(b.table, row, until, number).column,
				),
				scope: "reading",
			},
		),
	};
}

function readingsOf(b: FlaskBuilder, row: ParsedRow): InstrumentReadings {
	return buildReadings(
		b.table,
		row,
		`flask ${textOf(b.table, row, "flask")}`,
		textOf(b.table, row, "read on"),
		b.instruments,
		b.assumptions,
	);
}

type Part<K extends keyof Flask> = Pick<Flask, K>;

function charOf(
	b: FlaskBuilder,
	row: ParsedRow,
	withChar: boolean,
): Part<"charMass" | "massBasis" | "moisture"> {
	const { table } = b;
	const basis = textOf(table, row, "mass basis");
	const cell = withChar ? numberOf(table, row, "char mass") : null;
	if (withChar && basis === "")
		b.assumptions.add(
			"Char masses are as weighed where the sheet does not say.",
		);
	return {
		charMass:
			cell === null
				? notRecorded
				: {
						recorded: true,
						value: b.instruments.mass(
							"char mass",
							readingOf(table, row, cell, "m_{\\text{char}}", "char mass"),
						),
					},
		massBasis: basis === "dry" ? "dry" : "as weighed",
		moisture: isEmpty(table, row, "char mass")
			? notRecorded
			: moistureOf(table, row),
	};
}

function finalPHOf(b: FlaskBuilder, row: ParsedRow): Flask["finalPH"] {
	const cell = numberOf(b.table, row, "final ph");
	if (cell === null) return notRecorded;
	return {
		recorded: true,
		value: input("pH", cell.value, "pH", exact, {
			symbol: "\\text{pH}",
			meaning: "final pH",
			source: sourceOf(b.table, row, cell.header),
			scope: "reading",
		}),
	};
}

function timesOf(
	b: FlaskBuilder,
	row: ParsedRow,
): Part<"dosedAt" | "titratedAt" | "contactTime"> {
	const at = (key: "dosed at" | "titrated at"): Recorded<Date> => {
		const moment = momentOf(b.table, row, key);
		return moment === null
			? notRecorded
			: { recorded: true, value: moment.date };
	};
	return {
		dosedAt: at("dosed at"),
		titratedAt: at("titrated at"),
		contactTime: timeSinceDosing(b, row, "titrated at"),
	};
}

/** What the sheet answers with yes or no; an empty cell is "not recorded". */
function answersOf(
	b: FlaskBuilder,
	row: ParsedRow,
): Part<
	| "soakConsumesIodine"
	| "acidified"
	| "firstRunningsDiscarded"
	| "blueReturned"
	| "acidBoiled"
	| "groundFine"
	| "lid"
> {
	const yesNo = (key: FlaskKey): YesNo =>
		(textOf(b.table, row, key) || "not recorded") as YesNo;
	return {
		soakConsumesIodine: yesNo("soak consumes iodine"),
		acidified: yesNo("acidified"),
		firstRunningsDiscarded: yesNo("first runnings discarded"),
		blueReturned: yesNo("blue returned"),
		acidBoiled: yesNo("acid boiled"),
		groundFine: yesNo("ground fine"),
		lid: yesNo("lid"),
	};
}

/** File names separated by semicolons. */
const fileNames = (cell: string): string[] =>
	cell
		.split(";")
		.map((file) => file.trim())
		.filter((file) => file !== "");

/** A row as a flask; only after the checks found nothing. `index` is the row's place in the table. */
export function buildFlask(
	b: FlaskBuilder,
	row: ParsedRow,
	index: number,
): Flask {
	const { table } = b;
	const text = (key: FlaskKey): string => textOf(table, row, key);
	const contents = contentsOf(table, row);
	const treatment = text("treatment");
	const aliquot = numberOf(table, row, "aliquot");
	return {
		name: text("flask"),
		contents,
		treatment,
		control: contents === "char" ? (b.controls.get(treatment) ?? "") : "",
		sample: text("sample"),
		charBatch: text("char batch"),
		soak: text("soak"),
		soakedIn: text("soaked in"),
		soaking: soakingOf(table, row),
		replicate: text("replicate"),
		day: text("day"),
		...charOf(b, row, contents === "char" || contents === "leachate"),
		events: contents === "reagent blank" ? [] : eventsOf(b, row),
		aliquot:
			aliquot === null
				? noAliquot
				: volume(b, row, aliquot, "aliquot", "aliquot"),
		titrations: titrationsOf(table, row).map((n) => titration(b, row, n)),
		readings: isRead(table, row)
			? { recorded: true, value: readingsOf(b, row) }
			: notRecorded,
		liquorRetained: liquorOf(b, row),
		leachateVolume: recordedVolume(b, row, "leachate", "leachate"),
		leachateTaken: recordedVolume(b, row, "leachate taken", "aliquot"),
		...answersOf(b, row),
		finalPH: finalPHOf(b, row),
		...timesOf(b, row),
		particleSize: text("particle size"),
		photographs: fileNames(text("photograph")),
		photographShows: text("photograph shows"),
		notes: text("notes"),
		extra: extraOf(table, table.raw.rows[index].cells),
		marks: [],
		place: placeOf(table, row, "flask"),
	};
}
