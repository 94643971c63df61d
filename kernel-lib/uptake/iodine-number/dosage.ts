import { d4607 } from "./standard";

/**
 * Mass of char (g) for a wanted residual normality: M = (A - DF C 126.93 aliquot)/E with A the iodine dosed and E the expected uptake (mg/g); ASTM D4607, from memory. Volumes in mL.
 *
 * @throws RangeError where no mass would leave that normality
 */
export function dosageFor(
	expectedUptake: number,
	residualNormality: number,
	volumes: { iodine: number; acid: number; iodineNormality: number } = {
		iodine: d4607.iodineVolume_mL,
		acid: d4607.acidVolume_mL,
		iodineNormality: d4607.iodineNormality,
	},
): number {
	const dosed =
		volumes.iodine *
		volumes.iodineNormality *
		d4607.milligramsPerMilliequivalent;
	const left =
		(volumes.iodine + volumes.acid) *
		residualNormality *
		d4607.milligramsPerMilliequivalent;
	if (!(expectedUptake > 0))
		throw new RangeError(
			`The expected uptake must be above 0 mg/g, found ${expectedUptake}.`,
		);
	if (left >= dosed)
		throw new RangeError(
			`A residue of ${residualNormality} N would be more iodine than is dosed.`,
		);
	return (dosed - left) / expectedUptake;
}

/** Three masses that should land inside the window: near 0.01, 0.02 and 0.03 N. */
export function nextDosages(
	expectedUptake: number,
	volumes?: { iodine: number; acid: number; iodineNormality: number },
): { residualNormality: number; char_g: number }[] {
	return [0.01, 0.02, 0.03].map((residualNormality) => ({
		residualNormality,
		char_g: dosageFor(expectedUptake, residualNormality, volumes),
	}));
}
