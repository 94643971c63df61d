import { problem, throwProblems } from "../../quantity";
import { d4607 } from "./standard";

/**
 * Mass of char (g) for a wanted residual normality: M = (A - DF C 126.93 aliquot)/E with A the iodine dosed and E the expected uptake (mg/g); ASTM D4607, from memory. Volumes in mL.
 *
 * @throws ProblemError where no mass would leave that normality
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
		throwProblems([
			problem(
				"expected-uptake",
				{ column: "expected uptake" },
				`${expectedUptake} mg/g`,
				"an expected uptake above 0 mg/g",
				"Take one from a first trial.",
			),
		]);
	if (left >= dosed)
		throwProblems([
			problem(
				"residue-above-dose",
				{ column: "residual normality" },
				`a residue of ${residualNormality} N, which would be more iodine than is dosed`,
				"a residue that the dose can leave",
				"Dose more iodine, or ask for a lower residue.",
			),
		]);
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
