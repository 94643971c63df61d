import type {
	Kind,
	Quantity,
	Table,
	TableCell,
	TypedNumber,
} from "../quantity";
import {
	fixedDigits,
	fromBase,
	table,
	toBase,
	typedDecimals,
	type UnitOf,
} from "../quantity";
import { isUsable } from "./deviations";
import { requireTrial } from "./require-trial";
import type { Flask, Recorded, TitrationReading, Trial } from "./trial";

/** A column of readings: how its head is written and what stands in it; null where nothing was recorded. */
export interface ReadingColumn<T> {
	readonly name: string;
	readonly cell: (row: T) => string | Quantity | null;
}
type FlaskColumn = ReadingColumn<Flask>;

export function text<T>(
	name: string,
	cell: (row: T) => string,
): ReadingColumn<T> {
	return { name, cell };
}
export function recorded<T>(
	name: string,
	cell: (row: T) => Recorded<Quantity>,
): ReadingColumn<T> {
	return {
		name,
		cell: (row) => {
			const r = cell(row);
			return r.recorded ? r.value : null;
		},
	};
}
/** YYYY-MM-DD hh:mm, without a zone, as it was written. */
const moment = (r: Recorded<Date>): string =>
	r.recorded
		? r.value.toISOString().slice(0, 16).replace("T", " ").replace(" 00:00", "")
		: "";
const said = (word: string): string => (word === "not recorded" ? "" : word);

function most(trial: Trial, count: (flask: Flask) => number): number[] {
	const n = trial.flasks.reduce((m, f) => Math.max(m, count(f)), 0);
	return Array.from({ length: n }, (_, i) => i);
}

function eventColumns(trial: Trial): FlaskColumn[] {
	const of = <Is extends Flask["events"][number]["is"]>(
		flask: Flask,
		is: Is,
	): Extract<Flask["events"][number], { is: Is }>[] =>
		flask.events.filter(
			(e): e is Extract<Flask["events"][number], { is: Is }> => e.is === is,
		);
	const volumes = (
		is: Flask["events"][number]["is"],
		name: (i: number) => string,
	): FlaskColumn[] =>
		most(trial, (f) => of(f, is).length).map((i) => ({
			name: name(i),
			cell: (f) => of(f, is)[i]?.volume ?? null,
		}));
	return [
		...most(trial, (f) => of(f, "dose").length).flatMap((i): FlaskColumn[] => [
			{
				name: `dose ${i + 1}`,
				cell: (f) => of(f, "dose")[i]?.volume ?? null,
			},
			text(`dose ${i + 1} of`, (f) => of(f, "dose")[i]?.solution ?? ""),
		]),
		...volumes("liquid added", (i) => `liquid added ${i + 1}`),
		...most(trial, (f) => of(f, "withdrawn").length).flatMap(
			(i): FlaskColumn[] => [
				{
					name: `withdrawn ${i + 1}`,
					cell: (f) => of(f, "withdrawn")[i]?.volume ?? null,
				},
				{
					name: `withdrawn ${i + 1} titre`,
					cell: (f) => {
						const w = of(f, "withdrawn")[i]?.titration;
						return w?.is === "titre" ? w.titre : null;
					},
				},
				recorded(
					`withdrawn ${i + 1} after`,
					(f) => of(f, "withdrawn")[i]?.after ?? { recorded: false },
				),
			],
		),
		...volumes("withdrawn and read", (i) => `withdrawn ${i + 1}`),
		...most(trial, (f) => of(f, "withdrawn and read").length).map(
			(i): FlaskColumn => ({
				name: `withdrawn ${i + 1} reading`,
				cell: (f) => of(f, "withdrawn and read")[i]?.readings.values[0] ?? null,
			}),
		),
		...volumes("made up", () => "made up to"),
	];
}

function titrationColumns(trial: Trial): FlaskColumn[] {
	return most(trial, (f) => f.titrations.length).flatMap((i) => {
		const pick = (
			name: string,
			cell: (t: TitrationReading) => Quantity<"volume"> | null,
		): FlaskColumn => ({
			name: `${name} ${i + 1}`,
			cell: (f) => (f.titrations[i] ? cell(f.titrations[i]) : null),
		});
		return [
			pick("titre", (t) => (t.is === "titre" ? t.titre : null)),
			pick("burette start", (t) => (t.is === "burette" ? t.start : null)),
			pick("burette end", (t) => (t.is === "burette" ? t.end : null)),
			pick("refilled at", (t) =>
				t.is === "burette" ? (t.refills[0]?.from ?? null) : null,
			),
			pick("refilled to", (t) =>
				t.is === "burette" ? (t.refills[0]?.to ?? null) : null,
			),
		];
	});
}

/** Readings of instruments, each kind in columns of its own, as many as the fullest flask has. */
function instrumentColumns(trial: Trial): FlaskColumn[] {
	const own = (f: Flask, kind: string) =>
		f.readings.recorded && f.readings.value.kind === kind
			? f.readings.value
			: null;
	const kinds = [
		...new Set(
			trial.flasks.flatMap((f) =>
				f.readings.recorded ? [f.readings.value.kind] : [],
			),
		),
	];
	return [
		...kinds.flatMap((kind) =>
			most(trial, (f) => own(f, kind)?.values.length ?? 0).map(
				(i): FlaskColumn => ({
					name: `${kind === "pH" ? "pH reading" : kind} ${i + 1}`,
					cell: (f) => own(f, kind)?.values[i] ?? null,
				}),
			),
		),
		recorded("absorbance at second wavelength", (f) =>
			f.readings.recorded ? f.readings.value.second : { recorded: false },
		),
		recorded("white intensity", (f) =>
			f.readings.recorded ? f.readings.value.white : { recorded: false },
		),
		{
			name: "dilution",
			cell: (f) =>
				f.readings.recorded && f.readings.value.dilution.value !== 1
					? f.readings.value.dilution
					: null,
		},
		text("read on", (f) => (f.readings.recorded ? f.readings.value.line : "")),
	];
}

/** Every determination of the moisture. */
function moistureColumns(trial: Trial): FlaskColumn[] {
	return (["wet", "dry"] as const).flatMap((basis) => {
		const of = (f: Flask): readonly Quantity[] =>
			f.moisture.recorded && f.moisture.value.basis === basis
				? f.moisture.value.determinations
				: [];
		const numbers = most(trial, (f) => of(f).length);
		return numbers.map(
			(i): FlaskColumn => ({
				name: `moisture, ${basis} basis${numbers.length > 1 ? ` ${i + 1}` : ""}`,
				cell: (f) => of(f)[i] ?? null,
			}),
		);
	});
}

/** What the sheet says of soaks and rinses. */
function soakingColumns(trial: Trial): FlaskColumn[] {
	return [
		recorded("soak strength", (f) => f.soaking.strength as Recorded<Quantity>),
		...most(trial, (f) => f.soaking.rinses.length).map(
			(i): FlaskColumn => ({
				name: `rinse ${i + 1}`,
				cell: (f) => f.soaking.rinses[i] ?? null,
			}),
		),
		recorded("char rinsed", (f) => f.soaking.charRinsed),
		recorded("last rinse pH", (f) => f.soaking.lastRinse.pH),
		recorded(
			"last rinse conductivity",
			(f) => f.soaking.lastRinse.conductivity,
		),
		recorded("last rinse demand", (f) => f.soaking.lastRinse.demand),
		recorded("fired after soak", (f) => f.soaking.firedAfter),
	];
}

function columnsOf(trial: Trial): FlaskColumn[] {
	const extra = new Set(trial.flasks.flatMap((f) => Object.keys(f.extra)));
	return [
		text("flask", (f) => f.name),
		text("contents", (f) =>
			f.readings.recorded && f.contents === "iodine blank"
				? "dye blank"
				: f.contents,
		),
		text("treatment", (f) => f.treatment),
		text("control", (f) => f.control),
		text("sample", (f) => f.sample),
		text("char batch", (f) => f.charBatch),
		text("soak", (f) => f.soak),
		text("soaked in", (f) => f.soakedIn),
		...soakingColumns(trial),
		text("soak consumes iodine", (f) => said(f.soakConsumesIodine)),
		text("replicate", (f) => f.replicate),
		text("day", (f) => f.day),
		recorded("char mass", (f) => f.charMass),
		text("mass basis", (f) => (f.charMass.recorded ? f.massBasis : "")),
		...moistureColumns(trial),
		recorded(
			"moisture uncertainty",
			(f): Recorded<Quantity> =>
				f.moisture.recorded
					? f.moisture.value.uncertainty
					: { recorded: false },
		),
		recorded("liquor retained", (f) => f.liquorRetained),
		recorded("leachate", (f) => f.leachateVolume),
		recorded("leachate taken", (f) => f.leachateTaken),
		...eventColumns(trial),
		{
			name: "aliquot",
			cell: (f) => (f.aliquot.value > 0 ? f.aliquot : null),
		},
		...titrationColumns(trial),
		...instrumentColumns(trial),
		text("titrated with", (f) => f.titrations[0]?.titrant ?? ""),
		text("acidified", (f) => said(f.acidified)),
		recorded("final pH", (f) => f.finalPH),
		text("first runnings discarded", (f) => said(f.firstRunningsDiscarded)),
		text("blue returned", (f) => said(f.blueReturned)),
		text("acid boiled", (f) => said(f.acidBoiled)),
		text("ground fine", (f) => said(f.groundFine)),
		text("lid", (f) => said(f.lid)),
		text("dosed at", (f) => moment(f.dosedAt)),
		text("titrated at", (f) => moment(f.titratedAt)),
		recorded("contact time", (f) => f.contactTime),
		text("particle size", (f) => f.particleSize),
		text("photograph", (f) => f.photographs.join("; ")),
		text("photograph shows", (f) => f.photographShows),
		text("left out", (f) => (isUsable(f) ? "" : "yes")),
		text("notes", (f) => f.notes),
		...[...extra].map((name) => text<Flask>(name, (f) => f.extra[name] ?? "")),
	];
}

/** A column in the unit of its first number, which goes into its head. */
function written(
	name: string,
	cells: readonly (string | Quantity | null)[],
): { head: string; cells: TableCell[] } | null {
	const first = cells.find(
		(c): c is Quantity => c !== null && typeof c !== "string",
	);
	if (first === undefined)
		return cells.every((c) => c === null || c === "")
			? null
			: {
					head: name,
					cells: cells.map((c) => (typeof c === "string" ? c : "")),
				};
	const unit = first.unit as UnitOf<Kind>;
	const bare =
		unit === "pH" ||
		unit === "absorbance" ||
		/^(intensity|white|dilution)/.test(name);
	return {
		head: bare ? name : `${name} (${unit === "1" ? "fraction" : unit})`,
		cells: cells.map((c) =>
			c === null || typeof c === "string" ? "" : readAs(c, unit),
		),
	};
}

/** The number as it was read, zeros at its end included; exact in its own unit, without the last binary digit that passing through the base unit may change. */
function readAs(q: Quantity, unit: string): TypedNumber | number {
	const value = Number(
		(q.unit === unit
			? q.value
			: fromBase(q.kind, toBase(q.kind, q.value, q.unit), unit)
		).toPrecision(12),
	);
	const decimals = typedDecimals(q, unit);
	if (decimals === null) return value;
	const text = fixedDigits(value, decimals);
	return Number(text) === value ? { is: "typed", text, value } : value;
}

/** A table of readings, one row an item: only columns with something in them, the unit of each in its head. */
export function readingTable<T>(
	title: string,
	columns: readonly ReadingColumn<T>[],
	rows: readonly T[],
): Table {
	const filled = columns.flatMap(({ name, cell }) => {
		const column = written(name, rows.map(cell));
		return column === null ? [] : [column];
	});
	return table(
		title,
		filled.map((c) => c.head),
		rows.map((_, i) => filled.map((c) => c.cells[i])),
	);
}

/**
 * The readings of every flask as they stand in the sheet, without uncertainties: one row a flask, only columns with something in them, the unit of each in its head. "left out" says which flasks a
 * deviation leaves out.
 * @example
 * bench.readings(trial).title // => "Readings of hazelnut.csv"
 */
export function readings(trial: Trial): Table {
	requireTrial(trial);
	return readingTable(
		`Readings of ${trial.file}`,
		columnsOf(trial),
		trial.flasks,
	);
}
