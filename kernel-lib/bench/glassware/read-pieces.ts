import {
	type Problem,
	type ProblemPlace,
	problem,
	toBase,
} from "../../quantity";
import type { GlasswareKey } from "../columns";
import {
	isEmpty,
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

function readPiece(
	table: ParsedTable<GlasswareKey>,
	row: ParsedRow,
	problems: Problem[],
): Piece | null {
	const at = (key: GlasswareKey): ProblemPlace => placeOf(table, row, key);
	const before = problems.length;
	const name = textOf(table, row, "piece");
	for (const key of ["piece", "used for"] as const)
		if (isEmpty(table, row, key))
			problems.push(
				problem(
					"cell-missing",
					at(key),
					"an empty cell",
					key === "piece" ? "what the piece is" : "what it was used for",
					"Every row of the glassware table needs both.",
				),
			);
	const known: readonly string[] = [...volumeUses, ...massUses];
	const uses = textOf(table, row, "used for")
		.split(/[;,]/)
		.map((u) => u.trim().toLowerCase())
		.filter((u) => u !== "");
	for (const u of uses)
		if (!known.includes(u))
			problems.push(
				problem(
					"use-unknown",
					at("used for"),
					`"${u}"`,
					known.map((k) => `"${k}"`).join(", "),
					'Write one of these, or several separated by ";".',
				),
			);
	const kind = kindOf(name);
	const tolerance = numberOf(table, row, "tolerance");
	const weighs = kind === "balance";
	for (const u of uses)
		if (
			known.includes(u) &&
			(massUses as readonly string[]).includes(u) !== weighs &&
			kind !== "other"
		)
			problems.push(
				problem(
					"use-unknown",
					at("used for"),
					`"${u}" for a ${kind}`,
					weighs
						? `what a balance weighs: ${massUses.join(", ")}`
						: "a volume that it measured",
					"Mend the piece or its use.",
				),
			);
	if (tolerance !== null && (tolerance.kind === "mass") !== weighs)
		problems.push(
			problem(
				"tolerance-kind",
				{ ...at("tolerance"), column: tolerance.header },
				`a tolerance in ${tolerance.unit} for ${weighs ? "a balance" : name}`,
				weighs ? "a tolerance in g or mg" : "a tolerance in mL or µL",
				"Put it into the column with the right unit.",
			),
		);
	const origin = {
		source: {
			is: "cell",
			file: table.raw.file,
			hash: table.raw.hash,
			sheet: table.raw.sheet,
			row: row.row,
			column: tolerance?.header ?? at("piece").column,
		},
		component: "calibration",
		place: at("piece"),
	} as const;
	if (weighs) {
		const readability = numberOf(table, row, "readability");
		if (readability === null && isEmpty(table, row, "readability"))
			problems.push(
				problem(
					"cell-missing",
					at("readability"),
					"an empty cell",
					"the last digit that the balance shows",
					'Fill "readability (g)", e.g. 0.001.',
				),
			);
		if (problems.length > before || readability === null) return null;
		const r = toBase("mass", readability.value, readability.unit);
		return balancePiece(
			name,
			uses as Use[],
			r,
			tolerance === null ? 0 : toBase("mass", tolerance.value, tolerance.unit),
			origin,
		);
	}
	const size = numberOf(table, row, "size");
	if (isEmpty(table, row, "size"))
		problems.push(
			problem(
				"cell-missing",
				at("size"),
				"an empty cell",
				"the nominal volume of the piece",
				'Fill "size (mL)".',
			),
		);
	if (problems.length > before || size === null) return null;
	const division = numberOf(table, row, "division");
	const piece = completedPiece(
		{
			name,
			kind,
			uses: uses as Use[],
			size: toBase("volume", size.value, size.unit) * 1000,
			grade: textOf(table, row, "class") === "A" ? "A" : "B",
			division:
				division === null
					? 0
					: toBase("volume", division.value, division.unit) * 1000,
			tolerance:
				tolerance === null
					? 0
					: toBase("volume", tolerance.value, tolerance.unit) * 1000,
		},
		origin,
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
