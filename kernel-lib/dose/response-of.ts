import {
	known,
	type MaybeKnown,
	notKnown,
	ProblemError,
	problemText,
	type ResultKind,
	requireOptions,
	requireResult,
	requireResults,
} from "../quantity";
import {
	fitResponse,
	type ResponseFit,
	type ResponseOptions,
	responseRules,
} from "./response";
import type { ResponseForm } from "./response-forms";

const formKind: ResultKind = {
	parts: ["name", "model"],
	expected: "a form, such as dose.hill",
};

const curveKind: ResultKind = {
	parts: ["flasks", "start"],
	expected: "flasks and their start, as dose.removalCurve(fit) has them",
};

const flaskKind: ResultKind = {
	parts: ["dose", "removal"],
	expected: "a flask, such as { dose: 2, removal: 50 }",
};

/**
 * A response form fitted to the flasks of a removal curve, or to any flasks of one water with different doses; or, where these flasks cannot carry one, why, and which flasks would. It describes these flasks; unlike an isotherm it says nothing of another start.
 *
 * @param curve flasks with their doses (g of char per litre) and removals (percent of the start), and the start (mg/L)
 * @example
 * const [points] = isotherms.isothermPoints(doseTrial);
 * const curve = dose.removalCurve(isotherms.fitIsotherm(isotherms.langmuir, points));
 * dose.responseOf(dose.hill, curve, { fixed: { floor: 0 } }).is // => "value"
 * // 100/(1 + (2/x)^1)
 * const removals = [20, 100 / 3, 50, 75, 90];
 * const flasks = [0.5, 1, 2, 6, 18].map((dose, i) => ({ dose, removal: removals[i] }));
 * const form = dose.responseOf(dose.hill, { flasks, start: 100 }, { fixed: { floor: 0 } });
 * form.is === "value" ? form.value.fit.theta[2] : 0 // => 2
 */
export function responseOf(
	form: ResponseForm,
	curve: {
		readonly flasks: readonly {
			readonly dose: number;
			readonly removal: number;
		}[];
		readonly start: number;
	},
	options: ResponseOptions = {},
): MaybeKnown<ResponseFit> {
	requireResult(form, formKind, "responseOf");
	requireResult(curve, curveKind, "responseOf");
	requireResults(curve.flasks, flaskKind, "responseOf");
	requireOptions(options, responseRules, "responseOf");
	try {
		return known(
			fitResponse(
				form,
				curve.flasks.map((f) => f.dose),
				curve.flasks.map((f) => f.removal),
				{ start: curve.start, ...options },
			),
		);
	} catch (error) {
		if (!(error instanceof ProblemError)) throw error;
		return notKnown(error.problems.map(problemText).join(" "));
	}
}
