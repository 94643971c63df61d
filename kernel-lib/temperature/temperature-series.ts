import type { IsothermFit } from "../isotherms";
import {
	eitherOption,
	objectOption,
	requireOptions,
	textOption,
} from "../quantity";
import { kelvinsOf } from "./kelvins";

/** An isotherm fitted to the flasks of one temperature. */
export interface FitAtTemperature {
	readonly kelvin: number;
	readonly fit: IsothermFit;
}

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
 * temperature.temperatureSeries(fits).map((s) => s.kelvin) // => [288.15, 308.15]
 */
export function temperatureSeries(
	fits: readonly IsothermFit[],
	options: TemperatureSeriesOptions = {},
): FitAtTemperature[] {
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
	return fits.map((fit, i) => ({ kelvin: kelvins[i], fit }));
}
