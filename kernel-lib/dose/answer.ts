import type { IsothermFit } from "../isotherms";
import { inDigits, nonAdsorbable } from "../isotherms";
import type { DoseForTarget } from "./dose";
import { type FromFits, fromFits, notSettled } from "./from-fits";
import {
	type DoseQuestion,
	flasksNear,
	type NoDose,
	noDose,
	type PlainQuestion,
	plainQuestion,
	thetaFor,
	whyNoDose,
} from "./question";
import { type Stage, stagesFor, totalDose } from "./stages";

/** The answer in numbers: a dose with its interval, or why there is none. */
export function answerTo(
	fit: IsothermFit,
	question: DoseQuestion,
): DoseForTarget | NoDose {
	const q = plainQuestion(question);
	const [refusal] = whyNoDose(fit, q);
	if (refusal !== undefined) return refusal;
	const { scheme, start, target, stageCount } = q;
	const stages = stagesFor(
		scheme,
		fit.isotherm,
		thetaFor(fit, fit.theta, start),
		start,
		target,
		stageCount,
	);
	const outside = stages.filter(
		(s) =>
			s.residueOut < fit.range.low * (1 - 1e-9) ||
			s.residueOut > fit.range.high * (1 + 1e-9),
	);
	if (outside.length > 0 && q.beyond === "refuse")
		return stageOutside(fit, q, outside[0]);
	const dose = background(fit, q, doseWithErrors(fit, q));
	if (dose.low.is === "not known" && dose.low.because === notSettled)
		return notDetermined(fit, q, dose.value);
	return {
		is: "dose",
		name: fit.points.name,
		probe: fit.points.probe,
		start,
		target,
		scheme,
		stageCount,
		dose,
		stages,
		extrapolating: outside.length > 0,
		place: `${outside.length > 0 ? "outside" : "inside"} the measured residues, ${inDigits(fit.range.low, 3)} to ${inDigits(fit.range.high, 3)} mg/L`,
		cautions: cautionsOn(fit, dose, outside.length > 0),
	};
}

/** The dose as a function of start and parameters, with the errors of both. */
function doseWithErrors(fit: IsothermFit, q: PlainQuestion): FromFits {
	const at = (theta: Float64Array, start: number): number =>
		totalDose(
			q.scheme,
			stagesFor(
				q.scheme,
				fit.isotherm,
				thetaFor(fit, theta, start),
				start,
				q.target,
				q.stageCount,
			),
		);
	const perStart =
		q.startErrors.length === 0
			? 0
			: logSlope((start) => at(fit.theta, start), q.start);
	return fromFits(
		[fit],
		"g/L",
		([theta]) => at(theta, q.start),
		q.startErrors.map((e) => ({ ...e, effect: e.effect * perStart })),
	);
}

/** d ln f/dx by central differences. */
export function logSlope(f: (x: number) => number, x: number): number {
	const h = 1e-5 * x;
	return Math.log(f(x + h) / f(x - h)) / (2 * h);
}

/** Where the target lies within what may not be adsorbable, the dose has no upper end. */
function background(
	fit: IsothermFit,
	q: PlainQuestion,
	dose: FromFits,
): FromFits {
	const p = fit.parameters.find((e) => e.name === nonAdsorbable);
	if (p === undefined || p.profile.is === "not known") return dose;
	const { high } = p.profile.value;
	const scale =
		p.value > 0
			? thetaFor(fit, fit.theta, q.start)[fit.parameters.indexOf(p)] / p.value
			: 1;
	return high.kind === "open" || high.value * scale >= q.target
		? {
				...dose,
				high: {
					is: "not known",
					because: `what is not adsorbable may be as much as the target (${high.kind === "open" ? "no upper end" : `up to ${inDigits(high.value * scale, 3)} mg/L`}), so that no dose is certain to reach it`,
				},
			}
		: dose;
}

function stageOutside(
	fit: IsothermFit,
	q: PlainQuestion,
	stage: Stage,
): NoDose {
	return noDose(
		fit,
		q,
		"outside-measured-range",
		`stage ${stage.stage} would leave ${inDigits(stage.residueOut, 3)} mg/L, outside the residues that the flasks showed, ${inDigits(fit.range.low, 3)} to ${inDigits(fit.range.high, 3)} mg/L`,
		`Flasks with less char, so that their residue comes near ${inDigits(stage.residueOut, 3)} mg/L, would. Or ask for fewer stages.`,
	);
}

function notDetermined(
	fit: IsothermFit,
	q: PlainQuestion,
	dose: number,
): NoDose {
	return noDose(
		fit,
		q,
		"not-determined",
		`the best guess would be ${inDigits(dose, 2)} g/L, but ${notSettled}`,
		flasksNear(fit, q),
	);
}

function cautionsOn(
	fit: IsothermFit,
	dose: FromFits,
	extrapolating: boolean,
): string[] {
	return [
		...(extrapolating
			? [
					"Beyond what the flasks showed: nothing was measured there, and the interval does not cover a curve of another shape.",
				]
			: []),
		...(dose.low.is === "not known"
			? [`Without an interval: ${dose.low.because}.`]
			: dose.high.is === "not known"
				? [`Without an upper end: ${dose.high.because}.`]
				: []),
		...(fit.method === "uptake on concentration"
			? [
					"From plain points, whose two coordinates are taken as independent: the interval leaves out what they share.",
				]
			: []),
	];
}
