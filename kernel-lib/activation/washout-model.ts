import { defineModel, type Model } from "../fit";
import type { WashReading } from "./rinse-readings";

/** Ion product of water at 25 °C, (mol/L)². */
const waterIons = 1e-14;

/** Hydroxide beyond hydrogen ions at a pH, mol/L: 10^(pH - 14) - 10^(-pH). */
export function alkalinityOf(pH: number): number {
	return 10 ** (pH - 14) - 10 ** -pH;
}

/** The pH at an excess of hydroxide, from [OH] - [H] = excess and [OH][H] = 1e-14. */
export function pHOf(excess: number): number {
	// The larger root first: the difference of two near numbers would lose the smaller one.
	const larger =
		(Math.abs(excess) + Math.sqrt(excess * excess + 4 * waterIons)) / 2;
	const hydrogen = excess > 0 ? waterIons / larger : larger;
	return -Math.log10(hydrogen);
}

/** What is fitted: a curve over the number of the rinse, on a scale on which readings scatter alike (ln of the conductivity; pH as it is). */
export interface WashScale {
	readonly toScale: (reading: number) => number;
	/** From the logarithm of the excess over the floor (µS/cm, or mol/L of ions) to the fitted scale; finite however far the curve is followed. */
	readonly fromExcess: (lnExcess: number, floor: number) => number;
	readonly excess: (reading: number, floor: number) => number;
	readonly order: number;
}

/** Exponents beyond this have no number. */
const beyondNumbers = 700;

export function scaleOf(
	reading: WashReading,
	sign: number,
	order: number,
): WashScale {
	return reading === "conductivity"
		? {
				toScale: Math.log,
				fromExcess: (lnExcess, floor) =>
					floor > 0 && lnExcess < beyondNumbers
						? Math.log(floor + Math.exp(lnExcess))
						: lnExcess,
				excess: (read, floor) => read - floor,
				order: 1,
			}
		: {
				toScale: (read) => read,
				fromExcess: (lnExcess, floor) =>
					pHOf(
						alkalinityOf(floor) +
							sign * Math.exp(Math.min(lnExcess, beyondNumbers / 2)),
					),
				excess: (read, floor) =>
					sign * (alkalinityOf(read) - alkalinityOf(floor)),
				order,
			};
}

/** Sum of ln(1 + V/V_r) over the rinses up to a number: minus the logarithm of what is left of the first liquor. Rinses beyond the list have the volume `next`. */
export function dilutionExponent(
	volumes: readonly number[],
	rinse: number,
	retained: number,
	next: number,
): number {
	let exponent = 0;
	for (let k = 0; k < Math.min(rinse, volumes.length); k++)
		exponent += Math.log1p(volumes[k] / retained);
	return (
		exponent + Math.max(0, rinse - volumes.length) * Math.log1p(next / retained)
	);
}

/** A third parameter beside start and retained volume: none, the floor, or a bend of ln(excess) about a middle rinse. */
export type ThirdParameter =
	| { readonly is: "none" }
	| { readonly is: "ln floor" }
	| { readonly is: "bend"; readonly middle: number };

/** Logarithms of the retained volumes that a fit may try: a ten thousandth of the smallest rinse to ten thousand of the largest. */
export function retainedLimits(
	volumes: readonly number[],
	next: number,
): { readonly least: number; readonly most: number } {
	return {
		least: Math.log(Math.min(...volumes, next) * 1e-4),
		most: Math.log(Math.max(...volumes, next) * 1e4),
	};
}

/**
 * The washout model: the char keeps a liquor of volume V_r between rinses; each rinse of volume V mixes with it wholly and runs off, so that what is dissolved falls by
 * V_r / (V_r + V) a rinse: c_n = c_0 Π V_r / (V_r + V_k). A reading is the water's own plus what goes with c_n (conductivity) or with its power `order` (ions by pH).
 */
export function washModel(
	scale: WashScale,
	volumes: readonly number[],
	next: number,
	floor: number,
	third: ThirdParameter,
): Model {
	const limits = retainedLimits(volumes, next);
	return defineModel({
		name: "washout by well-mixed rinses",
		formula: "c_n = c_0 \\prod_{k=1}^{n} V_r / (V_r + V_k)",
		parameters: [
			{ name: "ln start" },
			{ name: "ln retained", lower: limits.least, upper: limits.most },
			...(third.is === "none" ? [] : [{ name: third.is }]),
		],
		evaluate: (p, x, out) => {
			const retained = Math.exp(p[1]);
			for (let i = 0; i < x.length; i++) {
				const exponent =
					scale.order * dilutionExponent(volumes, x[i], retained, next);
				const bend =
					third.is === "bend" ? p[2] * (x[i] - third.middle) ** 2 : 0;
				out[i] = scale.fromExcess(
					p[0] - exponent + bend,
					third.is === "ln floor" ? Math.exp(p[2]) : floor,
				);
			}
		},
	});
}
