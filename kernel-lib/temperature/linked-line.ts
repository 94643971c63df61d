import { defineModel, fit as fitCurve } from "../fit";
import { known, type MaybeKnown, notKnown } from "../quantity";
import { chiSquareUpperTail, normalQuantile, studentTQuantile } from "../stats";

/** An error that several points of the line lean on: what one standard uncertainty does to each y. */
export interface LineEffect {
	readonly key: string;
	readonly what: string;
	readonly effect: Float64Array;
}

/** A straight line through points with errors of their own and errors in common. */
export interface LinkedLine {
	readonly intercept: number;
	readonly slope: number;
	/** Covariance from the points' own errors, or from the scatter about the line where that is larger. */
	readonly own: MaybeKnown<{
		readonly intercept: number;
		readonly slope: number;
		readonly covariance: number;
	}>;
	/** Shifts of intercept and slope for one standard uncertainty of each shared input. */
	readonly shared: readonly {
		readonly what: string;
		readonly intercept: number;
		readonly slope: number;
	}[];
	/** The part that each point's own error has in intercept and slope, with the degrees of freedom of that error; empty where the scatter was taken. */
	readonly parts: readonly {
		readonly intercept: number;
		readonly slope: number;
		readonly degreesOfFreedom: number;
	}[];
	/** Of the scatter about the line: points less two. */
	readonly degreesOfFreedom: number;
	readonly errorsFrom: "the points" | "the scatter about the line";
	/** Chance of so much scatter about the line from the points' own errors alone; 1 where there is none to judge. */
	readonly probability: number;
	readonly residuals: Float64Array;
}

const line = defineModel({
	name: "straight line",
	parameters: ["intercept", "slope"],
	curve: (x, a, b) => a + b * x,
	derivatives: (_, x, out) => {
		for (let i = 0; i < x.length; i++) {
			out[i] = 1;
			out[x.length + i] = x[i];
		}
	},
	start: (_x, y, out) => out.set([y[0], 0]),
});

/**
 * Weighted straight line. Own errors of the points are compared with the scatter about the line; the larger of the two is taken, because a scatter by chance smaller than the points' errors proves nothing, and a larger one
 * shows that something was left out. Shared errors move the line as a whole and are added to neither.
 *
 * @param x centred by the caller where that matters
 * @param own standard deviations of y; all 0 where none are known
 * @param ownDegreesOfFreedom of each of them
 */
export function linkedLine(
	x: ArrayLike<number>,
	y: ArrayLike<number>,
	own: ArrayLike<number>,
	effects: readonly LineEffect[],
	ownDegreesOfFreedom: ArrayLike<number>,
): LinkedLine {
	const n = x.length;
	const ownKnown = Array.from(own).every((s) => s > 0);
	const sigma = ownKnown ? Array.from(own) : Array.from(own, () => 1);
	const fitted = fitCurve(
		line,
		{ x, y, sigmaY: sigma, sigmaIsAbsolute: true },
		{ search: "never" },
	);
	const [intercept, slope] = fitted.theta;
	const squares = fitted.residualSumOfSquares;
	const spare = n - 2;
	const scatter = spare > 0 ? squares / spare : 0;
	const fromScatter = !ownKnown || scatter > 1;
	const scale = fromScatter ? scatter : 1;
	const inverse =
		fitted.covariance.is === "value"
			? fitted.covariance.value
			: new Float64Array(4);
	const shiftBy = (change: Float64Array): Shift =>
		shiftOf(change, x, sigma, inverse);
	return {
		intercept,
		slope,
		own:
			spare < 1
				? noSpare
				: known({
						intercept: inverse[0] * scale,
						slope: inverse[3] * scale,
						covariance: inverse[1] * scale,
					}),
		shared: effects.map((e) => ({ what: e.what, ...shiftBy(e.effect) })),
		parts: fromScatter
			? []
			: sigma.map((error, i) => ({
					...shiftBy(Float64Array.from(sigma, (_, k) => (k === i ? error : 0))),
					degreesOfFreedom: ownDegreesOfFreedom[i],
				})),
		degreesOfFreedom: spare,
		errorsFrom: fromScatter ? "the scatter about the line" : "the points",
		probability: ownKnown && spare > 0 ? chiSquareUpperTail(squares, spare) : 1,
		residuals: fitted.residuals,
	};
}

const noSpare = notKnown(
	"two temperatures always lie on a straight line: nothing in them shows how far a third would lie off it",
);

interface Shift {
	readonly intercept: number;
	readonly slope: number;
}

/** What a change of the y does to the line. */
function shiftOf(
	change: Float64Array,
	x: ArrayLike<number>,
	sigma: readonly number[],
	inverse: Float64Array,
): Shift {
	let pull0 = 0;
	let pull1 = 0;
	for (let i = 0; i < x.length; i++) {
		const w = change[i] / sigma[i] ** 2;
		pull0 += w;
		pull1 += w * x[i];
	}
	return {
		intercept: inverse[0] * pull0 + inverse[1] * pull1,
		slope: inverse[2] * pull0 + inverse[3] * pull1,
	};
}

/** A linear combination of intercept and slope with its interval. */
export interface LineValue {
	readonly value: number;
	readonly standardError: MaybeKnown<number>;
	readonly low: MaybeKnown<number>;
	readonly high: MaybeKnown<number>;
}

/** a x intercept + b x slope, with own and shared errors together. The shared ones are taken as known; degrees of freedom by Welch and Satterthwaite (JCGM 100:2008, G.4.1). */
export function onLine(
	l: LinkedLine,
	a: number,
	b: number,
	confidence: number,
): LineValue {
	const value = a * l.intercept + b * l.slope;
	if (l.own.is === "not known")
		return { value, standardError: l.own, low: l.own, high: l.own };
	const { intercept, slope, covariance } = l.own.value;
	const own = Math.max(
		0,
		a * a * intercept + 2 * a * b * covariance + b * b * slope,
	);
	const shared = l.shared.reduce(
		(sum, s) => sum + (a * s.intercept + b * s.slope) ** 2,
		0,
	);
	const error = Math.sqrt(own + shared);
	const below =
		l.parts.length > 0
			? l.parts.reduce(
					(sum, part) =>
						sum +
						(a * part.intercept + b * part.slope) ** 4 / part.degreesOfFreedom,
					0,
				)
			: own ** 2 / l.degreesOfFreedom;
	const df = below > 0 ? (own + shared) ** 2 / below : Number.POSITIVE_INFINITY;
	const p = 0.5 + confidence / 2;
	const half =
		error * (Number.isFinite(df) ? studentTQuantile(p, df) : normalQuantile(p));
	return {
		value,
		standardError: known(error),
		low: known(value - half),
		high: known(value + half),
	};
}
