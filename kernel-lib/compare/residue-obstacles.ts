import { type IsothermFit, uptakeAt } from "../isotherms";
import { ammoniaInAny, type FlaskUptake } from "../uptake";
import type { CharAndLiquid, Dosing, Obstacle } from "./obstacle";
import type { DosesOfTreatment } from "./several-doses";

/** How far to either side of the stated residue the flasks of an isotherm should reach. */
const below = 3;
const above = 2;

export function meanFlask(flasks: readonly FlaskUptake[]): CharAndLiquid {
	const mean = (f: (u: FlaskUptake) => number): number =>
		flasks.reduce((sum, u) => sum + f(u), 0) / flasks.length;
	return {
		char: mean((u) => u.charMass.in("g")),
		liquid: mean((u) => u.liquid.in("L")),
	};
}

export function dosingOf(
	flasks: readonly FlaskUptake[],
	flask: CharAndLiquid,
): Dosing {
	return {
		probe: flasks[0]?.probe ?? "iodine",
		ammonia: ammoniaInAny(flasks),
		flask,
	};
}

/** What leaves a flask at a residue, mg: what stays in solution and what the char holds. */
export function doseFor(
	{ char, liquid }: CharAndLiquid,
	residue: number,
	uptake: number,
): number {
	return liquid * residue + char * Math.max(0, uptake);
}

/** A treatment whose flasks carry no isotherm. */
export function tooFewObstacle(
	doses: DosesOfTreatment,
	flasks: readonly FlaskUptake[],
	residue: number,
): Obstacle {
	const { treatment } = doses;
	if (flasks.length === 0) return { is: "no flask left", treatment };
	if (doses.enough) return { is: "unlike grams", treatments: [treatment] };
	const flask = meanFlask(flasks);
	const uptake =
		flasks.reduce((sum, u) => sum + u.computedUptake.in("mg/g"), 0) /
		flasks.length;
	return {
		is: "too few doses",
		doses,
		residue,
		from: doseFor(flask, residue / below, uptake),
		to: doseFor(flask, residue * above, uptake),
		uptake,
		dosing: dosingOf(flasks, flask),
	};
}

/** A residue that the flasks did not reach: the curve there is a guess. */
export function outsideObstacle(fit: IsothermFit, residue: number): Obstacle {
	const { range, points, isotherm, theta } = fit;
	const high = residue > range.high;
	const nearest = [...points.flasks].sort((a, b) =>
		high
			? b.residue.quantity.in("mg/L") - a.residue.quantity.in("mg/L")
			: a.residue.quantity.in("mg/L") - b.residue.quantity.in("mg/L"),
	);
	const flask = meanFlask(nearest.slice(0, 1));
	const carried = uptakeAt(
		isotherm,
		theta,
		Math.min(residue, isotherm.highestConcentration / 2),
	);
	const edge = uptakeAt(isotherm, theta, high ? range.high : range.low);
	const uptake = Number.isFinite(carried) ? carried : edge;
	return {
		is: "residue not reached",
		treatment: points.name,
		residue,
		range,
		otherUnit: [1000, 1 / 1000].some(
			(f) => residue * f >= range.low && residue * f <= range.high,
		),
		dose: doseFor(flask, residue * (high ? 1.1 : 0.9), uptake),
		dosing: dosingOf(points.flasks, flask),
	};
}

/** An isotherm that the data do not determine. */
export function undeterminedObstacle(
	{ points, isotherm }: IsothermFit,
	because: string,
): Obstacle {
	return {
		is: "isotherm not determined",
		treatment: points.name,
		isotherm: isotherm.name,
		because,
	};
}
