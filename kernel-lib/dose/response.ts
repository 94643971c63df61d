import {
	type Fit,
	fit as fitCurve,
	type Interval,
	type Limit,
	predict,
	profileIntervals,
} from "../fit";
import { inDigits, intervalText, roughly } from "../isotherms";
import {
	type MaybeKnown,
	type Problem,
	problem,
	type Table,
	table,
	throwProblems,
} from "../quantity";
import type { RemovalCurve } from "./removal";
import {
	doseAt,
	fromScale,
	headroomOf,
	type Level,
	type ResponseForm,
	shareOf,
	toScale,
} from "./response-forms";

export interface ResponseOptions {
	/** Ends held at these values, in percent, where the chemistry says so: no char removes nothing, enough removes all. */
	readonly fixed?: { readonly bottom?: number; readonly top?: number };
	/** Level of all intervals; 0.95 if not given. */
	readonly confidence?: number;
	readonly name?: string;
}

/** A response form fitted to removal against dose. */
export interface ResponseFit {
	readonly kind: "response fit";
	readonly name: string;
	readonly form: ResponseForm;
	readonly fit: Fit;
	readonly profiles: readonly {
		readonly name: string;
		readonly interval: MaybeKnown<Interval>;
	}[];
	readonly doses: readonly number[];
	readonly removals: readonly number[];
	readonly confidence: number;
	/** What a reader should know before using the numbers. */
	readonly opinion: readonly string[];
}

/** Removals that span less than this many percent show no rise. Our decision. */
const leastRise = 10;

/**
 * Fits a response form to removals where no isotherm is wanted: several flasks of one water with different doses. It describes these flasks; unlike an isotherm it says nothing of another start.
 *
 * @param doses g of char per litre
 * @param removals percent of the start
 * @throws ProblemError for lists of different length, numbers that are not finite, fewer different doses than free parameters and one more, or removals all alike, each with the flasks that would do
 */
export function fitResponse(
	form: ResponseForm,
	doses: ArrayLike<number>,
	removals: ArrayLike<number>,
	options: ResponseOptions = {},
): ResponseFit {
	const x = Array.from(doses);
	const y = Array.from(removals);
	const { fixed = {}, confidence = 0.95, name = "removal" } = options;
	const held = Object.fromEntries(
		Object.entries(fixed).filter(([, v]) => v !== undefined),
	) as Record<string, number>;
	throwProblems(problemsOf(x, y, 4 - Object.keys(held).length));
	const fit = fitCurve(
		form.model,
		{ x, y, unitX: "g/L", unitY: "%", name },
		{ fixed: held, confidence },
	);
	return {
		kind: "response fit",
		name,
		form,
		fit,
		profiles: profileIntervals(fit).map((p) => ({
			name: p.name,
			interval: p.interval,
		})),
		doses: x,
		removals: y,
		confidence,
		opinion: opinionOn(fit, x, y),
	};
}

function problemsOf(x: number[], y: number[], free: number): Problem[] {
	if (x.length !== y.length)
		return [
			problem(
				"unequal-lengths",
				{ column: "removal" },
				`${x.length} doses and ${y.length} removals`,
				"one removal for each dose",
				"Leave out what has no partner.",
			),
		];
	const broken = x.flatMap((dose, i) =>
		Number.isFinite(dose) && dose >= 0 && Number.isFinite(y[i])
			? []
			: [
					problem(
						"not-a-number",
						{ column: "dose and removal", row: i + 1 },
						`${dose} g/L and ${y[i]} %`,
						"a dose of 0 or more and a finite removal",
						"Leave the flask out, or give its values.",
					),
				],
	);
	if (broken.length > 0) return broken;
	const different = new Set(x).size;
	if (different <= 1)
		return [
			problem(
				"one-dose-only",
				{ column: "dose" },
				different === 0 ? "no flask" : `one dose only, ${x[0]} g/L`,
				`at least ${free + 1} different doses`,
				"Flasks of the same water with a quarter, a half, twice and four times that dose would show how the removal rises.",
			),
		];
	if (different < free + 1)
		return [
			problem(
				"too-few-doses",
				{ column: "dose" },
				`${different} different doses for ${free} free parameters`,
				`at least ${free + 1}`,
				"Add doses between those that remove little and those that remove nearly all, or hold bottom and top where the chemistry gives them.",
			),
		];
	const low = Math.min(...y);
	const high = Math.max(...y);
	return high - low < leastRise
		? [
				problem(
					"all-on-the-plateau",
					{ column: "removal" },
					`removals of ${inDigits(low, 3)} to ${inDigits(high, 3)} %, all ${low > 50 ? "on the plateau" : "at the foot"} of the curve`,
					"removals from little to nearly all",
					low > 50
						? `Flasks with ${roughly(Math.min(...x) / 16)}, ${roughly(Math.min(...x) / 8)} and ${roughly(Math.min(...x) / 4)} g of char per litre would show the rise.`
						: `Flasks with ${roughly(4 * Math.max(...x))}, ${roughly(8 * Math.max(...x))} and ${roughly(16 * Math.max(...x))} g of char per litre would show it.`,
				),
			]
		: [];
}

function opinionOn(fit: Fit, x: number[], y: number[]): string[] {
	const top = fit.theta[1];
	return [
		...(Math.max(...y) < fit.theta[0] + 0.8 * (top - fit.theta[0])
			? [
					`The top is not shown: the highest removal, ${inDigits(Math.max(...y), 3)} %, is less than four fifths of the way. Flasks with ${roughly(2 * Math.max(...x))} and ${roughly(4 * Math.max(...x))} g/L would show it.`,
				]
			: []),
		...fit.cautions,
		"A response form describes these flasks. It holds for their water and their start only; another start needs an isotherm, or flasks of its own.",
	];
}

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
 * @param of "removal" (if not given): percent removed; "range": percent of the way from bottom to top
 * @throws RangeError for percentages outside 0 to 100
 */
export function doseForRemoval(
	response: ResponseFit,
	percents: readonly number[],
	of: Level["of"] = "removal",
): ResponseDose[] {
	for (const p of percents)
		if (!(p > 0 && p < 100))
			throw new RangeError(
				`A removal of ${p} % has no dose: give a percentage above 0 and below 100.`,
			);
	return percents.map((percent) => doseAtLevel(response, { of, percent }));
}

function doseAtLevel(response: ResponseFit, level: Level): ResponseDose {
	const { form, fit, doses } = response;
	const [bottom, top] = fit.theta;
	const share = shareOf(level, bottom, top);
	const most = Math.max(...doses);
	if (share >= 1)
		return {
			is: "no dose",
			level,
			because: `the curve levels off at ${inDigits(top, 3)} %, so that no dose reaches ${level.percent} %`,
			wouldTell: `Flasks with ${roughly(2 * most)} and ${roughly(4 * most)} g/L would show whether it really levels off there.`,
		};
	const dose = doseAt(form, fit.theta, share);
	if (share <= 0 || dose <= 0)
		return {
			is: "no dose",
			level,
			because: `the curve starts at ${inDigits(bottom, 3)} %, so that ${level.percent} % is gone before any char is in`,
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
	response: ResponseFit,
	level: Level,
	dose: number,
): MaybeKnown<Interval> {
	const { form, fit, doses, removals, confidence } = response;
	const [bottom, top, , slope] = fit.theta;
	const values: Record<string, number> = {
		bottom,
		headroom: headroomOf(level, top),
		place: toScale(form, dose),
		slope,
	};
	const isHeld = (name: string): boolean =>
		fit.parameters[Object.keys(values).indexOf(name)].role === "fixed";
	const pick = (which: (name: string) => boolean): Record<string, number> =>
		Object.fromEntries(Object.entries(values).filter(([n]) => which(n)));
	// A curve that begins above the level does not pass it.
	const upper: Record<string, number> =
		level.of === "range" || isHeld("bottom")
			? {}
			: { bottom: level.percent - 1e-9 * Math.abs(top - bottom) };
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
	response: ResponseFit,
	percents: readonly number[],
): Table {
	return table(
		`Dose by the ${response.form.name} form, ${response.name}`,
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
			`Profile intervals at ${Number((100 * response.confidence).toFixed(2))} %.`,
			...response.opinion,
		],
	);
}

/** The fitted form as a curve of removal, with the confidence band of the curve. @param start mg/L of the flasks, for the figure's words; 0 where it is not known */
export function responseCurve(response: ResponseFit, start = 0): RemovalCurve {
	const { doses, fit } = response;
	const above = doses.filter((d) => d > 0);
	const low = Math.log(Math.min(...above) / 1.5);
	const high = Math.log(Math.max(...above) * 1.3);
	const x = Array.from({ length: 60 }, (_, i) =>
		Math.exp(low + ((high - low) * i) / 59),
	);
	return {
		kind: "removal curve",
		name: `${response.name}, ${response.form.name} form`,
		from: "response form",
		start,
		confidence: response.confidence,
		at: predict(fit, x).map((p, i) => ({
			dose: x[i],
			residue: start * (1 - p.value / 100),
			removal: p.value,
			low: bandEnd(p.confidenceBandOfCurve, "low"),
			high: bandEnd(p.confidenceBandOfCurve, "high"),
			extrapolating: p.extrapolating.holds,
		})),
	};
}

function bandEnd(
	band: MaybeKnown<{ readonly low: number; readonly high: number }>,
	end: "low" | "high",
): MaybeKnown<number> {
	return band.is === "value" ? { is: "value", value: band.value[end] } : band;
}
