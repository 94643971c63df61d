import {
	type Problem,
	type ProblemPlace,
	problem,
	toBase,
} from "../../quantity";
import type { GlasswareKey } from "../columns";
import {
	isEmpty,
	type NumberCell,
	numberOf,
	type ParsedRow,
	type ParsedTable,
	placeOf,
	textOf,
} from "../parsed-table";
import {
	balancePiece,
	completedPiece,
	kindOf,
	massUses,
	type Piece,
	type PieceKind,
	type Use,
	volumeUses,
} from "./piece";

/** What the glassware table says; problems for what it leaves open. */
export function readPieces(
	table: ParsedTable<GlasswareKey>,
	problems: Problem[],
): Piece[] {
	const first = new Map<string, number>();
	return table.rows.flatMap((row) => {
		const piece = readPiece(table, row, problems);
		if (piece === null) return [];
		for (const use of piece.uses) {
			if (!singleUses.includes(use)) continue;
			const before = first.get(use);
			if (before !== undefined)
				problems.push(
					problem(
						"use-twice",
						placeOf(table, row, "used for"),
						`"${use}" in rows ${before} and ${row.row}`,
						"one burette and one balance for each use",
						"Readings do not say which of two it was: name the one that was used, or run the two parts of the trial as two sheets.",
					),
				);
			first.set(use, row.row);
		}
		return [piece];
	});
}

/** Uses for which the size of a reading does not tell which piece it was. */
const singleUses: readonly Use[] = ["titre", "standard titre", ...massUses];

/** One row of the glassware table, its texts read. */
interface PieceRow {
	readonly table: ParsedTable<GlasswareKey>;
	readonly row: ParsedRow;
	readonly name: string;
	readonly kind: PieceKind;
	readonly uses: readonly string[];
	readonly tolerance: NumberCell | null;
	at(key: GlasswareKey): ProblemPlace;
}

function pieceRow(table: ParsedTable<GlasswareKey>, row: ParsedRow): PieceRow {
	const name = textOf(table, row, "piece");
	return {
		table,
		row,
		name,
		kind: kindOf(name),
		uses: textOf(table, row, "used for")
			.split(/[;,]/)
			.map((u) => u.trim().toLowerCase())
			.filter((u) => u !== ""),
		tolerance: numberOf(table, row, "tolerance"),
		at: (key) => placeOf(table, row, key),
	};
}

function missing(
	{ table, row, at }: PieceRow,
	key: GlasswareKey,
	expected: string,
	mend: string,
): Problem[] {
	return isEmpty(table, row, key)
		? [problem("cell-missing", at(key), "an empty cell", expected, mend)]
		: [];
}

const knownUses: readonly string[] = [...volumeUses, ...massUses];
const weighed: readonly string[] = massUses;

function useProblems({ kind, uses, at }: PieceRow): Problem[] {
	const weighs = kind === "balance";
	return [
		...uses
			.filter((u) => !knownUses.includes(u))
			.map((u) =>
				problem(
					"use-unknown",
					at("used for"),
					`"${u}"`,
					knownUses.map((k) => `"${k}"`).join(", "),
					'Write one of these, or several separated by ";".',
				),
			),
		...uses
			.filter(
				(u) =>
					knownUses.includes(u) &&
					weighed.includes(u) !== weighs &&
					kind !== "other",
			)
			.map((u) =>
				problem(
					"use-unknown",
					at("used for"),
					`"${u}" for a ${kind}`,
					weighs
						? `what a balance weighs: ${massUses.join(", ")}`
						: "a volume that it measured",
					"Mend the piece or its use.",
				),
			),
	];
}

function toleranceProblems({ kind, name, tolerance, at }: PieceRow): Problem[] {
	const weighs = kind === "balance";
	return tolerance !== null && (tolerance.kind === "mass") !== weighs
		? [
				problem(
					"tolerance-kind",
					{ ...at("tolerance"), column: tolerance.header },
					`a tolerance in ${tolerance.unit} for ${weighs ? "a balance" : name}`,
					weighs ? "a tolerance in g or mg" : "a tolerance in mL or µL",
					"Put it into the column with the right unit.",
				),
			]
		: [];
}

/** Where the calibration error of the piece comes from. */
function originOf({
	table,
	row,
	tolerance,
	at,
}: PieceRow): Pick<Piece, "source" | "component" | "place"> {
	const { file, hash, sheet } = table.raw;
	return {
		source: {
			is: "cell",
			file,
			hash,
			sheet,
			row: row.row,
			column: tolerance?.header ?? at("piece").column,
		},
		component: "calibration",
		place: at("piece"),
	};
}

/** mL or g; 0 for an empty cell. */
function amount(cell: NumberCell | null, kind: "volume" | "mass"): number {
	if (cell === null) return 0;
	const base = toBase(kind, cell.value, cell.unit);
	return kind === "volume" ? base * 1000 : base;
}

function readPiece(
	table: ParsedTable<GlasswareKey>,
	row: ParsedRow,
	problems: Problem[],
): Piece | null {
	const read = pieceRow(table, row);
	const weighs = read.kind === "balance";
	const both = "Every row of the glassware table needs both.";
	const found = [
		...missing(read, "piece", "what the piece is", both),
		...missing(read, "used for", "what it was used for", both),
		...useProblems(read),
		...toleranceProblems(read),
		...(weighs
			? missing(
					read,
					"readability",
					"the last digit that the balance shows",
					'Fill "readability (g)", e.g. 0.001.',
				)
			: missing(
					read,
					"size",
					"the nominal volume of the piece",
					'Fill "size (mL)".',
				)),
	];
	problems.push(...found);
	const size = numberOf(table, row, weighs ? "readability" : "size");
	if (found.length > 0 || size === null) return null;
	return weighs ? balanceOf(read, size) : glassOf(read, size, problems);
}

function balanceOf(read: PieceRow, readability: NumberCell): Piece {
	return balancePiece(
		read.name,
		read.uses as readonly Use[],
		amount(readability, "mass"),
		amount(read.tolerance, "mass"),
		originOf(read),
	);
}

function glassOf(
	read: PieceRow,
	size: NumberCell,
	problems: Problem[],
): Piece | null {
	const { table, row, name, kind, uses, tolerance, at } = read;
	const piece = completedPiece(
		{
			name,
			kind,
			uses: uses as readonly Use[],
			size: amount(size, "volume"),
			grade: textOf(table, row, "class") === "A" ? "A" : "B",
			division: amount(numberOf(table, row, "division"), "volume"),
			tolerance: amount(tolerance, "volume"),
		},
		originOf(read),
	);
	if (piece === null)
		problems.push(
			problem(
				"tolerance-missing",
				at("tolerance"),
				`no tolerance for "${name}" of ${size.value} ${size.unit}`,
				"a tolerance, or a piece and size that a standard names",
				'Fill "tolerance (mL)" with the largest error of the piece, or name it as one of: burette, volumetric pipette, graduated pipette, volumetric flask, measuring cylinder, syringe, piston pipette.',
			),
		);
	return piece;
}
