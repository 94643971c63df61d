import { problem, throwProblems } from "../../quantity";
import { bracketedRoot, studentTQuantile } from "../../stats";
import {
	type CalibrationLine,
	lineVariance,
	readingVariance,
	signalAt,
	slopeAt,
} from "./line";

/** A calibration line read backwards: the concentration that a signal stands for, in the units of the line. */
export interface InverseReading {
	readonly concentration: number;
	readonly standardUncertainty: number;
	/** Concentration plus and minus Student's t, with the degrees of freedom of the line, times the standard uncertainty (ISO 8466-1). */
	readonly interval: { readonly low: number; readonly high: number };
	/** All concentrations whose prediction interval holds the signal (Fieller, 1954, for the straight line); not symmetric. */
	readonly exact:
		| { readonly is: "interval"; readonly low: number; readonly high: number }
		| { readonly is: "not available"; readonly because: string };
	/** Of both intervals. */
	readonly confidence: number;
	/** Student's t. */
	readonly coverageFactor: number;
}

/** The concentration that a signal stands for, on the branch of the line that starts at zero. A signal beyond the top of a bent line gives the concentration of that top. */
export function concentrationAt(line: CalibrationLine, signal: number): number {
	const [a, b, k] = line.coefficients;
	// Written so that it goes over into (S - a)/b as k goes to 0.
	const root = Math.max(0, 1 + (4 * k * (signal - a)) / (b * b));
	return (2 * (signal - a)) / (b * (1 + Math.sqrt(root)));
}

/**
 * Concentration from the mean of `readings` readings of one liquid, with its standard uncertainty and intervals: u² = [s²/(w m) + g'Vg]/(dS/dc)². For the straight line with readings all alike this is
 * ISO 8466-1, u = (s/b) sqrt(1/m + 1/n + (S - mean S)²/(b² Sxx)); for the bent one ISO 8466-2 (both from memory).
 *
 * @param signal mean of the readings, in the signal unit of the line
 * @param readings m, how many were averaged
 * @throws ProblemError for a signal that is not finite, or the mean of no reading
 */
export function readBackwards(
	line: CalibrationLine,
	signal: number,
	readings = 1,
	confidence = 0.95,
): InverseReading {
	if (!Number.isFinite(signal) || !(readings >= 1))
		throwProblems([
			problem(
				"signal-wrong",
				{ column: "reading" },
				`a signal of ${signal}, the mean of ${readings} readings`,
				"a finite number, the mean of at least one reading",
				"Look the reading up again.",
			),
		]);
	const concentration = concentrationAt(line, signal);
	const own = readingVariance(line, signal, readings);
	const standardUncertainty =
		Math.sqrt(own + lineVariance(line, concentration)) /
		Math.abs(slopeAt(line, concentration));
	const t = studentTQuantile((1 + confidence) / 2, line.degreesOfFreedom);
	const half = t * standardUncertainty;
	return {
		concentration,
		standardUncertainty,
		interval: { low: concentration - half, high: concentration + half },
		exact: exactInterval(line, signal, own, t, concentration, half),
		confidence,
		coverageFactor: t,
	};
}

/** A half-width below this share of the highest standard comes of rounding, not of readings. */
const roundingOf = 1e-12;

/**
 * Where (S - f(c))² = t² [own + g'Vg]. For a straight line a quadratic equation in c; both its roots are finite only while the slope differs from zero, t² u(b)² < b². For a bent line each end is
 * bracketed outwards from the estimate.
 */
function exactInterval(
	line: CalibrationLine,
	signal: number,
	own: number,
	t: number,
	estimate: number,
	half: number,
): InverseReading["exact"] {
	const [a, b, k] = line.coefficients;
	const [[vaa, vab], [, vbb]] = line.covariance;
	if (t * t * vbb >= b * b)
		return {
			is: "not available",
			because:
				"the slope of the line does not differ from zero with this confidence, so that any concentration could give the reading",
		};
	// What rounding leaves of standards that stand on their line is too narrow to be bracketed.
	if (half <= roundingOf * line.high)
		return { is: "interval", low: estimate - half, high: estimate + half };
	if (k === 0) {
		const d = signal - a;
		const square = b * b - t * t * vbb;
		const linear = b * d + t * t * vab;
		const rest = d * d - t * t * (own + vaa);
		const root = Math.sqrt(Math.max(0, linear * linear - square * rest));
		return {
			is: "interval",
			low: (linear - Math.sign(square) * root) / square,
			high: (linear + Math.sign(square) * root) / square,
		};
	}
	const beyond = (c: number): number =>
		(signal - signalAt(line, c)) ** 2 - t * t * (own + lineVariance(line, c));
	const end = (direction: 1 | -1): number => {
		for (let step = 1; step <= 40; step++) {
			const far = estimate + (direction * half * step) / 2;
			if (slopeAt(line, far) * b <= 0) break;
			if (beyond(far) > 0)
				return bracketedRoot(beyond, estimate, far, 1e-12 * half);
		}
		return Number.NaN;
	};
	const [low, high] = [end(-1), end(1)];
	return Number.isNaN(low) || Number.isNaN(high)
		? {
				is: "not available",
				because: "the line bends over before the interval ends",
			}
		: { is: "interval", low, high };
}
