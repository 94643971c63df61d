import {
	listed,
	listOption,
	meanOf,
	numberOption,
	type Quantity,
	quoted,
	requireOptions,
	requireResults,
	type Table,
	table,
	wordOption,
} from "../quantity";
import type { Basis, Contents } from "./basis";
import { charProperties } from "./char-properties";
import { contentsOf } from "./char-property";
import { requireSheet, uptakeKind } from "./doors";
import { floatedShare } from "./float-sink";
import {
	floatingBias,
	floatingBiasTable,
	type TestedWithoutFloating,
} from "./floating-bias";
import type { PropertySheet } from "./property-sheet";
import {
	type UptakeOnBasis,
	type UptakePerGram,
	uptakeOnBasis,
} from "./uptake-basis";

/** The uptake of a flask that says whose it is, as `uptake.uptakes` gives it. */
export interface FlaskUptakePerGram extends UptakePerGram {
	/** What was taken up: "iodine". */
	readonly probe: string;
	readonly flask: {
		readonly name: string;
		readonly treatment: string;
		readonly place: { readonly file: string };
	};
}

const noSheet =
	"No bench sheet is set, so there are no uptakes to go with these chars.";

const named = (names: readonly string[]): string =>
	[...new Set(names)].map(quoted).join(", ");

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

/** The uptakes of flasks beside what they are on another basis. */
function basisTable(
	file: string,
	converted: readonly UptakeOnBasis<FlaskUptakePerGram>[],
	leftOut: readonly string[],
): Table {
	return table(
		`Uptake of ${listed([...new Set(converted.map(({ of }) => of.probe))])} per gram of what: ${file}`,
		[
			"flask",
			"treatment",
			"per gram of",
			"uptake (mg/g)",
			"basis asked for",
			"on that basis (mg/g)",
		],
		converted.map(({ of, basis, uptake }) => [
			of.flask.name,
			of.flask.treatment,
			of.perGram,
			of.uptake,
			basis,
			uptake,
		]),
		[
			...leftOut,
			"Flasks of one char share the errors of its moisture and ash. Per gram of dry, ash-free char answers how good the carbon is; per gram of product, how much a gram from the jar takes up.",
		],
	);
}

/**
 * The uptakes of a bench sheet on another basis (mg/g), for the chars of a table of properties; or sentences that say why there are none. Treatments of the bench sheet carry the names of the chars. Flasks of chars whose
 * moisture or ash is needed and not known are left out, and named.
 *
 * @param uptakes as uptake.uptakes gives them; an empty list where there is no bench sheet
 * @param options.basis "as weighed", "dry" or "dry, ash-free" (by default)
 * @throws ProblemError for an option that it does not have
 * @example
 * const chars = properties.readProperties("data/demo-properties/chars.csv");
 * properties.uptakesOfChars(chars, uptake.uptakes(trial), { basis: "dry, ash-free" }) // => "Uptake of iodine per gram of what: hazelnut.csv"
 */
export function uptakesOfChars(
	sheet: PropertySheet,
	uptakes: readonly FlaskUptakePerGram[],
	options: { readonly basis?: Basis } = {},
): Table | readonly string[] {
	requireOptions(
		options,
		{ basis: wordOption("as weighed", "dry", "dry, ash-free") },
		"uptakesOfChars",
	);
	requireSheet(sheet, "uptakesOfChars");
	requireResults(uptakes, uptakeKind, "uptakesOfChars");
	const { basis = "dry, ash-free" } = options;
	if (uptakes.length === 0) return [noSheet];
	const [{ flask }] = uptakes;
	const { file } = flask.place;
	const own = uptakes.filter((u) => sheet.samples.includes(u.flask.treatment));
	if (own.length === 0)
		return [
			`No treatment of ${file} (${named(uptakes.map((u) => u.flask.treatment))}) has the name of a char of this table (${named(sheet.samples)}). Where they are the same char, write the names alike.`,
		];
	const properties = charProperties(sheet);
	const known = (u: FlaskUptakePerGram): Partial<Contents> =>
		contentsOf(properties, u.flask.treatment);
	const lacks = (u: FlaskUptakePerGram): string[] =>
		lacking(u.perGram, basis, known(u));
	const leftOut = own
		.filter((u) => lacks(u).length > 0)
		.map(
			(u) =>
				`${quoted(u.flask.treatment)} is left out: its uptakes are per gram of ${u.perGram}, and this table holds no value of its ${listed(lacks(u))}.`,
		);
	const converted = own
		.filter((u) => lacks(u).length === 0)
		.map((u) => uptakeOnBasis(u, basis, known(u)));
	const sentences = [...new Set(leftOut), ...sheet.deviations];
	return converted.length === 0
		? sentences
		: basisTable(file, converted, sentences);
}

/** A char without what floated in its lightest liquid, or why that cannot be said. */
function withoutFloating(
	sheet: PropertySheet,
	uptakes: readonly FlaskUptakePerGram[],
	sample: string,
): TestedWithoutFloating | string {
	const values = uptakes.flatMap((u): Quantity<"uptake">[] =>
		u.flask.treatment === sample && u.uptake.is === "value"
			? [u.uptake.quantity]
			: [],
	);
	if (values.length === 0)
		return `${uptakes[0].flask.place.file} holds no uptake of ${quoted(sample)}.`;
	const splits = sheet.splits
		.filter((s) => s.sample === sample)
		.map((s) => s.split)
		.sort((a, b) => a.liquidDensity.value - b.liquidDensity.value);
	return splits.length === 0
		? `${quoted(sample)} was not divided in a liquid, so its floating share is not known.`
		: { uptake: meanOf(values), floated: floatedShare(splits[0]) };
}

/**
 * What leaving out the floating grains would do to the difference (mg/g) of the second char of a table from the first; or sentences that say why that cannot be said. Light grains are the open, the well burnt or the
 * air-filled ones, and a treatment changes how many there are.
 *
 * @param uptakes as uptake.uptakes gives them; an empty list where there is no bench sheet
 * @param options.factors what floating grains might take up, relative to the others, chosen beforehand; 0.5 and 2 by default
 * @throws ProblemError for a factor that is negative, and for an option that it does not have
 * @example
 * const chars = properties.readProperties("data/demo-properties/chars.csv");
 * properties.floatingBiasOfChars(chars, uptake.uptakes(trial), { factors: [0.5, 2] }) // => "If floating grains took up more or less than the others"
 */
export function floatingBiasOfChars(
	sheet: PropertySheet,
	uptakes: readonly FlaskUptakePerGram[],
	options: { readonly factors?: readonly number[] } = {},
): Table | readonly string[] {
	requireOptions(
		options,
		{ factors: listOption(numberOption(-1e-12, Number.POSITIVE_INFINITY)) },
		"floatingBiasOfChars",
	);
	requireSheet(sheet, "floatingBiasOfChars");
	requireResults(uptakes, uptakeKind, "floatingBiasOfChars");
	if (uptakes.length === 0) return [noSheet];
	if (sheet.samples.length < 2)
		return [`${sheet.file} holds one char, and a difference takes two.`];
	const both = sheet.samples
		.slice(0, 2)
		.map((sample) => withoutFloating(sheet, uptakes, sample));
	const known = both.filter((b) => typeof b !== "string");
	return known.length === 2
		? floatingBiasTable(floatingBias(known[1], known[0], options.factors))
		: both.filter((b) => typeof b === "string");
}
