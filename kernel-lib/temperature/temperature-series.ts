import type { IsothermFit } from "../isotherms";
import { fitKind } from "../isotherms";
import {
	eitherOption,
	objectOption,
	requireOptions,
	requireResults,
	type Table,
	textOption,
	withTable,
} from "../quantity";
import type { FitAtTemperature } from "./fit-at-temperature";
import { heldWhenWarmer } from "./held-when-warmer";
import { heldFinding, heldTable } from "./held-words";
import { kelvinsOf } from "./kelvins";
import { usualMistakes } from "./usual-mistakes";

/** The isotherms of several temperatures, in the order of the trial. */
export type TemperatureSeries = readonly FitAtTemperature[] & {
	/** mg/L at which the temperatures are compared: the middle of the residues that all of them reached; 0 where they share none. */
	readonly residue: number;
	/** Whether the char holds less where it is warmer, in one plain sentence for the title of a page. */
	readonly title: string;
	/** The uptake at that residue, a row a temperature. */
	readonly table: Table;
	/** What the library answers to the usual mistakes with constants and temperatures, tried out on this series: for teaching. */
	readonly usualMistakes: Table;
};

export interface TemperatureSeriesOptions {
	/** Temperatures in °C by the name of the treatment, such as { cellar: 12 } or the text "cellar: 12; room: 21"; not needed for names that say it, such as "15 °C". */
	readonly celsius?: Readonly<Record<string, number>> | string;
}

/**
 * The isotherms of a trial whose treatments are temperatures, each with its absolute temperature (K): the one that is given for its name, else the one that the name says ("15 °C", "288 K").
 *
 * @throws ProblemError naming every treatment without a temperature, and for a text that gives none
 * @example
 * const points = ["15 °C", "35 °C"].map((name) => isotherms.plainPoints(name, [10, 30, 90, 190], [50, 75, 90, 95]));
 * const fits = points.map((p) => isotherms.fitIsotherm(isotherms.langmuir, p));
 * const series = temperature.temperatureSeries(fits);
 * series.map((s) => s.kelvin) // => [288.15, 308.15]
 * // 63 mg/g at 44 mg/L, at both temperatures
 * series.title.slice(0, 11) // => "Cannot tell"
 * series.usualMistakes.rows.length // => 4
 */
export function temperatureSeries(
	fits: readonly IsothermFit[],
	options: TemperatureSeriesOptions = {},
): TemperatureSeries {
	requireResults(fits, fitKind, "temperatureSeries");
	requireOptions(
		options,
		{
			celsius: eitherOption(
				textOption,
				objectOption('temperatures by name, such as { "cellar": 12 }'),
			),
		},
		"temperatureSeries",
	);
	const kelvins = kelvinsOf(
		fits.map((f) => f.points.name),
		options.celsius ?? {},
	);
	const series = fits.map((fit, i) => ({ kelvin: kelvins[i], fit }));
	const held = heldWhenWarmer(series);
	const told = Object.assign(series, {
		residue: held.is === "compared" ? held.residue : 0,
		title: heldFinding(held),
	});
	return withTable(
		withTable(told, () => heldTable(held)),
		usualMistakes,
		"usualMistakes",
	);
}
