import { problem, throwProblems } from "../quantity";
import { integrate } from "../stats";
import { molarUptake, type Single } from "./single";

/** Where the integral begins, as a share of the concentration scale: what lies below is taken as a power law. */
const beginning = 1e-9;
/** A curve that falls more slowly than this power of the concentration counts as one that does not fall to nothing. */
const leastExponent = 1e-3;
const tolerance = 1e-13;
const mostSteps = 200;
/** Longest step in ln C that Newton may take. */
const longestStep = 3;

/**
 * Spreading pressure of a solute alone, as psi = A pi/(R T) = integral of q dC/C from 0 (mmol/g), and the concentration that a psi belongs to.
 */
export interface Spreading {
	readonly at: (concentration: number) => number;
	/** Concentration (mg/L) at which the solute alone has this psi, and its uptake there (mmol/g). */
	readonly inverse: (psi: number) => {
		readonly concentration: number;
		readonly uptake: number;
	};
}

/**
 * The integral runs over ln C, by adaptive Gauss-Legendre quadrature; below the beginning the isotherm is a power law with the exponent that it has there, whose integral is q/exponent.
 *
 * @param scale mg/L: a concentration of the size that is asked for
 * @throws ProblemError for an isotherm that takes nothing up at small concentrations or does not fall to nothing there (Temkin), which has no spreading pressure
 */
export function spreadingOf(single: Single, scale: number): Spreading {
	const { isotherm, theta } = single;
	const from = scale * beginning;
	const q = (u: number): number => molarUptake(single, Math.exp(u));
	const first = molarUptake(single, from);
	const exponent =
		(from * isotherm.slope(theta, from)) / single.molarMass / first;
	throwProblems(
		first > 0 && exponent > leastExponent && Number.isFinite(exponent)
			? []
			: [
					problem(
						"no-spreading-pressure",
						{},
						`${isotherm.name}, which does not fall to nothing with the concentration as a power of it, so that it has no spreading pressure`,
						"an isotherm that begins as a power of the concentration",
						"Take Langmuir, Freundlich, Sips, Toth or Redlich-Peterson.",
					),
				],
	);
	const below = first / exponent;
	const beginningLog = Math.log(from);
	const at = (concentration: number): number =>
		below + integrate(q, beginningLog, Math.log(concentration), tolerance);
	const place = (u: number): { concentration: number; uptake: number } => ({
		concentration: Math.exp(u),
		uptake: q(u),
	});
	let last = { u: Math.log(scale), psi: at(scale) };
	return {
		at,
		inverse: (psi) => {
			// Below the beginning the power law has a closed form.
			if (psi <= below)
				return place(beginningLog + Math.log(psi / below) / exponent);
			// psi is convex in ln C: Newton comes to its root without fail.
			let { u, psi: reached } = last;
			for (let step = 0; step < mostSteps; step++) {
				const wanted = (psi - reached) / q(u);
				const next = Math.max(
					beginningLog,
					u + Math.max(-longestStep, Math.min(longestStep, wanted)),
				);
				reached += integrate(q, u, next, tolerance);
				u = next;
				if (Math.abs(wanted) <= 1e-14 * Math.max(1, Math.abs(u))) break;
			}
			last = { u, psi: reached };
			return place(u);
		},
	};
}
