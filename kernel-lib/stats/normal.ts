import { requireNumber, requireProbability } from "./checks";

const SQRT_TWO_PI = 2.5066282746310002;

/** Density of the standard normal distribution. */
export function normalDensity(z: number): number {
	return Math.exp(-0.5 * z * z) / SQRT_TWO_PI;
}

/**
 * P(Z <= z) for a standard normal Z, with full relative accuracy in the lower tail (the upper tail is normalCdf(-z)).
 * Rational approximations of Cody (1969), Math. Comp. 23, 631, in the arrangement of Cody (1993), ACM TOMS 715.
 */
export function normalCdf(z: number): number {
	const size = Math.abs(z);
	if (size <= 0.67448975) return 0.5 + centre(z, size);
	requireNumber("the normal distribution", z);
	const tail = size <= 5.656854249492381 ? nearTail(size) : farTail(size);
	return z < 0 ? tail : 1 - tail;
}

function centre(z: number, size: number): number {
	if (size < 1e-16) return z / SQRT_TWO_PI;
	const q = z * z;
	const numerator =
		(((0.06568233791820745 * q + 2.2352520354606837) * q + 161.02823106855587) *
			q +
			1067.6894854603709) *
			q +
		18154.98125334356;
	const denominator =
		(((q + 47.202581904688245) * q + 976.0985517377767) * q +
			10260.932208618979) *
			q +
		45507.78933502673;
	return (z * numerator) / denominator;
}

function nearTail(y: number): number {
	const numerator =
		(((((((1.0765576773720192e-8 * y + 0.39894151208813466) * y +
			8.883149794388377) *
			y +
			93.50665613217785) *
			y +
			597.2702763948002) *
			y +
			2494.5375852903726) *
			y +
			6848.190450536283) *
			y +
			11602.65143764735) *
			y +
		9842.714838383978;
	const denominator =
		(((((((y + 22.266688044328117) * y + 235.387901782625) * y +
			1519.3775994075547) *
			y +
			6485.558298266761) *
			y +
			18615.571640885097) *
			y +
			34900.95272114598) *
			y +
			38912.00328609327) *
			y +
		19685.429676859992;
	return (splitExponential(y) * numerator) / denominator;
}

function farTail(y: number): number {
	if (y > 38.5) return 0;
	const q = 1 / (y * y);
	const numerator =
		((((0.023073441764940174 * q + 0.215898534057957) * q +
			0.12740116116024736) *
			q +
			0.022235277870649807) *
			q +
			0.0014216191932278934) *
			q +
		2.9112874951168793e-5;
	const denominator =
		((((q + 1.284260096144911) * q + 0.4682382124808651) * q +
			0.06598813786892856) *
			q +
			0.0037823963320275824) *
			q +
		7.297515550839662e-5;
	const correction = (q * numerator) / denominator;
	return (splitExponential(y) * (0.3989422804014327 - correction)) / y;
}

/** exp(-y^2/2) with the square split so that its rounding does not reach the exponent. */
function splitExponential(y: number): number {
	const coarse = Math.trunc(y * 16) / 16;
	return (
		Math.exp(-0.5 * coarse * coarse) *
		Math.exp(-0.5 * (y - coarse) * (y + coarse))
	);
}

/**
 * z with P(Z <= z) = p, for p from 0 (-Infinity) to 1 (Infinity).
 * Wichura (1988), Algorithm AS 241 (PPND16), Appl. Statist. 37, 477: about 1 part in 10^16.
 */
export function normalQuantile(p: number): number {
	const q = p - 0.5;
	if (Math.abs(q) <= 0.425) {
		const r = 0.180625 - q * q;
		return (
			(q *
				(((((((2509.0809287301227 * r + 33430.57558358813) * r +
					67265.7709270087) *
					r +
					45921.95393154987) *
					r +
					13731.69376550946) *
					r +
					1971.5909503065513) *
					r +
					133.14166789178438) *
					r +
					3.3871328727963665)) /
			(((((((5226.495278852854 * r + 28729.085735721943) * r +
				39307.89580009271) *
				r +
				21213.794301586597) *
				r +
				5394.196021424751) *
				r +
				687.1870074920579) *
				r +
				42.31333070160091) *
				r +
				1)
		);
	}
	requireProbability("the normal quantile", p);
	const tail = q < 0 ? p : 1 - p;
	if (tail === 0)
		return q < 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
	const magnitude = tailQuantile(Math.sqrt(-Math.log(tail)));
	return q < 0 ? -magnitude : magnitude;
}

function tailQuantile(root: number): number {
	if (root <= 5) {
		const r = root - 1.6;
		return (
			(((((((0.0007745450142783414 * r + 0.022723844989269184) * r +
				0.2417807251774506) *
				r +
				1.2704582524523684) *
				r +
				3.6478483247632045) *
				r +
				5.769497221460691) *
				r +
				4.630337846156546) *
				r +
				1.4234371107496835) /
			(((((((1.0507500716444169e-9 * r + 0.0005475938084995345) * r +
				0.015198666563616457) *
				r +
				0.14810397642748008) *
				r +
				0.6897673349851) *
				r +
				1.6763848301838038) *
				r +
				2.053191626637759) *
				r +
				1)
		);
	}
	const r = root - 5;
	return (
		(((((((2.0103343992922881e-7 * r + 2.7115555687434876e-5) * r +
			0.0012426609473880784) *
			r +
			0.026532189526576124) *
			r +
			0.29656057182850487) *
			r +
			1.7848265399172913) *
			r +
			5.463784911164114) *
			r +
			6.657904643501103) /
		(((((((2.0442631033899397e-15 * r + 1.421511758316446e-7) * r +
			1.8463183175100548e-5) *
			r +
			0.0007868691311456133) *
			r +
			0.014875361290850615) *
			r +
			0.1369298809227358) *
			r +
			0.599832206555888) *
			r +
			1)
	);
}
