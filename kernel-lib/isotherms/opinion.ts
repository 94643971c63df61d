import { listed } from "../quantity";
import { bracketedRoot } from "../stats";
import { jointly, soakMayLook } from "../uptake";
import { type Isotherm, uptakeAt } from "./catalogue/index";
import { coverAt } from "./deviations";
import type { IsothermFit } from "./fit-result";
import { probeOf } from "./probe-words";
import { flasks, percent, roughly } from "./words";

type Unfinished = Omit<IsothermFit, "opinion">;

/** A plateau is taken as seen from this share of it on. Our decision. */
const plateauSeen = 0.8;
/** A plateau of which the points show less than this share is drawn by the form of the curve, however narrow its interval. Our decision. */
const plateauDrawnBelow = 0.5;
/** A curve whose lowest point already reaches this share of the plateau says nothing of the rise. Our decision. */
const riseSeen = 0.7;
/** Largest relative half-width of an interval that still counts as determined. Our decision. */
const determinedWithin = 0.5;
/** Shared errors above this share of the variance are named. Our decision. */
const sharedDominates = 0.5;
/** Residues that span less than this factor tell no isotherm from another. Our decision. */
const leastSpan = 5;

/** What a reader should know before using a fit, the weightiest first; empty where nothing is amiss. */
export function opinionOn(fit: Unfinished): string[] {
	return [
		...plateauOpinion(fit),
		...riseOpinion(fit),
		...looseOpinion(fit),
		...fit.fit.cautions,
		...numberOpinion(fit),
		...spanOpinion(fit),
		...sharedOpinion(fit),
		...pointsOpinion(fit),
	];
}

/** Whether a parameter is known well enough to be quoted. */
function loose(fit: Unfinished, name: string): boolean {
	const p = fit.parameters.find((q) => q.name === name);
	if (p === undefined || p.role === "fixed") return false;
	if (!fit.fit.converged.holds || p.standardError.is === "not known")
		return true;
	if (p.profile.is === "not known") return true;
	const { low, high } = p.profile.value;
	return (
		low.kind === "open" ||
		high.kind === "open" ||
		high.value - low.value > 2 * determinedWithin * Math.abs(p.value)
	);
}

/** Parameters that stand in the plateau. */
function plateauNames({ isotherm }: Unfinished): string[] {
	return isotherm.plateau.is === "at"
		? isotherm.plateau.symbol.split(" + ")
		: [];
}

function plateauOpinion(fit: Unfinished): string[] {
	const { isotherm, theta, range } = fit;
	if (isotherm.plateau.is !== "at") return [];
	const symbol = isotherm.plateau.symbol;
	const reached = coverAt(isotherm, theta, range.high);
	// Plateau and affinity are drawn by the same points: where one is loose, a plateau not yet seen is not settled either.
	const wide = fit.parameters.some((p) => loose(fit, p.name));
	if (reached >= (wide ? plateauSeen : plateauDrawnBelow)) return [];
	const found =
		reached > 0.02
			? `the highest point reaches ${percent(reached)} of the plateau`
			: "the points lie on the rise of the curve, with no sign of a plateau";
	const narrow = wide
		? ""
		: ", and its interval holds only as far as the curve keeps its form where there are no points";
	return [
		`${symbol} is not determined by these data: ${found}${narrow}; add flasks at ${placeForPlateau(fit)}.`,
	];
}

/** Where the next flasks would show the plateau, as a residue and as what has to be dosed for it. */
function placeForPlateau(fit: Unfinished): string {
	const { isotherm, theta, range } = fit;
	const most = 5 * range.high;
	const at = concentrationAtCover(isotherm, theta, range.high, plateauSeen);
	const wanted = at > 0 && at <= most ? at : most;
	const q = uptakeAt(isotherm, theta, wanted);
	const lines = fit.used.flatMap((p) =>
		p.balance.is === "known" ? [p.balance] : [],
	);
	const where = `a residue of about ${roughly(wanted)} mg/L or more`;
	if (lines.length === 0 || !Number.isFinite(q)) return where;
	const leanest = Math.max(...lines.map((l) => l.slope));
	const strongest = Math.max(...lines.map((l) => l.intercept / l.slope));
	const dose = leanest * wanted + q;
	return strongest <= wanted
		? `${where}, which needs ${stronger(fit)} or less dilution (the strongest flask held ${roughly(strongest)} mg/L before the char took any)`
		: `${where}: about ${roughly(dose)} mg of ${probeOf(fit.points)} for each gram of char in ${roughly(1000 * leanest)} mL of liquid per gram`;
}

function stronger({ points: { probe } }: Unfinished): string {
	return probe === "" ? "a stronger solution" : `stronger ${probe}`;
}

function concentrationAtCover(
	isotherm: Isotherm,
	theta: Float64Array,
	from: number,
	cover: number,
): number {
	const miss = (logC: number): number =>
		coverAt(isotherm, theta, Math.exp(logC)) - cover;
	const low = Math.log(from);
	const high = Math.min(low + 10, Math.log(isotherm.highestConcentration));
	const ends = [miss(low), miss(high)];
	if (!ends.every(Number.isFinite) || ends[0] >= 0 || ends[1] <= 0) return 0;
	return Math.exp(bracketedRoot(miss, low, high, 1e-3));
}

function riseOpinion(fit: Unfinished): string[] {
	const { isotherm, theta, range } = fit;
	if (isotherm.plateau.is !== "at") return [];
	const names = fit.parameters
		.map((p) => p.name)
		.filter((n) => !plateauNames(fit).includes(n) && loose(fit, n));
	const reached = coverAt(isotherm, theta, range.low);
	if (names.length === 0 || !(reached >= riseSeen)) return [];
	return [
		`${listed(names)} ${names.length === 1 ? "is" : "are"} not determined by these data: already the lowest point reaches ${percent(reached)} of the plateau; add flasks at residues well below ${roughly(range.low)} mg/L (more char, or less ${probeOf(fit.points)}).`,
	];
}

function looseOpinion(fit: Unfinished): string[] {
	const names = fit.parameters.map((p) => p.name).filter((n) => loose(fit, n));
	return names.length === 0
		? []
		: [
				`Do not quote ${listed(names)}: the interval is open, or wider than the value itself. What the curve gives inside the measured range can still be good.`,
			];
}

function numberOpinion(fit: Unfinished): string[] {
	const read = fit.used.filter((p) => p.is === "reading").length;
	const free = fit.parameters.filter((p) => p.role === "free").length;
	return read < 2 * free + 2
		? [
				`${read} points for ${free} parameters are few: nothing in them could show that the isotherm has the wrong shape. ${2 * free + 2} or more, spread evenly over the logarithm of the residue, would.`,
			]
		: [];
}

function spanOpinion({ range }: Unfinished): string[] {
	return range.low > 0 && range.high / range.low < leastSpan
		? [
				`The residues span a factor of ${roughly(range.high / range.low)} only: most isotherms look alike over so short a range.`,
			]
		: [];
}

function sharedOpinion(fit: Unfinished): string[] {
	const dominated = fit.parameters.filter(
		(p) =>
			p.shared.is === "value" &&
			p.standardError.is === "value" &&
			p.shared.value ** 2 > sharedDominates * p.standardError.value ** 2,
	);
	if (dominated.length === 0) return [];
	const j = fit.parameters.indexOf(dominated[0]);
	const largest = fit.sharedShifts.reduce((a, b) =>
		Math.abs(b.effect[j]) > Math.abs(a.effect[j]) ? b : a,
	);
	return [
		`Most of the uncertainty of ${listed(dominated.map((p) => p.name))} is shared by all flasks (first of all: ${largest.what}); more flasks would not make it smaller.`,
	];
}

function pointsOpinion(fit: Unfinished): string[] {
	const bounds = fit.points.points
		.filter((p) => p.is === "below detection")
		.map((p) => p.flask);
	const suspected = fit.points.flasks.flatMap(({ flask, demand }) =>
		demand.is === "suspected"
			? [{ name: flask.name, looksLike: demand.looksLike }]
			: [],
	);
	return [
		...(bounds.length === 0
			? []
			: [
					fit.method === "balance lines"
						? `Ran dry and counted as bounds: ${flasks(bounds)}.`
						: `Ran dry and left out, for the ordinary fit has no place for a bound: ${flasks(bounds)}.`,
				]),
		...fit.points.leftOut.map(
			(l) => `Flask ${l.flask} is left out: ${l.because}.`,
		),
		...(suspected.length === 0
			? []
			: [
					`What is left of the soak ${soakMayLook[jointly(suspected.map((s) => s.looksLike))]} (${flasks(suspected.map((s) => s.name))}): the curve may be that of char and soak together.`,
				]),
		...(fit.scaleFrom === "reading errors"
			? [
					"The errors are those of the readings alone; whatever else differs from flask to flask is not in the intervals.",
				]
			: []),
	];
}
