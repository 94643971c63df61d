import type { IsothermFit } from "../isotherms";

/** An isotherm fitted to the flasks of one temperature. */
export interface FitAtTemperature {
	readonly kelvin: number;
	readonly fit: IsothermFit;
}
