import { type Fit, fit as fitCurve, profileIntervals } from "../fit";
import {
	confidenceOption,
	inDigits,
	lazily,
	roughly,
	usualConfidence,
} from "../isotherms";
import {
	listOption,
	numberOption,
	objectOption,
	requireOptions,
	type Table,
	textOption,
	throwProblems,
} from "../quantity";
import { responseTable } from "./dose-for-removal";
import type { FittedResponse } from "./fitted-response";
import type { RemovalCurve } from "./removal";
import { responseProblems } from "./response-checks";
import { responseCurve } from "./response-curve";
import type { ResponseForm } from "./response-forms";

export interface ResponseOptions {
	/** Ends held at these values, in percent, where the chemistry says so: no char removes nothing, enough removes all. */
	readonly fixed?: { readonly floor?: number; readonly ceiling?: number };
	/** What all intervals hold; 0.95 if not given. */
	readonly confidence?: number;
	readonly name?: string;
	/** Removals (%) that the table gives doses for; 50, 90 and 99 if not given. */
	readonly percents?: readonly number[];
	/** mg/L of the flasks' water, for the residues of the curve. */
	readonly start?: number;
}

/** A fitted form with the doses it gives and the curve to draw. */
export interface ResponseFit extends FittedResponse {
	/** Doses for the removals that were asked for, a row each. */
	readonly table: Table;
	readonly curve: RemovalCurve;
}

/** The ceiling counts as shown where the highest removal reaches this share of the way. Our decision. */
const ceilingShown = 0.8;

/** What a response may be asked for. */
export const responseRules = {
	fixed: objectOption("ends in percent, such as { floor: 0 }"),
	confidence: confidenceOption,
	name: textOption,
	percents: listOption(numberOption(0, 100)),
	start: numberOption(0, Number.POSITIVE_INFINITY),
};

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
	requireOptions(options, responseRules, "fitResponse");
	const x = Array.from(doses);
	const y = Array.from(removals);
	const {
		fixed = {},
		confidence = usualConfidence,
		name = "removal",
	} = options;
	const { percents = [50, 90, 99], start = 0 } = options;
	const held = Object.fromEntries(
		Object.entries(fixed).filter(([, v]) => v !== undefined),
	) as Record<string, number>;
	throwProblems(responseProblems(x, y, 4 - Object.keys(held).length));
	const fit = fitCurve(
		form.model,
		{ x, y, unitX: "g/L", unitY: "%", name },
		{ fixed: held, confidence },
	);
	const fitted: FittedResponse = {
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
	const table = lazily(() => responseTable(fitted, percents));
	const curve = lazily(() => responseCurve(fitted, start));
	return {
		...fitted,
		get table() {
			return table();
		},
		get curve() {
			return curve();
		},
	};
}

function opinionOn(fit: Fit, x: number[], y: number[]): string[] {
	const ceiling = fit.theta[1];
	return [
		...(Math.max(...y) < fit.theta[0] + ceilingShown * (ceiling - fit.theta[0])
			? [
					`The ceiling is not shown: the highest removal, ${inDigits(Math.max(...y), 3)} %, is less than four fifths of the way. Flasks with ${roughly(2 * Math.max(...x))} and ${roughly(4 * Math.max(...x))} g/L would show it.`,
				]
			: []),
		...fit.cautions,
		"A response form describes these flasks. It holds for their water and their start only; another start needs an isotherm, or flasks of its own.",
	];
}
