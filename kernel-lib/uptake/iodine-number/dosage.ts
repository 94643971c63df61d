import { problem, throwProblems } from "../../quantity";
import { d4607 } from "./standard";

/** Volumes in mL, and the strength of the iodine in N. */
export interface DosageVolumes {
	readonly iodine: number;
	readonly acid: number;
	readonly iodineNormality: number;
}

const standardVolumes: DosageVolumes = {
	iodine: d4607.iodineVolume_mL,
	acid: d4607.acidVolume_mL,
	iodineNormality: d4607.iodineNormality,
};

/** Milliequivalents that char must take up to leave such a residue; 0 where the dose cannot leave it. What rounding leaves of a difference of equals is nothing. */
function toTakeUp(
	residualNormality: number,
	{ iodine, acid, iodineNormality }: DosageVolumes,
): number {
	const dosed = iodine * iodineNormality;
	const rest = dosed - (iodine + acid) * residualNormality;
	return rest > 1e-9 * dosed ? rest : 0;
}

/**
 * Mass of char (g) for a wanted residual normality: M = (A - DF C 126.93 aliquot)/E with A the iodine dosed and E the expected uptake (mg/g); ASTM D4607, from memory. Volumes in mL.
 *
 * @throws ProblemError where no mass would leave that normality
 */
export function dosageFor(
	expectedUptake: number,
	residualNormality: number,
	volumes: DosageVolumes = standardVolumes,
): number {
	const taken = toTakeUp(residualNormality, volumes);
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
	if (taken === 0)
		throwProblems([
			problem(
				"residue-above-dose",
				{ column: "residual normality" },
				`a residue of ${residualNormality} N, which would be more iodine than is dosed`,
				"a residue that the dose can leave",
				"Dose more iodine, or ask for a lower residue.",
			),
		]);
	return (taken * d4607.milligramsPerMilliequivalent) / expectedUptake;
}

/** Residues inside the window that the next dosages should leave, N. */
export const wantedResidues = [0.01, 0.02, 0.03] as const;

/** What to do where a dose cannot leave some of them. */
export const doseTooSmall =
	"The dose of this trial cannot leave every residue from 0.01 to 0.03 N: dose more iodine, or in less liquid.";

/** Masses that should land inside the window: near 0.01, 0.02 and 0.03 N, as far as the dose can leave so much. */
export function nextDosages(
	expectedUptake: number,
	volumes: DosageVolumes = standardVolumes,
): { residualNormality: number; char_g: number }[] {
	return wantedResidues
		.filter((c) => toTakeUp(c, volumes) > 0)
		.map((residualNormality) => ({
			residualNormality,
			char_g: dosageFor(expectedUptake, residualNormality, volumes),
		}));
}
