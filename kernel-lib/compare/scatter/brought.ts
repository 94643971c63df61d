import {
	derivativesAt,
	type IsothermFit,
	type IsothermPoint,
	uptakeAt,
} from "../../isotherms";
import type { Observation } from "../observations";
import { middleOf, type Slope } from "../slope";
import type { Comparison } from "../verdict";

/** A flask as it stands at the residue of the comparison. */
export interface Brought {
	readonly of: Observation;
	/** mg/g */
	readonly value: number;
	/** What its uptake was multiplied by on the way. */
	readonly factor: number;
	/** How steeply the curve that it was brought along rises at its own residue: d(ln uptake)/d(ln residue). */
	readonly slope: number;
	/** By parameter of its curve, d(value)/d(parameter) beyond what the parameter does at the residue of the comparison; empty where no curve was fitted. */
	readonly pulls: Float64Array;
	/** What an error of its residue makes of the value, (mg/g)/(mg/L); 0 where no curve was fitted. */
	readonly stretch: number;
	/** Flasks with the same name here lie about one curve. */
	readonly curve: string;
}

const none = new Float64Array(0);

function carried(
	of: Observation,
	at: number,
	slopes: ReadonlyMap<string, Slope>,
): Brought {
	const slope = middleOf(slopes.get(of.treatment) as Slope);
	const residue = of.flask.residue.quantity.in("mg/L");
	return {
		of,
		value: of.value,
		factor: (at / residue) ** slope,
		slope,
		pulls: none,
		stretch: 0,
		curve: "",
	};
}

/** d(ln uptake)/d(parameters) of a curve. */
function relative({ isotherm, theta }: IsothermFit, at: number): Float64Array {
	const uptake = uptakeAt(isotherm, theta, at);
	return derivativesAt(isotherm, theta, at).map((d) => d / uptake);
}

/** A difference below this share of what it is of is rounding. */
const rounding = 1e-9;

/** a - b, without what rounding leaves of equals: a plateau does the same everywhere. */
const difference = (a: number, b: number): number =>
	Math.abs(a - b) > rounding * Math.abs(a) ? a - b : 0;

/** Along the curve that was fitted to the flask and others. */
function alongCurve(
	of: Observation,
	at: number,
	fit: IsothermFit,
	{ balance }: IsothermPoint,
	curve: string,
): Brought {
	const { isotherm, theta } = fit;
	const residue = of.flask.residue.quantity.in("mg/L");
	const here = uptakeAt(isotherm, theta, residue);
	const there = uptakeAt(isotherm, theta, at);
	const factor = there / here;
	const rise = isotherm.slope(theta, residue);
	const line = balance.is === "known" ? balance.slope : 0;
	const pulledThere = relative(fit, at);
	return {
		of,
		value: of.value * factor,
		factor,
		slope: (residue * rise) / here,
		pulls: relative(fit, residue).map(
			(d, j) => there * difference(d, pulledThere[j]),
		),
		stretch: factor * (line + rise),
		curve,
	};
}

/** The flasks of a comparison whose uptakes were read, each at its residue; on isotherms those that lie on a curve. */
export function brought({ at, compared }: Comparison): Brought[] {
	const flasks = compared.filter((o) => o.side === "value");
	const residue = at.residue.in("mg/L");
	if (at.is === "carried")
		return flasks.map((o) => carried(o, residue, at.slopes));
	const curves = new Map(
		at.fits.flatMap((fit, k) =>
			fit.used.flatMap((p) =>
				p.is === "reading" ? [[p.flask, { fit, point: p, k }]] : [],
			),
		),
	);
	return flasks.flatMap((o) => {
		const curve = curves.get(o.name);
		return curve === undefined
			? []
			: [alongCurve(o, residue, curve.fit, curve.point, String(curve.k))];
	});
}

/** What the curves followed of their flasks: for each parameter of each curve how it moves the values. */
export function followedByCurves(flasks: readonly Brought[]): Float64Array[] {
	return [...new Set(flasks.map((b) => b.curve))].flatMap((curve) => {
		const own = flasks.filter((b) => b.curve === curve);
		return [...own[0].pulls.keys()]
			.filter((j) => own.some((b) => b.pulls[j] !== 0))
			.map((j) =>
				Float64Array.from(flasks, (b) => (b.curve === curve ? b.pulls[j] : 0)),
			);
	});
}

/** How much more than in the nearest flask an error of the residue may count. Our decision: scatter is taken to be alike in all flasks. */
export const mostStretched = 2;

/** Without the flasks that had to be brought so far that their errors count for much more than those of others. */
export function nearEnough(flasks: readonly Brought[]): Brought[] {
	const least = Math.min(...flasks.map((b) => b.stretch));
	return flasks.filter((b) => b.stretch <= mostStretched * least);
}
