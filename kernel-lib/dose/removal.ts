import type { IsothermFit, IsothermPoints } from "../isotherms";
import { inDigits, requireFit } from "../isotherms";
import {
	anyNumberOption,
	fixed,
	listOption,
	type MaybeKnown,
	type OptionRule,
	type Problem,
	plainNumber,
	problem,
	quoted,
	requireOptions,
	type Table,
	table,
	textOption,
	throwProblems,
} from "../quantity";
import { fromFits } from "./from-fits";
import { aboveZero, median, startsOf, thetaFor } from "./question";
import { residueAfter } from "./stages";

/** What one flask removed. */
export interface RemovalPoint {
	readonly flask: string;
	readonly is: "reading" | "below detection";
	/** g of char per litre of liquid. */
	readonly dose: number;
	/** mg/L: what the flask would show without char. */
	readonly start: number;
	/** mg/L; for a flask that ran dry, the most that it could hold unseen. */
	readonly residue: number;
	/** Percent of the start; for a flask that ran dry, at least. */
	readonly removal: number;
	/** Removal at two standard deviations of the flask's own reading errors. */
	readonly low: number;
	readonly high: number;
}

/** One place of a curve of removal against dose. */
export interface RemovalAt {
	/** g/L. */
	readonly dose: number;
	/** mg/L. */
	readonly residue: number;
	/** Percent. */
	readonly removal: number;
	readonly low: MaybeKnown<number>;
	readonly high: MaybeKnown<number>;
	/** True where the residue lies outside those that the flasks showed. */
	readonly extrapolating: boolean;
}

/** Removal against dose for one water: what an isotherm and the mass balance predict, or a response form fitted to the removals. */
export interface RemovalCurve {
	readonly kind: "removal curve";
	readonly name: string;
	/** "balance": no curve of its own, but the isotherm met with the mass balance. */
	readonly from: "balance" | "response form" | "mixture";
	/** mg/L. */
	readonly start: number;
	readonly confidence: number;
	readonly at: readonly RemovalAt[];
}

/** The curve that a fitted isotherm predicts, with the flasks that it was fitted to. */
export interface RemovalByBalance extends RemovalCurve {
	readonly flasks: readonly RemovalPoint[];
	/** The flasks with what they removed, beside what the curve gives them. */
	readonly table: Table;
}

export interface RemovalCurveOptions {
	/** mg/L; the middle of the flasks' own starts if not given. */
	readonly start?: number;
	/** g/L; if not given, sixty doses over those of the flasks and a little beyond. */
	readonly doses?: readonly number[];
	readonly name?: string;
}

/** Dose and removal of every flask with a mass balance, in the order of the points. */
export function removalPoints(points: IsothermPoints): RemovalPoint[] {
	return points.points.flatMap((p) => {
		if (p.balance.is === "not known") return [];
		const start = p.balance.intercept / p.balance.slope;
		const removalOf = (residue: number): number => 100 * (1 - residue / start);
		const reach = 2 * Math.sqrt(p.own.concentration);
		return [
			{
				flask: p.flask,
				is: p.is,
				dose: 1 / p.balance.slope,
				start,
				residue: p.concentration,
				removal: removalOf(p.concentration),
				low: removalOf(p.concentration + (p.is === "reading" ? reach : 0)),
				high: p.is === "reading" ? removalOf(p.concentration - reach) : 100,
			},
		];
	});
}

/**
 * Removal against dose as the fitted isotherm and the mass balance predict it for one water, with the confidence band of the curve (on the logarithm of the residue, so that it stays below 100 %).
 *
 * @throws ProblemError for points without mass balance where no start is given, and for a start or doses that are not above zero
 * @example
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190], [50, 75, 90, 95]);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * dose.removalCurve(fit, { start: 100, doses: [1.8] }).at[0].removal // => 90
 */
export function removalCurve(
	fit: IsothermFit,
	options: RemovalCurveOptions = {},
): RemovalByBalance {
	requireFit(fit, "removalCurve");
	requireOptions(options, removalRules, "removalCurve");
	const starts = startsOf(fit);
	const start = options.start ?? (starts.length > 0 ? median(starts) : 0);
	throwProblems(startProblems(start));
	const doses = options.doses ?? usualDoses(fit, start);
	throwProblems(doseProblems(doses));
	return {
		kind: "removal curve",
		name: options.name ?? `${fit.points.name}, ${fit.isotherm.name}`,
		from: "balance",
		start,
		confidence: fit.confidence,
		at: doses.map((dose) => {
			const residue = fromFits([fit], "mg/L", ([theta]) =>
				residueAfter(fit.isotherm, thetaFor(fit, theta, start), start, dose),
			);
			return {
				dose,
				residue: residue.value,
				removal: 100 * (1 - residue.value / start),
				low: removalEnd(residue.high, start),
				high: removalEnd(residue.low, start),
				extrapolating:
					residue.value < fit.range.low || residue.value > fit.range.high,
			};
		}),
		flasks: removalPoints(fit.points),
		table: removalTable(fit),
	};
}

const removalRules: Readonly<Record<string, OptionRule>> = {
	start: anyNumberOption("a number in mg/L"),
	doses: listOption(anyNumberOption("a number in g/L")),
	name: textOption,
};

function startProblems(start: number): Problem[] {
	return start === 0
		? [
				problem(
					"start-missing",
					{},
					"points without a mass balance, and no concentration that the water starts from",
					"a concentration above 0 mg/L",
					"Give { start: ... } in mg/L: what the water holds as it comes.",
				),
			]
		: aboveZero("start", start);
}

/** Problems with doses of char. */
export function doseProblems(doses: readonly number[]): Problem[] {
	const wrong = doses.filter((d) => !(d > 0 && Number.isFinite(d)));
	return wrong.length === 0
		? []
		: [
				problem(
					"dose-not-positive",
					{},
					`doses of ${wrong.map((d) => (Number.isFinite(d) ? `${plainNumber(d)} g/L` : "no number")).join(", ")}`,
					"doses of char above 0 g/L",
					"Leave them out, or give the grams of char in a litre.",
				),
			];
}

/** A band that would promise more than there is ends at nothing removed. */
function removalEnd(
	residue: MaybeKnown<number>,
	start: number,
): MaybeKnown<number> {
	return residue.is === "value"
		? {
				is: "value",
				value: 100 * (1 - Math.min(residue.value, start) / start),
			}
		: residue;
}

function usualDoses(fit: IsothermFit, start: number): number[] {
	const own = fit.used.flatMap((p) =>
		p.balance.is === "known" ? [1 / p.balance.slope] : [],
	);
	const middle = fit.used.flatMap((p) =>
		p.concentration > 0 && p.uptake > 0 && start > p.concentration
			? [(start - p.concentration) / p.uptake]
			: [],
	);
	const all = own.length > 0 ? own : middle;
	const low = Math.log(Math.min(...all) / 1.5);
	const high = Math.log(Math.max(...all) * 1.3);
	return Array.from({ length: 60 }, (_, i) =>
		Math.exp(low + ((high - low) * i) / 59),
	);
}

/** The flasks with what they removed and, beside it, what the curve gives a flask of their dose and start. */
export function removalTable(fit: IsothermFit): Table {
	return table(
		`Removal against dose, ${quoted(fit.points.name)}`,
		[
			"flask",
			"char (g/L)",
			"start (mg/L)",
			"residue (mg/L)",
			"removal (%)",
			"removal by the curve (%)",
		],
		removalPoints(fit.points).map((p) => {
			const bound = p.is === "below detection";
			const expected = residueAfter(
				fit.isotherm,
				thetaFor(fit, fit.theta, p.start),
				p.start,
				p.dose,
			);
			return [
				p.flask,
				inDigits(p.dose, 4),
				inDigits(p.start, 4),
				`${bound ? "at most " : ""}${inDigits(p.residue, 4)}`,
				`${bound ? "at least " : ""}${fixed(p.removal, 1)}`,
				fixed(100 * (1 - expected / p.start), 1),
			];
		}),
	);
}
