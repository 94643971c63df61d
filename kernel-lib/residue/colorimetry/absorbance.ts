import {
	functionOf,
	input,
	minus,
	named,
	per,
	type Quantity,
	rectangular,
	type SmoothFunction,
	stated,
	times,
} from "../../quantity";

const minusDecadicLog: SmoothFunction<"ratio", "absorbance"> = {
	name: "−log10",
	argumentUnit: "1",
	kind: "absorbance",
	unit: "absorbance",
	value: (t) => -Math.log10(t),
	derivative: (t) => -1 / (t * Math.LN10),
};

function requireLight(q: Quantity<"ratio">, what: string): void {
	if (!(q.value > 0))
		throw new RangeError(
			`${what} must be above 0, found ${q}: no light has no absorbance. Dilute the liquid.`,
		);
}

/** Absorbance of a transmittance, A = -log10 T. Throws RangeError for a transmittance of 0 or less. */
export function absorbanceOfTransmittance(
	transmittance: Quantity<"ratio">,
): Quantity<"absorbance"> {
	requireLight(transmittance, "A transmittance");
	return named(
		functionOf(transmittance, minusDecadicLog),
		"A",
		"absorbance from the transmittance",
	);
}

/**
 * What stands in for an absorbance when a camera or a bare light sensor is used: A = -log10(I/I0), from the channel that the colour is complementary to (red for a blue dye). The numbers must be
 * proportional to the light; those of an ordinary picture are not (see `lightOfChannel`). Bands of a camera are wide, so the line may bend: test it (`bendTest`) and take a quadratic one if it does.
 *
 * @throws RangeError for an intensity of 0 or less
 */
export function absorbanceOfIntensity(
	sample: Quantity<"ratio">,
	blank: Quantity<"ratio">,
): Quantity<"absorbance"> {
	requireLight(sample, "An intensity");
	requireLight(blank, "The intensity of the blank");
	return named(
		functionOf(per(sample, blank), minusDecadicLog),
		"A",
		"absorbance from the intensities of sample and blank",
	);
}

/**
 * Light behind a channel value of an ordinary (sRGB) picture, as a share of the most the channel can show; IEC 61966-2-1, from memory. Cameras that brighten or sharpen by themselves undo this: fix exposure and
 * white balance, photograph blank, standards and samples in one picture.
 *
 * @param channel 0 to `most`
 * @throws RangeError for a value outside that range
 */
export function lightOfChannel(channel: number, most = 255): number {
	const v = channel / most;
	if (!(v >= 0 && v <= 1))
		throw new RangeError(
			`A channel lies between 0 and ${most}, found ${channel}.`,
		);
	return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
}

/**
 * Share of the absorbance at a second wavelength, where the dye does not absorb, that turbidity adds at the first: (second/first)^n. Fine particles scatter with n = 4, coarse ones with n = 0; every n between is taken
 * as equally likely, so the share is the middle of the two extremes and half their distance is the half-width. Common practice, no source.
 *
 * @param firstNanometres, secondNanometres wavelengths
 */
export function turbidityShare(
	firstNanometres: number,
	secondNanometres: number,
): Quantity<"ratio"> {
	if (!(firstNanometres > 0 && secondNanometres > 0))
		throw new RangeError(
			`Wavelengths lie above 0 nm, found ${firstNanometres} and ${secondNanometres}.`,
		);
	const fine = (secondNanometres / firstNanometres) ** 4;
	return input(
		"ratio",
		(1 + fine) / 2,
		"1",
		rectangular(Math.abs(fine - 1) / 2),
		{
			symbol: "f_{turbidity}",
			meaning: `turbidity at ${firstNanometres} nm for 1 at ${secondNanometres} nm`,
			source: stated(
				`between (${secondNanometres}/${firstNanometres})^0 for coarse and ^4 for fine particles; common practice, no source`,
			),
		},
	);
}

/** Absorbance less what turbidity adds to it: A - f A(second wavelength). */
export function lessTurbidity(
	absorbance: Quantity<"absorbance">,
	second: Quantity<"absorbance">,
	share: Quantity<"ratio">,
): Quantity<"absorbance"> {
	return named(
		minus(absorbance, times(share, second) as Quantity<"absorbance">),
		"A_{corr}",
		"absorbance less turbidity",
	);
}
