import type { Drying, Washing } from "../activation";
import { type ResultKind, requireResult } from "../quantity";
import type { Figure } from "./description";
import { dryingCurve } from "./drying-curve";
import { washingCurve } from "./washing-curve";

const courseKind: ResultKind = {
	parts: ["firing", "table"],
	expected: "one of activation.washouts(trial) or activation.dryings(trial)",
};

/**
 * How a washing or a drying went, and where it leads. A washing: the readings of the rinses (bars: 95 %), the washout model with its band as far as it predicts, the water's own reading and the target; logarithmic for conductivity, so that a steady washing is a
 * straight line. A drying: the weighings, the fitted approach to constant mass and the final mass with its interval. Where nothing could be fitted the readings stand alone, and the note says why.
 *
 * @param of one of activation.washouts(trial) or activation.dryings(trial)
 * @example
 * const [washing] = activation.washouts(kilnTrial);
 * const [drying] = activation.dryings(kilnTrial);
 * figures.course(washing).title // => "Washing of \"potash 0.5\""
 * figures.course(drying).y // => { "label": "Mass", "unit": "g", "scale": { "is": "linear" } }
 */
export function course(of: Washing | Drying): Figure {
	requireResult(of, courseKind, "figures.course");
	return "washout" in of ? washingCurve(of) : dryingCurve(of);
}
