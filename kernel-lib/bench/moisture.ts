/** The moisture of a char and how well it is known: by one determination, by repeats, or as the sheet states it. */
import {
	type Evidence,
	exact,
	input,
	meanOf,
	normal,
	plus,
	type Quantity,
	stated,
	toBase,
	type UnitOf,
} from "../quantity";
import { sampleStandardDeviation } from "../stats";
import { sourceOf } from "./cell-source";
import type { FlaskKey } from "./columns";
import type { FlaskTable } from "./flask-table";
import {
	type NumberCell,
	numberOf,
	numbersOf,
	type ParsedRow,
	textOf,
} from "./parsed-table";
import type { CharMoisture, Recorded } from "./recorded";

/** Standard uncertainty of a single determination, in points of per cent: drying, the portion that was taken, and the water that char takes up from air before it is weighed. Our decision. */
export const oneDeterminationPoints = 1;

/** Repeats are not believed to agree better than this (standard deviation of one, in points). Our decision. */
export const leastRepeatPoints = 0.3;

const columns = [
	"moisture, wet basis #",
	"moisture, dry basis #",
	"moisture",
] as const satisfies readonly FlaskKey[];

/** The columns in which a row has a moisture, each with its determinations. */
export function moistureCells(
	table: FlaskTable,
	row: ParsedRow,
): { readonly key: (typeof columns)[number]; readonly cells: NumberCell[] }[] {
	return columns.flatMap((key) => {
		const cells = numbersOf(table, key).flatMap(
			(n) => numberOf(table, row, key, n) ?? [],
		);
		return cells.length > 0 ? [{ key, cells }] : [];
	});
}

/** How well the mean of determinations is known, in points. */
function errorOf(
	points: readonly number[],
	uncertainty: NumberCell | null,
): { readonly by: CharMoisture["knownBy"]; readonly evidence: Evidence } {
	if (uncertainty !== null)
		return {
			by: "a stated uncertainty",
			evidence: normal(
				100 * toBase("ratio", uncertainty.value, uncertainty.unit),
			),
		};
	const n = points.length;
	if (n === 1)
		return {
			by: "one determination",
			evidence: normal(oneDeterminationPoints),
		};
	const scatter = sampleStandardDeviation(points);
	return {
		by: "repeats",
		evidence:
			scatter > leastRepeatPoints
				? normal(scatter / Math.sqrt(n), n - 1)
				: normal(leastRepeatPoints / Math.sqrt(n)),
	};
}

const sources: Readonly<Record<CharMoisture["knownBy"], string>> = {
	"one determination": `one determination, taken as good to ${oneDeterminationPoints} point (standard uncertainty); a decision of ours`,
	repeats: `standard deviation of repeated determinations, at least ${leastRepeatPoints} points, divided by the root of their number`,
	"a stated uncertainty": "stated in the sheet",
};

/**
 * Moisture of the char in a row. The error of its determination is one for all rows of a treatment that hold the same numbers: nobody can tell a number that was determined once and copied from one that came out alike, and
 * taking them for one is the safer of the two.
 */
export function moistureOf(
	table: FlaskTable,
	row: ParsedRow,
): Recorded<CharMoisture> {
	const [found] = moistureCells(table, row);
	if (found === undefined) return { recorded: false };
	const { key, cells } = found;
	const wet =
		key === "moisture"
			? textOf(table, row, "moisture basis") === "wet"
			: key === "moisture, wet basis #";
	const meaning = `moisture, ${wet ? "wet" : "dry"} basis`;
	const determinations = cells.map(
		(cell): Quantity<"ratio"> =>
			input("ratio", cell.value, cell.unit as UnitOf<"ratio">, exact, {
				symbol: "w",
				meaning,
				source: sourceOf(table, row, cell.header),
				scope: "reading",
			}),
	);
	const uncertainty = numberOf(table, row, "moisture uncertainty");
	const { by, evidence } = errorOf(
		determinations.map((d) => d.in("%")),
		uncertainty,
	);
	const error = input("ratio", 0, "%", evidence, {
		symbol: "δ_{w}",
		meaning: `error of the ${meaning}`,
		source: stated(sources[by]),
		scope: "replicate",
		computedFrom: [
			table.raw.hash,
			textOf(table, row, "treatment"),
			wet ? "wet" : "dry",
			...determinations.map((d) => d.in("%")),
		].join("|"),
	});
	return {
		recorded: true,
		value: {
			fraction: plus(meanOf(determinations), error),
			basis: wet ? "wet" : "dry",
			determinations,
			uncertainty:
				uncertainty === null
					? { recorded: false }
					: {
							recorded: true,
							value: input(
								"ratio",
								uncertainty.value,
								uncertainty.unit as UnitOf<"ratio">,
								exact,
								{
									symbol: "u_{w}",
									meaning: "standard uncertainty of the moisture",
									source: sourceOf(table, row, uncertainty.header),
								},
							),
						},
			knownBy: by,
		},
	};
}
