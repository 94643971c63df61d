import { significant, type Table, table, unitText } from "../quantity";
import type { CharProperty } from "./char-property";
import type { Determination } from "./determination";
import { notDetermined, outcomeCell } from "./outcome-cell";
import { labelOf } from "./replicate-sets";
import { placesOf } from "./rounding";

/**
 * The properties as people read them: one line for each property of each char, and what was left out.
 */
export function propertyTable(
	properties: readonly CharProperty[],
	deviations: readonly string[],
): Table {
	return table(
		"Properties of the chars",
		[
			"char",
			"property",
			"standard",
			"result",
			"95 % interval",
			"n",
			"s",
			"remarks",
		],
		properties.map((p) => {
			const places = placesOf(p);
			const unit =
				p.outcome.is === "value" ? unitText(p.outcome.quantity.unit) : "";
			return [
				p.sample,
				labelOf(p),
				p.standard.designation === ""
					? "common practice"
					: p.standard.designation,
				outcomeCell(p.outcome),
				p.interval.is === "interval"
					? `${places(p.interval.lower)} to ${places(p.interval.upper)}${unit}`
					: "",
				p.determinations.length === 0 ? "" : p.determinations.length,
				p.standardDeviation.is === "value"
					? places(p.standardDeviation.value)
					: "",
				p.outcome.is === "value"
					? p.covers === "one determination"
						? p.property === "fixed carbon"
							? "by difference, of what was determined once"
							: "determined once: how portions differ is not known"
						: ""
					: p.outcome.because,
			];
		}),
		[
			"n determinations, s their standard deviation. The interval reaches t u to either side of the mean. u holds the readings' errors and the scatter of replicates, pooled over the chars of the table, its degrees of freedom go into t. Replicates that disagree by more than their limit stay out of the pool and stand alone. One determination is taken to scatter by at least 1 % of its value; what was determined once, and on no other char twice, has no interval.",
			"Contents of ash, volatile matter, fixed carbon and solubles are of the dry char, moisture is of the char as weighed.",
			...deviations,
		],
	);
}

function outcomeText(p: CharProperty, { outcome }: Determination): string {
	if (outcome.is === "not known") return notDetermined;
	return outcome.is === "value"
		? placesOf(p)(outcome.quantity.value)
		: `${outcome.is} ${significant(outcome.quantity.value, 4)}`;
}

/**
 * Whether replicates agree, and what to do where they do not.
 */
export function agreementTable(
	properties: readonly CharProperty[],
	deviations: readonly string[],
): Table {
	const determined = properties.filter((p) => p.property !== "fixed carbon");
	return table(
		"Do the replicates agree?",
		["char", "property", "determinations", "what they say", "what to do"],
		determined.map((p) => [
			p.sample,
			labelOf(p),
			[
				...p.determinations.map((d) => `${d.name}: ${outcomeText(p, d)}`),
				...p.leftOut.map((d) => `${d.name}: left out`),
			].join("; "),
			p.agreement.sentence,
			p.agreement.advice,
		]),
		[
			"Limits are taken only from what was given: this library knows no standard's repeatability limit. Hold the other ranges against your own copies.",
			...deviations,
		],
	);
}
