import { isLeftOut } from "../bench";
import { type Table, type TableCell, table, unitText } from "../quantity";
import { type CharProperty, charProperties } from "./char-properties";
import type { Determination, PropertySheet } from "./property-sheet";
import { labelOf } from "./replicate-sets";
import { placesOf } from "./rounding";

const notDetermined = "not determined";

function cell(outcome: CharProperty["outcome"]): TableCell {
	return outcome.is === "not known" ? notDetermined : outcome;
}

/**
 * The figure of every row, in the order in which it was calculated; moistures come first.
 * @example
 * properties.determinationTable(properties.readProperties("data/demo-properties/chars.csv")) // => "Row by row"
 */
export function determinationTable(sheet: PropertySheet): Table {
	return table(
		"Row by row",
		["determination", "char", "property", "result"],
		sheet.determinations.map((d) => [
			d.name,
			d.sample,
			labelOf(d),
			isLeftOut(d) ? "left out" : cell(d.outcome),
		]),
		[
			"The uncertainty of a row is that of its readings alone.",
			...sheet.deviations,
		],
	);
}

/**
 * The properties as people read them: one line for each property of each char, and what was left out.
 * @example
 * properties.propertyTable(properties.readProperties("data/demo-properties/chars.csv")) // => "Properties of the chars"
 */
export function propertyTable(sheet: PropertySheet): Table {
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
		charProperties(sheet).map((p) => {
			const places = placesOf(p);
			const unit =
				p.outcome.is === "value" ? unitText(p.outcome.quantity.unit) : "";
			return [
				p.sample,
				labelOf(p),
				p.standard.designation === ""
					? "common practice"
					: p.standard.designation,
				cell(p.outcome),
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
			"n determinations, s their standard deviation. The interval is the mean ± t u: u holds the readings' errors and the scatter of replicates, pooled over the chars of the table, its degrees of freedom go into t. Replicates that disagree by more than their limit stay out of the pool and stand alone. One determination is taken to scatter by at least 1 % of its value; what was determined once, and on no other char twice, has no interval.",
			"Contents of ash, volatile matter, fixed carbon and solubles are of the dry char, moisture is of the char as weighed.",
			...sheet.deviations,
		],
	);
}

function outcomeText(p: CharProperty, { outcome }: Determination): string {
	if (outcome.is === "not known") return notDetermined;
	return outcome.is === "value"
		? placesOf(p)(outcome.quantity.value)
		: `${outcome.is} ${Number(outcome.quantity.value.toPrecision(4))}`;
}

/**
 * Whether replicates agree, and what to do where they do not.
 * @example
 * properties.agreementTable(properties.readProperties("data/demo-properties/chars.csv")) // => "Do the replicates agree?"
 */
export function agreementTable(sheet: PropertySheet): Table {
	const determined = charProperties(sheet).filter(
		(p) => p.property !== "fixed carbon",
	);
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
			...sheet.deviations,
		],
	);
}
