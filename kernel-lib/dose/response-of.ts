import {
	known,
	type MaybeKnown,
	notKnown,
	ProblemError,
	problemText,
} from "../quantity";
import type { RemovalByBalance } from "./removal";
import {
	fitResponse,
	type ResponseFit,
	type ResponseOptions,
} from "./response";
import type { ResponseForm } from "./response-forms";

/**
 * A response form fitted to the flasks of a removal curve; or, where these flasks cannot carry one, why, and which flasks would.
 *
 * @example
 * const [points] = isotherms.isothermPoints(doseTrial);
 * const curve = dose.removalCurve(isotherms.fitIsotherm(isotherms.langmuir, points));
 * dose.responseOf(dose.hill, curve, { fixed: { floor: 0 } }).is // => "value"
 */
export function responseOf(
	form: ResponseForm,
	curve: Pick<RemovalByBalance, "flasks" | "start">,
	options: ResponseOptions = {},
): MaybeKnown<ResponseFit> {
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
