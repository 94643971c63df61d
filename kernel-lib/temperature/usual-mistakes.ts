import { ProblemError, type Table, table } from "../quantity";
import { dimensionless } from "./constant";
import type { FitAtTemperature } from "./fit-at-temperature";
import { temperatureSteps } from "./temperature-steps";

/** What the library answers to the usual mistakes with constants and temperatures, tried out on a series: for teaching. */
export function usualMistakes(series: readonly FitAtTemperature[]): Table {
	const attempts: readonly (readonly [string, () => unknown])[] = [
		[
			"K_L in L/mg, no molar mass",
			() =>
				dimensionless({ value: 0.06, unit: "L/mg", convention: "affinity" }),
		],
		[
			"a constant without a unit",
			() => dimensionless({ value: 0.06, unit: "", convention: "affinity" }),
		],
		[
			"Freundlich's K_F",
			() =>
				dimensionless({
					value: 40,
					unit: "(mg/g)(L/mg)^(1/n)",
					convention: "affinity",
					molarMass: 100,
				}),
		],
		[
			"temperatures in °C",
			() =>
				temperatureSteps(
					series.map((s) => ({ ...s, kelvin: s.kelvin - 273.15 })),
				),
		],
	];
	return table(
		"What is refused, and why",
		["attempt", "answer"],
		attempts.map(([what, attempt]) => [what, answerTo(attempt)]),
	);
}

function answerTo(attempt: () => unknown): string {
	try {
		attempt();
		return "not refused";
	} catch (error) {
		if (error instanceof ProblemError) return error.message;
		throw error;
	}
}
