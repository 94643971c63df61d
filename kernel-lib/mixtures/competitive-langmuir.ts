import { bracketedRoot } from "../stats";
import type { Shared } from "./ideal-adsorbed-solution";
import type { Single } from "./single";

/**
 * Langmuir's isotherm of solutes that compete for the same sites: q[i] = q_max[i] K[i] C[i]/(1 + sum of K[j] C[j]).
 *
 * @param residues mg/L
 */
export function competitiveLangmuir(
	singles: readonly Single[],
	residues: readonly number[],
): Shared {
	const covered = singles.reduce((s, o, i) => s + o.theta[1] * residues[i], 1);
	return {
		residues,
		uptakes: singles.map(
			({ theta: [qmax, k] }, i) => (qmax * k * residues[i]) / covered,
		),
		alone: singles.map(({ theta: [, k] }) => (covered - 1) / k),
		spreading: 0,
	};
}

/**
 * The same in a water that meets a dose of char: with s = 1 + sum of K[j] C[j], each residue is C[i] = start[i] s/(s + D q_max[i] K[i]), and s is the root of one unknown.
 *
 * @param starts mg/L @param dose g/L
 */
export function residuesInCompetition(
	singles: readonly Single[],
	starts: readonly number[],
	dose: number,
): Shared {
	const residuesAt = (s: number): number[] =>
		singles.map(
			({ theta: [qmax, k] }, i) => (starts[i] * s) / (s + dose * qmax * k),
		);
	const excess = (s: number): number =>
		(1 +
			residuesAt(s).reduce((sum, c, i) => sum + singles[i].theta[1] * c, 0)) /
			s -
		1;
	const high =
		1 + starts.reduce((sum, c, i) => sum + singles[i].theta[1] * c, 0);
	return competitiveLangmuir(
		singles,
		residuesAt(bracketedRoot(excess, 1, high, 1e-15 * high)),
	);
}
