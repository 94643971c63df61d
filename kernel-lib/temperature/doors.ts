import type { ResultKind } from "../quantity";

/** What an isotherm of one temperature is known by. */
export const seriesKind: ResultKind = {
	parts: ["kelvin", "fit"],
	expected:
		"an isotherm of one temperature, as temperature.temperatureSeries(fits) lists them",
};

/** What a constant of one temperature is known by. */
export const stepKind: ResultKind = {
	parts: ["kelvin", "constant"],
	expected:
		"a constant of one temperature, as temperature.temperatureSteps(series) lists them",
};
