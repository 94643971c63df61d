import {
	functionOf,
	input,
	minus,
	named,
	per,
	problem,
	type Quantity,
	rectangular,
	type SmoothFunction,
	stated,
	throwProblems,
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
		throwProblems([
			problem(
				"no-light",
				{ column: what },
				`${q}, and no light has no absorbance`,
				"a value above 0",
				"Dilute the liquid.",
			),
		]);
}

/** Absorbance of a transmittance, A = -log10 T. @throws ProblemError for a transmittance of 0 or less */
export function absorbanceOfTransmittance(
	transmittance: Quantity<"ratio">,
): Quantity<"absorbance"> {
	requireLight(transmittance, "transmittance");
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
 * @throws ProblemError for an intensity of 0 or less
 */
export function absorbanceOfIntensity(
	sample: Quantity<"ratio">,
	blank: Quantity<"ratio">,
): Quantity<"absorbance"> {
	requireLight(sample, "intensity");
	requireLight(blank, "white intensity");
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
 * @throws ProblemError for a value outside that range
 */
export function lightOfChannel(channel: number, most = 255): number {
	const v = channel / most;
	if (!(v >= 0 && v <= 1))
		throwProblems([
			problem(
				"channel-outside",
				{ column: "intensity" },
				`a channel of ${channel}`,
				`a number from 0 to ${most}`,
				'Look it up again; for counts of a raw picture write "light" into `intensity is`.',
			),
		]);
	return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
}

/**
 * Share of the absorbance at a second wavelength, where the dye does not absorb, that turbidity adds at the first: (second/first)^n. Fine particles scatter with n = 4, coarse ones with n = 0; every n between is taken
 * as equally likely, so the share is the middle of the two extremes and half their distance is the half-width. Common practice, no source.
 *
 * @param firstNanometres wavelength of the readings
 * @param secondNanometres wavelength where the dye does not absorb
 * @throws ProblemError for a wavelength that is not above 0
 */
export function turbidityShare(
	firstNanometres: number,
	secondNanometres: number,
): Quantity<"ratio"> {
	if (!(firstNanometres > 0 && secondNanometres > 0))
		throwProblems([
			problem(
				"wavelength-wrong",
				{ column: "wavelength (nm)" },
				`wavelengths of ${firstNanometres} and ${secondNanometres} nm`,
				"two wavelengths above 0 nm",
				"Mend them in the calibration table or in the option `wavelengths`.",
			),
		]);
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
