import { predict } from "../fit";
import type { MaybeKnown } from "../quantity";
import type { FittedResponse } from "./fitted-response";
import type { RemovalCurve } from "./removal";

/** The fitted form as a curve of removal, with the confidence band of the curve. @param start mg/L of the flasks, for the figure's words; 0 where it is not known */
export function responseCurve(
	response: FittedResponse,
	start = 0,
): RemovalCurve {
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
