import { type ActivationCondition, activationConditions } from "../activation";
import { requireTrial, type Trial } from "../bench";
import {
	didYouMean,
	listed,
	problem,
	quoted,
	throwProblems,
} from "../quantity";
import {
	conditionOfUptake,
	type FiringUptake,
	uptakesByFiring,
} from "../uptake";
import type { Figure, Layer, Point } from "./description";
import { errorBar, errorBarShare } from "./error-bar";
import { figure } from "./figure";
import { boundArrow, onlyLimits, uptakeBar } from "./flask-marks";
import { flaskWords, ofProbe, uptakeLabel } from "./flask-words";
import { type SeriesLook, seriesLook } from "./look";
import { countOf, roundedTo, sentence } from "./words";

/** Conditions that are only as good as the balance of the firing. */
const fromWeighings: readonly ActivationCondition[] = [
	"burn-off",
	"char yield",
];

/** Unit that each condition is drawn in. */
const units: Readonly<Record<ActivationCondition, string>> = {
	"burn-off": "%",
	"char yield": "%",
	"impregnation ratio": "1",
	"agent per carbon": "1",
	"highest temperature": "°C",
	"hold at the highest temperature": "min",
	"soak time": "h",
};

/** A flask whose condition is known, and that condition in the unit of the axis. */
interface Placed {
	readonly u: FiringUptake;
	readonly x: number;
	readonly spread: number;
}

function placedOn(
	uptakes: readonly FiringUptake[],
	condition: ActivationCondition,
): Placed[] {
	return uptakes.flatMap((u) => {
		const found = conditionOfUptake(u, condition);
		if (found.is === "not known") return [];
		const c = found.quantity.to(units[condition] as never);
		return [{ u, x: c.value, spread: c.standardUncertainty }];
	});
}

/** The firing that the flask's char came from; "" where none is known. */
function firingOf({ firing }: FiringUptake): string {
	return firing.is === "linked" ? firing.yields.firing.name : "";
}

/** A number of the axis with its unit. */
function withUnit(number: string, condition: ActivationCondition): string {
	const unit = units[condition];
	return unit === "1" ? number : `${number} ${unit}`;
}

function treatmentLayers(
	own: readonly Placed[],
	condition: ActivationCondition,
	treatment: string,
	{ ink, shape }: SeriesLook,
): Layer[] {
	const points = own.map(({ u, x, spread }): Point => {
		const firing = firingOf(u);
		return {
			x,
			y: u.uptake.quantity.in("mg/g"),
			...(spread > 0 ? { xInterval: errorBar(x, spread) } : {}),
			...uptakeBar(u),
			hover: `${flaskWords(u)}\n${firing === "" ? "" : `firing ${firing}, `}${condition} ${withUnit(roundedTo(x, 2 * spread), condition)}`,
		};
	});
	const arrows = own.flatMap(({ u, x }) =>
		boundArrow(u.uptake.is, {
			x,
			y: u.uptake.quantity.in("mg/g"),
			shape,
			hover: flaskWords(u),
		}),
	);
	return [
		{ is: "points", name: treatment, ink, shape, points },
		...onlyLimits(ink, arrows),
	];
}

/** Firings whose condition is not to be relied on, because their balance does not close. */
function unbalancedFirings(
	placed: readonly Placed[],
	condition: ActivationCondition,
): string[] {
	if (!fromWeighings.includes(condition)) return [];
	return [
		...new Set(
			placed.flatMap(({ u }) =>
				u.firing.is === "linked" && u.firing.unbalanced.includes(firingOf(u))
					? [firingOf(u)]
					: [],
			),
		),
	];
}

function rangeText(values: readonly number[]): string {
	const rounded = (value: number): string =>
		roundedTo(Number(value.toPrecision(3)), 0);
	const low = rounded(Math.min(...values));
	const high = rounded(Math.max(...values));
	return low === high ? low : `${low} to ${high}`;
}

/** Any uptakes of one probe against a condition. */
export function uptakesAgainstCondition(
	uptakes: readonly FiringUptake[],
	probe: string,
	condition: ActivationCondition,
): Figure {
	const placed = placedOn(uptakes, condition);
	const unbalanced = unbalancedFirings(placed, condition);
	const without = uptakes.filter((u) => !placed.some((p) => p.u === u));
	// A treatment looks the same against every condition, whether others have that condition or not.
	const all = [...new Set(uptakes.map((u) => u.flask.treatment))];
	const of = (treatment: string): Placed[] =>
		placed.filter((p) => p.u.flask.treatment === treatment);
	const treatments = all.filter((t) => of(t).length > 0);
	const unit = units[condition];
	return figure({
		title: `Uptake${ofProbe(probe)} and ${condition}`,
		alt: `Uptake${ofProbe(probe)} against ${condition} of ${countOf(placed.length, "flask")}. ${treatments
			.map(
				(t) =>
					`${quoted(t)}: uptake ${rangeText(of(t).map((p) => p.u.uptake.quantity.in("mg/g")))} mg/g at ${withUnit(rangeText(of(t).map((p) => p.x)), condition)}`,
			)
			.join("; ")}.`,
		x: {
			label: `${sentence(condition)} of the firing`,
			unit: unit === "1" ? "" : unit,
			scale: { is: "linear" },
		},
		y: {
			label: uptakeLabel(
				placed.map((p) => p.u),
				probe,
			),
			unit: "mg/g",
			scale: { is: "linear" },
		},
		layers: treatments.flatMap((t) =>
			treatmentLayers(of(t), condition, t, seriesLook(all.indexOf(t))),
		),
		notes: [
			`Bars: measuring uncertainty, ${errorBarShare}. Flasks of one firing are one activation; uptakes stand at residues of their own.`,
			...(unbalanced.length > 0
				? [
						`Not to be relied on, for the balance does not close: ${condition} of ${listed(unbalanced.map(quoted))}.`,
					]
				: []),
			...(without.length > 0
				? [
						`Without ${condition}: flask ${listed(without.map((u) => u.flask.name))}.`,
					]
				: []),
		],
	});
}

/**
 * Uptake (mg/g) of every flask that is not left out against a condition of the firing that its char came from (bars: measuring uncertainty, 95 %). Flasks of one firing stand one above the other: they are one activation, not several. Flasks without the
 * condition are named in the note.
 *
 * @param condition one of activation.activationConditions
 * @throws ProblemError for a condition that firings do not have, and as uptake.uptakesByFiring does
 * @example
 * figures.uptakeAgainstCondition(kilnTrial, "burn-off").x.label // => "Burn-off of the firing"
 */
export function uptakeAgainstCondition(
	trial: Trial,
	condition: ActivationCondition,
): Figure {
	requireTrial(trial);
	throwProblems(
		activationConditions.includes(condition)
			? []
			: [
					problem(
						"no-such-condition",
						{ column: "figures.uptakeAgainstCondition" },
						`the condition "${condition}"`,
						"a condition of a firing",
						didYouMean(`${condition}`, activationConditions),
					),
				],
	);
	return uptakesAgainstCondition(
		uptakesByFiring(trial),
		trial.probe.name,
		condition,
	);
}
