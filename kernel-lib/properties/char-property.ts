import { isLeftOut } from "../bench";
import {
	expandedUncertainty,
	type Kind,
	type Measured,
	meanOf,
	type NotKnown,
	notKnown,
	type Quantity,
} from "../quantity";
import type { Contents } from "./basis";
import { fixedCarbon } from "./contents";
import type { Determination } from "./determination";
import type { PropertySheet } from "./property-sheet";
import { limitFor, meanOfSet, scatterOf, setsOf } from "./replicate-sets";
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
	/** Those in use. */
	readonly determinations: readonly Determination[];
	/** Those that a deviation leaves out. */
	readonly leftOut: readonly Determination[];
	readonly outcome: Measured<Kind> | NotKnown;
	/** 95 % interval of a value, in its unit; not known for a limit, and where nothing was determined twice: how portions differ is then not known. */
	readonly interval:
		| {
				readonly is: "interval";
				readonly lower: number;
				readonly upper: number;
				readonly degreesOfFreedom: number;
		  }
		| NotKnown;
	/** Standard deviation of this char's own determinations, in the unit of the mean. */
	readonly standardDeviation:
		| { readonly is: "value"; readonly value: number }
		| NotKnown;
	/** What the interval covers. */
	readonly covers: "readings and scatter of replicates" | "one determination";
	readonly agreement: Agreement;
}

/** Several determinations of one property as one: their mean, or the widest limit that all of them keep. */
function together(
	outcomes: readonly CharProperty["outcome"][],
	mean: () => Quantity,
): CharProperty["outcome"] {
	if (outcomes.length === 0)
		return notKnown("every determination of it is left out");
	const unknown = outcomes.find((o) => o.is === "not known");
	if (unknown !== undefined) return unknown;
	const known = outcomes.flatMap((o) => (o.is === "not known" ? [] : [o]));
	const limits = known.flatMap((o) => (o.is === "value" ? [] : [o]));
	if (limits.length === 0) return { is: "value", quantity: mean() };
	const [{ is: side, because }] = limits;
	if (limits.some((o) => o.is !== side))
		return notKnown(
			"one determination gave a lower limit, another an upper one",
		);
	const ordered = known
		.map((o) => o.quantity)
		.sort((a, b) => a.value - b.value);
	return {
		is: side,
		quantity: side === "at least" ? ordered[0] : ordered[ordered.length - 1],
		because,
	};
}

function intervalOf(
	outcome: CharProperty["outcome"],
	covers: CharProperty["covers"],
): CharProperty["interval"] {
	if (outcome.is !== "value") return notKnown("there is no value");
	if (covers === "one determination")
		return notKnown("determined once: how portions differ is not known");
	const { lower, upper, degreesOfFreedom } = expandedUncertainty(
		outcome.quantity,
	);
	return { is: "interval", lower, upper, degreesOfFreedom };
}

function spreadOf(
	values: readonly Quantity[],
): CharProperty["standardDeviation"] {
	if (values.length < 2)
		return notKnown("a standard deviation takes two determinations");
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
			const own = sheet.determinations.filter(
				(d) =>
					d.sample === sample && d.property === property && d.at === set.at,
			);
			const determinations = own.filter((d) => !isLeftOut(d));
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
				leftOut: own.filter(isLeftOut),
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
	const outcome: CharProperty["outcome"] = {
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
			leftOut: [],
			outcome,
			interval: intervalOf(outcome, covers),
			standardDeviation: notKnown("it is a difference of two means"),
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

/** The properties of every char, in the order of the chars and of the list of properties. */
export function propertiesOfSheet(
	sheet: PropertySheet,
): readonly CharProperty[] {
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
export function contentsOf(
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
