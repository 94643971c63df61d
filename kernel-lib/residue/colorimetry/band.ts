import { studentTQuantile } from "../../stats";
import {
	type CalibrationLine,
	lineVariance,
	readingVariance,
	signalAt,
} from "./line";

/** A line at one concentration: the signal, and where the mean of some readings of such a liquid falls with the given confidence. In the units of the line. */
export interface BandPoint {
	readonly concentration: number;
	readonly signal: number;
	readonly low: number;
	readonly high: number;
}

/** Prediction band of a line: signal ± t sqrt(s²/(w m) + g'Vg), with the degrees of freedom of the line. */
export function predictionBand(
	line: CalibrationLine,
	concentrations: readonly number[],
	readings = 1,
	confidence = 0.95,
): BandPoint[] {
	const t = studentTQuantile((1 + confidence) / 2, line.degreesOfFreedom);
	return concentrations.map((concentration) => {
		const signal = signalAt(line, concentration);
		const half =
			t *
			Math.sqrt(
				readingVariance(line, signal, readings) +
					lineVariance(line, concentration),
			);
		return { concentration, signal, low: signal - half, high: signal + half };
	});
}
