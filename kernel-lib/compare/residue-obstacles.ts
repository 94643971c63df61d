import { type IsothermFit, uptakeAt } from "../isotherms";
import type { FlaskUptake } from "../uptake";
import type { Obstacle } from "./obstacles";
import type { DosesOfTreatment } from "./several-doses";
import { residueText } from "./stated-residue";
import { roughly } from "./words";

/** How far to either side of the stated residue the flasks of an isotherm should reach. */
const below = 3;
const above = 2;

/** A flask as it was made: char and liquid, for saying what to dose. */
interface Jar {
	/** g */
	readonly char: number;
	/** L */
	readonly liquid: number;
}

function jarOf(flasks: readonly FlaskUptake[]): Jar {
	const mean = (f: (u: FlaskUptake) => number): number =>
		flasks.reduce((sum, u) => sum + f(u), 0) / flasks.length;
	return {
		char: mean((u) => u.charMass.in("g")),
		liquid: mean((u) => u.liquid.in("L")),
	};
}

/** What leaves a jar at a residue, mg: what stays in solution and what the char holds. */
function doseFor(jar: Jar, residue: number, uptake: number): number {
	return jar.liquid * residue + jar.char * Math.max(0, uptake);
}

function jarText(jar: Jar): string {
	return `${Number(jar.char.toPrecision(2))} g of char in ${Number((1000 * jar.liquid).toPrecision(2))} mL`;
}

/** What is dosed, with what its grams count. */
function dosedIn(flasks: readonly FlaskUptake[]): string {
	const probe = flasks[0]?.probe ?? "iodine";
	return probe === "iodine" ? "iodine (I2)" : probe;
}

/** A treatment whose flasks carry no isotherm. */
export function tooFewObstacle(
	doses: DosesOfTreatment,
	flasks: readonly FlaskUptake[],
	residue: number,
): Obstacle {
	const { treatment } = doses;
	if (flasks.length === 0)
		return {
			headline: `no flask of "${treatment}" is left`,
			reason: `Every flask of "${treatment}" was left out because of a deviation, so that there is no isotherm to read.`,
			comparableDose: "",
		};
	if (doses.enough)
		return {
			headline: "not per gram of the same thing",
			reason: `Some uptakes of "${treatment}" are per gram of dry char and some per gram as weighed: give the moisture of all of them.`,
			comparableDose: "",
		};
	const jar = jarOf(flasks);
	const uptake =
		flasks.reduce((sum, u) => sum + u.computedUptake.in("mg/g"), 0) /
		flasks.length;
	return {
		headline: `"${treatment}" has too few doses for an isotherm`,
		reason: `"${treatment}" shows ${doses.because}, so that its uptake at ${residueText(residue)} cannot be read off a curve.`,
		comparableDose: `Make flasks of "${treatment}" at four or more doses whose residues lie on both sides of ${residueText(residue)}: with ${jarText(jar)} about ${roughly(doseFor(jar, residue / below, uptake))} to ${roughly(doseFor(jar, residue * above, uptake))} mg of ${dosedIn(flasks)}, as if each gram took up ${roughly(uptake)} mg as now.`,
	};
}

/** A residue that the flasks did not reach: the curve there is a guess. */
export function outsideObstacle(fit: IsothermFit, residue: number): Obstacle {
	const { range, points, isotherm, theta } = fit;
	const treatment = points.name;
	const high = residue > range.high;
	const nearest = [...points.flasks].sort((a, b) =>
		high
			? b.residue.quantity.in("mg/L") - a.residue.quantity.in("mg/L")
			: a.residue.quantity.in("mg/L") - b.residue.quantity.in("mg/L"),
	);
	const jar = jarOf(nearest.slice(0, 1));
	const carried = uptakeAt(
		isotherm,
		theta,
		Math.min(residue, isotherm.highestConcentration / 2),
	);
	const edge = uptakeAt(isotherm, theta, high ? range.high : range.low);
	const uptake = Number.isFinite(carried) ? carried : edge;
	const slip = [1000, 1 / 1000].some(
		(f) => residue * f >= range.low && residue * f <= range.high,
	)
		? " Was it meant in the other unit, g/L for mg/L?"
		: "";
	return {
		headline: `${residueText(residue)} lies outside the residues that "${treatment}" reached`,
		reason: `The flasks of "${treatment}" left ${residueText(range.low)} to ${residueText(range.high)} of ${points.flasks[0]?.probe ?? "iodine"}; at ${residueText(residue)} its isotherm would be carried on beyond what was measured.${slip}`,
		comparableDose: `Dose a flask of "${treatment}" with about ${roughly(doseFor(jar, residue * (high ? 1.1 : 0.9), uptake))} mg of ${dosedIn(points.flasks)} for ${jarText(jar)}: a first estimate, its isotherm carried on to there.`,
	};
}

/** An isotherm that the data do not determine. */
export function undeterminedObstacle(fit: IsothermFit, why: string): Obstacle {
	return {
		headline: `the isotherm of "${fit.points.name}" is not determined`,
		reason: `The ${fit.isotherm.name} isotherm of "${fit.points.name}" gives no uptake with an error: ${why}.`,
		comparableDose: "",
	};
}
