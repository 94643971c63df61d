import { listed, meanOf, type Quantity, type Table, table } from "../quantity";
import type { Basis, Contents } from "./basis";
import { type CharProperty, contentsKnown } from "./char-properties";
import type { PropertySheet } from "./determinations";
import { floatedShare } from "./float-sink";
import {
	floatingBias,
	floatingBiasTable,
	type TestedWithoutFloating,
} from "./floating-bias";
import { uptakeBasisTable } from "./sentences";
import { type UptakePerGram, uptakeOnBasis } from "./uptake-basis";

/** The uptake of a flask that says whose it is. */
export interface FlaskUptakePerGram extends UptakePerGram {
	readonly flask: { readonly name: string; readonly treatment: string };
}

/** The uptakes of a bench sheet whose treatments carry the names of chars. */
export interface UptakesOfSheet {
	/** Name of the sheet; "" where none is set. */
	readonly file: string;
	readonly uptakes: readonly FlaskUptakePerGram[];
}

const noSheet =
	"No bench sheet is set, so there are no uptakes to go with these chars.";

const quoted = (names: readonly string[]): string =>
	[...new Set(names)].map((n) => `"${n}"`).join(", ");

/** What a conversion takes and the table of properties does not hold. */
function lacking(
	perGram: UptakePerGram["perGram"],
	basis: Basis,
	known: Partial<Contents>,
): string[] {
	const moist = perGram === "char as weighed";
	return [
		...(moist !== (basis === "as weighed") && known.moisture === undefined
			? ["moisture"]
			: []),
		...(basis === "dry, ash-free" && known.ash === undefined
			? ["total ash"]
			: []),
	];
}

/**
 * The uptakes of a bench sheet on another basis, for the chars of a table of properties; or sentences that say why there are none. Flasks of chars whose moisture or ash is needed and not known are left out, and named.
 */
export function uptakesOfChars(
	{ file, uptakes }: UptakesOfSheet,
	basis: Basis,
	properties: readonly CharProperty[],
): Table | readonly string[] {
	if (file === "") return [noSheet];
	const chars = properties.map((p) => p.sample);
	const own = uptakes.filter((u) => chars.includes(u.flask.treatment));
	if (own.length === 0)
		return [
			`No treatment of ${file} (${quoted(uptakes.map((u) => u.flask.treatment))}) has the name of a char of this table (${quoted(chars)}). Where they are the same char, write the names alike.`,
		];
	const lacks = (u: FlaskUptakePerGram): string[] =>
		lacking(u.perGram, basis, contentsKnown(properties, u.flask.treatment));
	const leftOut = own
		.filter((u) => lacks(u).length > 0)
		.map(
			(u) =>
				`"${u.flask.treatment}" is left out: its uptakes are per gram of ${u.perGram}, and this table holds no value of its ${listed(lacks(u))}.`,
		);
	const converted = own
		.filter((u) => lacks(u).length === 0)
		.map((u) =>
			uptakeOnBasis(u, basis, contentsKnown(properties, u.flask.treatment)),
		);
	if (converted.length === 0) return [...new Set(leftOut)];
	const { title, columns, rows, notes } = uptakeBasisTable(converted);
	return table(`${title}: ${file}`, columns, rows, [
		...new Set(leftOut),
		...notes,
	]);
}

/** A char without what floated in its lightest liquid, or why that cannot be said. */
function withoutFloating(
	sheet: PropertySheet,
	{ file, uptakes }: UptakesOfSheet,
	sample: string,
): TestedWithoutFloating | string {
	const values = uptakes.flatMap((u): Quantity<"uptake">[] =>
		u.flask.treatment === sample && u.uptake.is === "value"
			? [u.uptake.quantity]
			: [],
	);
	if (values.length === 0) return `${file} holds no uptake of "${sample}".`;
	const splits = sheet.splits
		.filter((s) => s.sample === sample)
		.map((s) => s.split)
		.sort((a, b) => a.liquidDensity.value - b.liquidDensity.value);
	return splits.length === 0
		? `"${sample}" was not divided in a liquid, so its floating share is not known.`
		: { uptake: meanOf(values), floated: floatedShare(splits[0]) };
}

/**
 * What leaving out the floating grains would do to the difference of the second char of a table from the first, see `floatingBias`; or sentences that say why that cannot be said.
 *
 * @param factors what floating grains might take up, relative to the others; chosen beforehand
 */
export function floatingBiasOfChars(
	uptakes: UptakesOfSheet,
	sheet: PropertySheet,
	factors: readonly number[],
): Table | readonly string[] {
	if (uptakes.file === "") return [noSheet];
	if (sheet.samples.length < 2)
		return [`${sheet.file} holds one char, and a difference takes two.`];
	const both = sheet.samples
		.slice(0, 2)
		.map((sample) => withoutFloating(sheet, uptakes, sample));
	const told = both.filter((b) => typeof b !== "string");
	return told.length === 2
		? floatingBiasTable(floatingBias(told[1], told[0], factors))
		: both.filter((b) => typeof b === "string");
}
