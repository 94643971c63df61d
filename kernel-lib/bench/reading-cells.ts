import {
	exact,
	exactRatio,
	input,
	type Kind,
	listed,
	normal,
	type Problem,
	per,
	problem,
	type Quantity,
	toBase,
	type UnitOf,
} from "../quantity";
import { readingOf, sourceOf } from "./cell-source";
import type { Instruments } from "./glassware/instruments";
import type { InstrumentReadings } from "./instrument-readings";
import {
	isEmpty,
	type NumberCell,
	numberOf,
	numbersOf,
	type ParsedRow,
	type ParsedTable,
	placeOf,
	textOf,
} from "./parsed-table";
import {
	type BesideKey,
	type ReadingKey,
	readingKeys,
	readingKinds,
} from "./reading-columns";
import type { Recorded } from "./recorded";

/** A table that may hold readings of an instrument: the flasks or the standards. */
type Table = ParsedTable<ReadingKey | BesideKey>;

/** The columns of readings that a row has filled. */
export function filledReadings<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedRow,
): ReadingKey[] {
	const t = table as unknown as Table;
	return readingKeys.filter((key) =>
		numbersOf(t, key).some((n) => !isEmpty(t, row, key, n)),
	);
}

/** What is wrong with the readings of one row beyond single cells. */
export function checkReadings<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedRow,
	problems: Problem[],
): void {
	const t = table as unknown as Table;
	const filled = filledReadings(table, row);
	problems.push(
		...instrumentProblems(t, row, filled),
		...(filled.includes("intensity #") ? lightProblems(t, row) : []),
		...dilutionProblems(t, row),
	);
}

function instrumentProblems(
	t: Table,
	row: ParsedRow,
	filled: readonly ReadingKey[],
): Problem[] {
	const ofLight =
		filled.includes("absorbance #") || filled.includes("transmittance #");
	return [
		...(filled.length > 1
			? [
					problem(
						"two-instruments",
						placeOf(t, row, filled[1]),
						`readings in ${listed(filled.map((k) => `"${placeOf(t, row, k).column}"`))}`,
						"readings of one kind in a row",
						"Leave the others empty; another kind of reading wants a row, and a line, of its own.",
					),
				]
			: []),
		...(!ofLight && !isEmpty(t, row, "absorbance at second wavelength")
			? [
					problem(
						"half-filled",
						placeOf(t, row, "absorbance at second wavelength"),
						"a second wavelength without a reading at the first",
						"both or neither",
						"Fill `absorbance 1`, or empty this cell.",
					),
				]
			: []),
	];
}

/** Intensities: the white reference, and channels at the end of their range. */
function lightProblems(t: Table, row: ParsedRow): Problem[] {
	const white = isEmpty(t, row, "white intensity")
		? [
				problem(
					"white-missing",
					placeOf(t, row, "white intensity"),
					"an intensity without a white reference",
					"the intensity of the white reference in the same picture",
					'Fill "white intensity": without it a change of the lighting looks like a change of the colour.',
				),
			]
		: [];
	if (textOf(t, row, "intensity is") === "light") return white;
	const cells = [
		...numbersOf(t, "intensity #").map((k) => ["intensity #", k] as const),
		["white intensity", 1] as const,
	];
	return [
		...white,
		...cells.flatMap(([key, n]) => {
			const cell = numberOf(t, row, key, n);
			return cell === null || cell.value < 255
				? []
				: [
						problem(
							"saturated",
							{ ...placeOf(t, row, key, n), column: cell.header },
							`a channel of ${cell.value}`,
							"more than 0 and less than 255",
							'A channel at its end says nothing of the light: take the picture again with less exposure. Where the counts of a raw picture go further, write "light" into `intensity is`.',
						),
					];
		}),
	];
}

function dilutionProblems(t: Table, row: ParsedRow): Problem[] {
	const [factor, from, to] = [
		numberOf(t, row, "dilution"),
		numberOf(t, row, "diluted from"),
		numberOf(t, row, "diluted to"),
	];
	const twice =
		factor !== null && (from !== null || to !== null)
			? [
					problem(
						"dilution-twice",
						{ ...placeOf(t, row, "dilution"), column: factor.header },
						"a factor beside volumes of a dilution",
						"one of the two",
						"Keep the volumes: their errors are known from the glassware.",
					),
				]
			: [];
	if (from === null && to === null) return twice;
	if (from === null || to === null)
		return [
			problem(
				"half-filled",
				placeOf(t, row, from === null ? "diluted from" : "diluted to"),
				"one volume of a dilution",
				"both or neither",
				"Fill the one or empty the other.",
			),
			...twice,
		];
	const backwards =
		toBase("volume", from.value, from.unit) >
		toBase("volume", to.value, to.unit) * (1 + 1e-9);
	return [
		...twice,
		...(backwards
			? [
					problem(
						"dilution-backwards",
						{ ...placeOf(t, row, "diluted to"), column: to.header },
						`${from.value} ${from.unit} diluted to ${to.value} ${to.unit}`,
						"at least the volume that was taken",
						"Look both volumes up again, and the units at the heads of the columns.",
					),
				]
			: []),
	];
}

/** A dilution of which only the factor was written: standard uncertainty, relative. Common practice, no source. */
const dilutionError = 0.005;

function dilutionOf(
	t: Table,
	row: ParsedRow,
	instruments: Instruments,
	assumptions: Set<string>,
): Quantity<"ratio"> {
	const volume = (
		cell: NumberCell,
		use: "aliquot" | "made up",
		meaning: string,
	) =>
		instruments.volume(
			use,
			readingOf(t, row, cell, `V_{\\text{${meaning}}}`, meaning),
		);
	const from = numberOf(t, row, "diluted from");
	const to = numberOf(t, row, "diluted to");
	if (from !== null && to !== null)
		return per(
			volume(to, "made up", "diluted to"),
			volume(from, "aliquot", "diluted from"),
		);
	const factor = numberOf(t, row, "dilution");
	if (factor === null || factor.value === 1) return exactRatio(1, "1");
	assumptions.add(
		`A dilution written as a factor is taken as good to ${100 * dilutionError} % (standard uncertainty; common practice, no source); \`diluted from\` and \`diluted to\` take their errors from the glassware.`,
	);
	return input(
		"ratio",
		factor.value,
		"1",
		normal(dilutionError * factor.value),
		{
			symbol: "D",
			meaning: "dilution",
			source: sourceOf(t, row, factor.header),
			scope: "reading",
		},
	);
}

function cellQuantity<K extends Kind>(
	t: Table,
	row: ParsedRow,
	cell: NumberCell,
	kind: K,
	symbol: string,
	meaning: string,
): Quantity<K> {
	const unit = (
		cell.unit === "" ? (kind === "ratio" ? "1" : kind) : cell.unit
	) as UnitOf<K>;
	return input(kind, cell.value, unit, exact, {
		symbol,
		meaning,
		source: sourceOf(t, row, cell.header),
		scope: "reading",
		component: "reading",
	});
}

/** A cell as a quantity, where it is filled. */
function recordedIn<K extends Kind>(
	t: Table,
	row: ParsedRow,
	key: ReadingKey | BesideKey,
	kind: K,
	symbol: string,
	meaning: string,
): Recorded<Quantity<K>> {
	const cell = numberOf(t, row, key);
	return cell === null
		? { recorded: false }
		: {
				recorded: true,
				value: cellQuantity(t, row, cell, kind, symbol, meaning),
			};
}

/** The readings of one row; only after the checks found nothing, and only where it has some. `of` names the liquid. */
export function buildReadings<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedRow,
	of: string,
	line: string,
	instruments: Instruments,
	assumptions: Set<string>,
): InstrumentReadings {
	const t = table as unknown as Table;
	const [key] = filledReadings(table, row);
	const { kind, quantity } = readingKinds[key];
	const values = numbersOf(t, key).flatMap((n): Quantity[] => {
		const cell = numberOf(t, row, key, n);
		if (cell === null) return [];
		const meaning = `${kind} ${n} of ${of}`;
		// Only a weighing has errors of its own; all else scatters about its line.
		return quantity === "mass"
			? [
					instruments.mass(
						"weighed",
						readingOf(t, row, cell, `m_{\\text{${kind}}}`, meaning),
					),
				]
			: [cellQuantity(t, row, cell, quantity as Kind, `S_{${n}}`, meaning)];
	});
	const as = textOf(t, row, "intensity is") === "light" ? "light" : "picture";
	const white = recordedIn(
		t,
		row,
		"white intensity",
		"ratio",
		"I_{0}",
		`white reference beside ${of}`,
	);
	if (kind === "intensity" && isEmpty(t, row, "intensity is"))
		assumptions.add(
			"Intensities are taken as channels of an ordinary picture, 0 to 255, where the sheet does not say.",
		);
	return {
		kind,
		values,
		second: recordedIn(
			t,
			row,
			"absorbance at second wavelength",
			"absorbance",
			"A_{2}",
			`absorbance of ${of} at the second wavelength`,
		),
		white: white.recorded ? { ...white, as } : white,
		dilution: dilutionOf(t, row, instruments, assumptions),
		line,
		marks: [],
	};
}

/** The single reading of a withdrawn portion, in the unit of the flask's own readings and read undiluted beside the same white reference. */
export function withdrawnReading<Key extends string>(
	table: ParsedTable<Key>,
	row: ParsedRow,
	cell: NumberCell,
	own: InstrumentReadings,
	of: string,
): InstrumentReadings {
	const [first] = own.values;
	return {
		...own,
		values: [
			input(first.kind, cell.value, first.unit as UnitOf<Kind>, exact, {
				symbol: "S_{\\text{withdrawn}}",
				meaning: `${own.kind} of ${of}`,
				source: sourceOf(table, row, cell.header),
				scope: "reading",
				component: "reading",
			}),
		],
		second: { recorded: false },
		dilution: exactRatio(1, "1"),
	};
}
