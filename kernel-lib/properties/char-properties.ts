import {
	decimalsFor,
	expandedUncertainty,
	fixed,
	meanOf,
	type Quantity,
	type Table,
	type TableCell,
	table,
	unitText,
} from "../quantity";
import type { Contents } from "./basis";
import { fixedCarbon } from "./contents";
import {
	type Determination,
	labelOf,
	limitFor,
	meanOfSet,
	type PropertySheet,
	scatterOf,
	setsOf,
} from "./determinations";
import type { Outcome } from "./outcome";
import { type Agreement, agreementOf, withoutRange } from "./replicates";
import {
	type PropertyName,
	propertyNames,
	type Standard,
	standards,
} from "./standards";

/** A property of a char: the mean of its determinations and what they say about each other. */
export interface CharProperty {
	readonly sample: string;
	readonly property: PropertyName;
	/** Under which condition; "" where there is none. */
	readonly at: string;
	readonly standard: Standard;
	readonly determinations: readonly Determination[];
	readonly outcome: Outcome;
	/** 95 % interval of a value, in its unit; none for a limit, and none where nothing was determined twice: then nobody knows how portions differ. */
	readonly interval:
		| {
				readonly is: "interval";
				readonly lower: number;
				readonly upper: number;
				readonly degreesOfFreedom: number;
		  }
		| { readonly is: "none" };
	/** Standard deviation of this char's own determinations, in the unit of the mean. */
	readonly standardDeviation:
		| { readonly is: "value"; readonly value: number }
		| { readonly is: "not known" };
	/** What the interval covers. */
	readonly covers: "readings and scatter of replicates" | "one determination";
	readonly agreement: Agreement;
}

/** Several outcomes of one property as one: their mean, or the widest limit that all of them keep. */
function together(outcomes: readonly Outcome[], mean: () => Quantity): Outcome {
	const lost = outcomes.find((o) => o.is === "not determined");
	if (lost !== undefined) return lost;
	const told = outcomes.flatMap((o) => (o.is === "not determined" ? [] : [o]));
	const limits = told.flatMap((o) => (o.is === "value" ? [] : [o]));
	if (limits.length === 0) return { is: "value", quantity: mean() };
	const [{ is: side, because }] = limits;
	if (limits.some((o) => o.is !== side))
		return {
			is: "not determined",
			because: "one determination gave a lower limit, another an upper one",
		};
	const ordered = told.map((o) => o.quantity).sort((a, b) => a.value - b.value);
	return {
		is: side,
		quantity: side === "at least" ? ordered[0] : ordered[ordered.length - 1],
		because,
	};
}

function intervalOf(
	outcome: Outcome,
	covers: CharProperty["covers"],
): CharProperty["interval"] {
	if (outcome.is !== "value" || covers === "one determination")
		return { is: "none" };
	const { lower, upper, degreesOfFreedom } = expandedUncertainty(
		outcome.quantity,
	);
	return { is: "interval", lower, upper, degreesOfFreedom };
}

function spreadOf(
	values: readonly Quantity[],
): CharProperty["standardDeviation"] {
	if (values.length < 2) return { is: "not known" };
	const mean = meanOf(values).value;
	return {
		is: "value",
		value: Math.sqrt(
			values.reduce((sum, v) => sum + (v.value - mean) ** 2, 0) /
				(values.length - 1),
		),
	};
}

function propertiesOf(
	sheet: PropertySheet,
	sample: string,
	property: PropertyName,
): CharProperty[] {
	const all = setsOf(sheet.determinations, property);
	return all
		.filter((set) => set.sample === sample)
		.map((set): CharProperty => {
			const determinations = sheet.determinations.filter(
				(d) =>
					d.sample === sample && d.property === property && d.at === set.at,
			);
			const scatter = scatterOf(set, all, sheet.limits);
			const outcome = together(
				determinations.map((d) => d.outcome),
				() => meanOfSet(set, scatter),
			);
			const covers =
				scatter.degreesOfFreedom > 0
					? "readings and scatter of replicates"
					: "one determination";
			return {
				sample,
				property,
				at: set.at,
				standard: standards[property],
				determinations,
				outcome,
				interval: intervalOf(outcome, covers),
				standardDeviation: spreadOf(set.values),
				covers,
				agreement:
					set.values.length < 2
						? withoutRange(determinations.length)
						: agreementOf(set.values, limitFor(property, sheet.limits)),
			};
		});
}

function fixedCarbonOf(
	sample: string,
	known: readonly CharProperty[],
): CharProperty[] {
	const [ash, volatile] = (["total ash", "volatile matter"] as const).map(
		(name) => known.find((p) => p.sample === sample && p.property === name),
	);
	if (ash?.outcome.is !== "value" || volatile?.outcome.is !== "value")
		return [];
	const outcome: Outcome = {
		is: "value",
		quantity: fixedCarbon(
			ash.outcome.quantity as Quantity<"ratio">,
			volatile.outcome.quantity as Quantity<"ratio">,
		),
	};
	const covers = [ash, volatile].some((p) => p.covers === "one determination")
		? "one determination"
		: "readings and scatter of replicates";
	return [
		{
			sample,
			property: "fixed carbon",
			at: "",
			standard: standards["fixed carbon"],
			determinations: [],
			outcome,
			interval: intervalOf(outcome, covers),
			standardDeviation: { is: "not known" },
			covers,
			agreement: {
				is: "one determination",
				range: 0,
				allowed: 0,
				sentence: "By difference, from the means of ash and volatile matter.",
				advice: "",
			},
		},
	];
}

/**
 * The properties of every char in a table: the mean of its determinations with a 95 % interval, their standard deviation, and whether they agree. The scatter of a property is pooled over
 * the chars of the table. Fixed carbon follows where ash and volatile matter are there.
 */
export function charProperties(sheet: PropertySheet): readonly CharProperty[] {
	return sheet.samples.flatMap((sample) => {
		const known = propertyNames.flatMap((property) =>
			propertiesOf(sheet, sample, property),
		);
		return [...known, ...fixedCarbonOf(sample, known)].sort(
			(a, b) =>
				propertyNames.indexOf(a.property) - propertyNames.indexOf(b.property),
		);
	});
}

/** Moisture and ash of one char, as far as they are known. */
export function contentsKnown(
	properties: readonly CharProperty[],
	sample: string,
): Partial<Contents> {
	const find = (name: PropertyName): Quantity<"ratio"> | null => {
		const p = properties.find(
			(x) => x.sample === sample && x.property === name,
		);
		return p?.outcome.is === "value"
			? (p.outcome.quantity as Quantity<"ratio">)
			: null;
	};
	const moisture = find("moisture");
	const ash = find("total ash");
	return {
		...(moisture === null ? {} : { moisture }),
		...(ash === null ? {} : { ash }),
	};
}

/**
 * Moisture and ash of one char, as `toBasis` and `uptakeOnBasis` take them.
 * @throws RangeError where the char has neither
 */
export function contentsOf(
	properties: readonly CharProperty[],
	sample: string,
): Partial<Contents> {
	const known = contentsKnown(properties, sample);
	if (Object.keys(known).length === 0)
		throw new RangeError(
			`Neither moisture nor ash of "${sample}" is known; known chars: ${[...new Set(properties.map((p) => p.sample))].join(", ")}.`,
		);
	return known;
}

function outcomeCell(outcome: Outcome): TableCell {
	return outcome.is === "not determined" ? "not determined" : outcome;
}

/** Rounds to two digits of half its interval, which few replicates make much wider than u; to one digit of u where there is none. */
export function placesOf({
	outcome,
	interval,
}: Pick<CharProperty, "outcome" | "interval">): (x: number) => string {
	if (interval.is === "interval") {
		const decimals = decimalsFor((interval.upper - interval.lower) / 2);
		return (x) => fixed(x, decimals);
	}
	const u = outcome.is === "value" ? outcome.quantity.standardUncertainty : 0;
	return (x) =>
		u > 0
			? fixed(x, Math.max(0, decimalsFor(u) - 1))
			: String(Number(x.toPrecision(3)));
}

/** The properties as people read them: one line for each property of each char. */
export function propertyTable(properties: readonly CharProperty[]): Table {
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
			"n determinations, s their standard deviation. The interval is the mean ± t u: u holds the readings' errors and the scatter of replicates, pooled over the chars of the table, its degrees of freedom go into t. Replicates that disagree by more than their limit stay out of the pool and stand alone. One determination is taken to scatter by at least 1 % of its value; what was determined once, and on no other char twice, has no interval.",
			"Contents of ash, volatile matter, fixed carbon and solubles are of the dry char, moisture is of the char as weighed.",
		],
	);
}

/** Whether replicates agree, and what to do where they do not. */
export function agreementTable(properties: readonly CharProperty[]): Table {
	const told = properties.filter((p) => p.property !== "fixed carbon");
	return table(
		"Do the replicates agree?",
		["char", "property", "determinations", "what they say", "what to do"],
		told.map((p) => [
			p.sample,
			labelOf(p),
			p.determinations
				.map(({ name, outcome }) =>
					outcome.is === "value"
						? `${name}: ${placesOf(p)(outcome.quantity.value)}`
						: `${name}: ${outcome.is}${outcome.is === "not determined" ? "" : ` ${Number(outcome.quantity.value.toPrecision(4))}`}`,
				)
				.join("; "),
			p.agreement.sentence,
			p.agreement.advice,
		]),
		[
			"Limits are taken only from what was given: this library knows no standard's repeatability limit. Hold the other ranges against your own copies.",
		],
	);
}
