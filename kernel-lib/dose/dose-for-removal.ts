import {
	fit as fitCurve,
	type Interval,
	type Limit,
	profileIntervals,
} from "../fit";
import { confidenceText, inDigits, intervalText, roughly } from "../isotherms";
import {
	type MaybeKnown,
	problem,
	quoted,
	type Table,
	table,
	throwProblems,
} from "../quantity";
import type { FittedResponse } from "./fitted-response";
import {
	doseAt,
	fromScale,
	headroomOf,
	type Level,
	shareOf,
	toScale,
} from "./response-forms";

/** An upper end so many times beyond the greatest dose is none that the flasks set. Our decision. */
const openFrom = 30;

/** A dose read off a response form, or why there is none. */
export type ResponseDose =
	| {
			readonly is: "dose";
			readonly level: Level;
			/** g/L. */
			readonly dose: number;
			/** By profile likelihood; asymmetric, open where the data set no end. */
			readonly interval: MaybeKnown<Interval>;
			readonly extrapolating: boolean;
	  }
	| {
			readonly is: "no dose";
			readonly level: Level;
			readonly because: string;
			readonly wouldTell: string;
	  };

/**
 * Doses at which the curve reaches removals such as 50, 90 and 99 %, each with its profile interval: the curve is written with that dose in place of its midpoint and fitted again while the dose is held.
 *
 * @param of "removal" (if not given): percent removed; "range": percent of the way from floor to ceiling
 * @throws ProblemError for percentages that are not above 0 and below 100
 */
export function doseForRemoval(
	response: FittedResponse,
	percents: readonly number[],
	of: Level["of"] = "removal",
): ResponseDose[] {
	throwProblems(
		percents
			.filter((p) => !(p > 0 && p < 100))
			.map((p) =>
				problem(
					"removal-out-of-range",
					{},
					Number.isFinite(p)
						? `a removal of ${p} %`
						: "a removal that is no number",
					"a percentage above 0 and below 100",
					"No dose removes nothing or all; ask for 99 % instead of 100 %.",
				),
			),
	);
	return percents.map((percent) => doseAtLevel(response, { of, percent }));
}

function doseAtLevel(response: FittedResponse, level: Level): ResponseDose {
	const { form, fit, doses } = response;
	const [floor, ceiling] = fit.theta;
	const share = shareOf(level, floor, ceiling);
	const most = Math.max(...doses);
	if (share >= 1)
		return {
			is: "no dose",
			level,
			because: `the curve levels off at ${inDigits(ceiling, 3)} %, so that no dose reaches ${level.percent} %`,
			wouldTell: `Flasks with ${roughly(2 * most)} and ${roughly(4 * most)} g/L would show whether it really levels off there.`,
		};
	const dose = doseAt(form, fit.theta, share);
	if (share <= 0 || dose <= 0)
		return {
			is: "no dose",
			level,
			because: `the curve starts at ${inDigits(floor, 3)} %, so that ${level.percent} % is gone before any char is in`,
			wouldTell:
				"A flask without char would show what is lost by itself; count the removal from there.",
		};
	return {
		is: "dose",
		level,
		dose,
		interval: profileOf(response, level, dose),
		extrapolating: dose < Math.min(...doses) || dose > most,
	};
}

function profileOf(
	response: FittedResponse,
	level: Level,
	dose: number,
): MaybeKnown<Interval> {
	const { form, fit, doses, removals, confidence } = response;
	const [floor, ceiling, , steepness] = fit.theta;
	const values: Record<string, number> = {
		floor,
		headroom: headroomOf(level, ceiling),
		place: toScale(form, dose),
		steepness,
	};
	const isHeld = (name: string): boolean =>
		fit.parameters[Object.keys(values).indexOf(name)].role === "fixed";
	const pick = (which: (name: string) => boolean): Record<string, number> =>
		Object.fromEntries(Object.entries(values).filter(([n]) => which(n)));
	// A curve that begins above the level does not pass it.
	const upper: Record<string, number> =
		level.of === "range" || isHeld("floor")
			? {}
			: { floor: level.percent - 1e-9 * Math.abs(ceiling - floor) };
	const again = fitCurve(
		form.through(level),
		{ x: doses, y: removals },
		{
			start: pick((n) => !isHeld(n)),
			fixed: pick(isHeld),
			upper,
			confidence,
			search: "never",
		},
	);
	const { interval } = profileIntervals(again, {
		parameters: ["place"],
		rule: "F",
	})[0];
	const far = openFrom * Math.max(...doses);
	const back = (limit: Limit): Limit => {
		if (limit.kind === "open") return limit;
		const value = fromScale(form, limit.value);
		return value > far
			? {
					kind: "open",
					reason: `beyond ${inDigits(far, 2)} g/L, ${openFrom} times the greatest dose, the flasks set no end`,
				}
			: { ...limit, value };
	};
	return interval.is === "not known"
		? interval
		: {
				is: "value",
				value: {
					...interval.value,
					low: back(interval.value.low),
					high: back(interval.value.high),
				},
			};
}

/** Doses for removals, a row each. */
export function responseTable(
	response: FittedResponse,
	percents: readonly number[],
): Table {
	return table(
		`Dose by the ${response.form.name} form, ${quoted(response.name)}`,
		["removal (%)", "char (g/L)", "interval (g/L)", "remark"],
		doseForRemoval(response, percents).map((d) =>
			d.is === "no dose"
				? [d.level.percent, "none", "", `${d.because}. ${d.wouldTell}`]
				: [
						d.level.percent,
						inDigits(d.dose, 3),
						intervalText(d.interval),
						d.extrapolating ? "beyond the doses of the flasks" : "",
					],
		),
		[
			`Profile intervals at ${confidenceText(response.confidence)}.`,
			...response.opinion,
		],
	);
}
