import { bracketedRoot } from "../stats";
import type { Single } from "./single";
import { type Spreading, spreadingOf } from "./spreading";

/** Solutes on a char in equilibrium with their residues. */
export interface Shared {
	/** mg/g of each solute. */
	readonly uptakes: readonly number[];
	/** mg/L of each solute. */
	readonly residues: readonly number[];
	/** mg/L at which each solute alone has the same spreading pressure: how far its own isotherm is leaned on. */
	readonly alone: readonly number[];
	/** mmol/g. */
	readonly spreading: number;
}

const rounding = 1e-15;

/**
 * Uptakes of solutes that share a char, at given residues: C[i] = x[i] C0[i](psi) for all solutes at one spreading pressure psi, the fractions x adding up to 1, and 1/q = sum of x[i]/q0[i](psi). The sum of C[i]/C0[i](psi) falls
 * with psi: it is at least 1 where one solute alone would have psi, and at most 1 where each alone would at n times its concentration, so that the root lies between.
 *
 * @param residues mg/L, above 0
 */
export function idealAdsorbedSolution(
	singles: readonly Single[],
	residues: readonly number[],
): Shared {
	const spread = singles.map((s, i) => spreadingOf(s, residues[i]));
	return atResidues(singles, spread, residues);
}

function atResidues(
	singles: readonly Single[],
	spread: readonly Spreading[],
	residues: readonly number[],
): Shared {
	const n = singles.length;
	const low = Math.max(...spread.map((s, i) => s.at(residues[i])));
	const high = Math.max(...spread.map((s, i) => s.at(n * residues[i])));
	const excess = (logPsi: number): number =>
		spread.reduce(
			(sum, s, i) =>
				sum + residues[i] / s.inverse(Math.exp(logPsi)).concentration,
			-1,
		);
	const psi = Math.exp(
		bracketedRoot(
			excess,
			Math.log(low) - 1e-12,
			Math.log(high) + 1e-12,
			rounding,
		),
	);
	const alone = spread.map((s) => s.inverse(psi));
	const x = alone.map((a, i) => residues[i] / a.concentration);
	const whole = x.reduce((a, b) => a + b, 0);
	const total =
		1 / alone.reduce((sum, a, i) => sum + x[i] / whole / a.uptake, 0);
	return {
		uptakes: x.map((v, i) => (v / whole) * total * singles[i].molarMass),
		residues,
		alone: alone.map((a) => a.concentration),
		spreading: psi,
	};
}

/**
 * What is left of each solute when water meets a dose of char: the balance of each solute and the ideal adsorbed solution together. At a spreading pressure psi the fractions are
 * x[i] = c[i]/(C0[i] + D q), c being the starts; that they add up to 1 gives q, and 1/q = sum of x[i]/q0[i] gives psi. Both are roots of one unknown between ends that hold by construction.
 *
 * @param starts mg/L @param dose g/L
 */
export function residuesInIdealSolution(
	singles: readonly Single[],
	starts: readonly number[],
	dose: number,
): Shared {
	const spread = singles.map((s, i) => spreadingOf(s, starts[i]));
	const c = starts.map((s, i) => s / singles[i].molarMass);
	const all = c.reduce((a, b) => a + b, 0);
	const solve = (
		psi: number,
	): { x: number[]; loading: number; uptakes: number[]; alone: number[] } => {
		const places = spread.map((s) => s.inverse(psi));
		const alone = places.map((p, i) => p.concentration / singles[i].molarMass);
		// What is on the char per litre of water, D q.
		const sum = (loading: number): number =>
			c.reduce((s, ci, i) => s + ci / (alone[i] + loading), -1);
		const loading =
			sum(0) <= 0 ? 0 : bracketedRoot(sum, 0, all, rounding * all);
		return {
			x: c.map((ci, i) => ci / (alone[i] + loading)),
			loading,
			uptakes: places.map((p) => p.uptake),
			alone,
		};
	};
	const miss = (logPsi: number): number => {
		const { x, loading, uptakes } = solve(Math.exp(logPsi));
		return (
			(loading / dose) * x.reduce((sum, xi, i) => sum + xi / uptakes[i], 0) - 1
		);
	};
	const high = Math.log(atResidues(singles, spread, starts).spreading);
	let low = high - 1;
	while (miss(low) < 0 && low > high - 200) low -= 3;
	const psi = Math.exp(bracketedRoot(miss, low, high, rounding * 10));
	const { x, alone } = solve(psi);
	const residues = x.map((xi, i) => xi * alone[i] * singles[i].molarMass);
	return {
		residues,
		uptakes: residues.map((r, i) => (starts[i] - r) / dose),
		alone: alone.map((a, i) => a * singles[i].molarMass),
		spreading: psi,
	};
}
