import { type InstrumentReadings, signalOf } from "../../bench";
import {
	functionOf,
	ProblemError,
	problem,
	type Quantity,
	type SmoothFunction,
} from "../../quantity";
import {
	absorbanceOfIntensity,
	absorbanceOfTransmittance,
	lessTurbidity,
	lightOfChannel,
	type SignalKind,
	turbidityShare,
} from "../colorimetry";

/** Wavelengths (nm) of the readings and of the second absorbance, where the dye has no colour. */
export interface Wavelengths {
	readonly first: number;
	readonly second: number;
}

const light: SmoothFunction<"ratio", "ratio"> = {
	name: "light",
	argumentUnit: "1",
	kind: "ratio",
	unit: "1",
	value: (channel) => lightOfChannel(channel),
	derivative: (channel) =>
		channel / 255 <= 0.04045
			? 1 / 255 / 12.92
			: (2.4 / 1.055 / 255) * ((channel / 255 + 0.055) / 1.055) ** 1.4,
};

function absorbanceOf(
	reading: Quantity,
	{ kind, white }: InstrumentReadings,
): Quantity<"absorbance"> {
	if (kind === "transmittance")
		return absorbanceOfTransmittance(reading as Quantity<"ratio">);
	if (kind === "intensity" && white.recorded) {
		const sample = reading as Quantity<"ratio">;
		return white.as === "light"
			? absorbanceOfIntensity(sample, white.value)
			: absorbanceOfIntensity(
					functionOf(sample, light),
					functionOf(white.value, light),
				);
	}
	return reading as Quantity<"absorbance">;
}

/**
 * The readings of one liquid as signals: a transmittance or an intensity as an absorbance; turbidity taken off where a second wavelength was read.
 *
 * @throws ProblemError for a second absorbance without wavelengths
 */
export function signalsOf(
	readings: InstrumentReadings,
	wavelengths: Wavelengths | "not known",
): Quantity<SignalKind>[] {
	if (signalOf(readings.kind) !== "absorbance")
		return readings.values as readonly Quantity<SignalKind>[] as Quantity<SignalKind>[];
	const { second } = readings;
	return readings.values.map((v) => {
		const absorbance = absorbanceOf(v, readings);
		if (!second.recorded) return absorbance;
		if (wavelengths === "not known")
			throw new ProblemError([
				problem(
					"wavelengths-missing",
					{ column: "wavelength (nm)" },
					"a second absorbance without wavelengths",
					"the two wavelengths, because turbidity is taken off by their ratio",
					"Name them in the calibration table (`wavelength (nm)`, `second wavelength (nm)`), or read the sheet with the option `wavelengths: { first: 664, second: 800 }`.",
				),
			]);
		return lessTurbidity(
			absorbance,
			second.value,
			turbidityShare(wavelengths.first, wavelengths.second),
		);
	});
}
