import { foundText, refuse, requireList } from "../problem";
import {
	type Kind,
	kindText,
	type ProductOf,
	productKind,
	type QuotientOf,
	quotientKind,
	type WhatDivides,
	type WhatMultiplies,
} from "./kinds";
import { listed } from "./listed";
import * as operations from "./operations";
import {
	asQuantity,
	nodeOf,
	type Quantity,
	QuantityNode,
	unnamed,
} from "./quantity";
import {
	displayUnit,
	fromBase,
	toBase,
	type UnitOf,
	unitFactor,
} from "./units";

/** Keeps K from being widened by later arguments: plus(mass, volume) must not become plus<"mass" | "volume">. */
export type Same<K> = [K][K extends unknown ? 0 : never];

function derived<K extends Kind>(
	kind: K,
	unit: string,
	operation: operations.Operation,
	operands: readonly QuantityNode[],
	parameter = 0,
): Quantity<K> {
	const base = operation.evaluate(
		operands.map((x) => x.base),
		parameter,
	);
	if (!Number.isFinite(base)) {
		refuse(
			"result-not-finite",
			operation.id,
			`the ${operation.id} of ${listed(operands.map((x) => `${x.value} ${x.unit}`))}, which is not a finite number`,
			"numbers that give one",
			"Look for a divisor of zero, or for the logarithm of a number that is not above zero.",
		);
	}
	return asQuantity(
		new QuantityNode(
			kind,
			unit,
			base,
			unnamed,
			null,
			operation,
			operands,
			parameter,
		),
	);
}

function sameKind(nodes: readonly QuantityNode[], doing: string): void {
	const first = nodes[0];
	for (const x of nodes) {
		if (x.kind !== first.kind)
			refuse(
				"kinds-differ",
				doing,
				`${kindText(first.kind)} (${first}) and ${kindText(x.kind)} (${x})`,
				"quantities of one kind",
				`Only quantities of one kind can be ${doing}.`,
			);
		if (x.kind === "temperature")
			refuse(
				"temperatures-added",
				doing,
				`temperatures (${first} and others)`,
				"temperature differences",
				"A temperature has no zero of its own: use differences of temperature.",
			);
	}
}

/**
 * Sum of quantities of one kind, in the unit of the first, with the errors of all.
 * @throws ProblemError for different kinds
 * @example
 * quantity.plus(quantity.input("mass", 1, "g", quantity.exact), quantity.input("mass", 500, "mg", quantity.exact)) // => "1.5 g"
 */
export function plus<K extends Kind>(
	a: Quantity<K>,
	...more: Quantity<Same<K>>[]
): Quantity<K> {
	// `map` makes a list of exact length; a literal with a spread would keep room to grow in each of a million nodes.
	const nodes = [a as Quantity].concat(more as Quantity[]).map(nodeOf);
	sameKind(nodes as QuantityNode[], "added");
	return derived(a.kind, a.unit, operations.sum, nodes as QuantityNode[]);
}

/**
 * a minus b, in the unit of a. What a and b share cancels: a value less itself is exactly zero.
 * @throws ProblemError for different kinds
 * @example
 * const end = quantity.input("volume", 24.1, "mL", quantity.normal(0.03));
 * quantity.minus(end, quantity.input("volume", 0.1, "mL", quantity.normal(0.04))) // => "24.000 mL (u 0.050 mL)"
 * quantity.minus(end, end) // => "0 mL"
 */
export function minus<K extends Kind>(
	a: Quantity<K>,
	b: Quantity<Same<K>>,
): Quantity<K> {
	const nodes = [nodeOf(a), nodeOf(b as Quantity)] as QuantityNode[];
	sameKind(nodes, "subtracted");
	return derived(a.kind, a.unit, operations.difference, nodes);
}

/**
 * Mean of quantities of one kind, in the unit of the first. Independent errors become smaller in it, shared ones do not.
 * @throws ProblemError for an empty list or different kinds
 * @example
 * quantity.meanOf([quantity.input("mass", 1, "g", quantity.exact), quantity.input("mass", 2, "g", quantity.exact)]) // => "1.5 g"
 */
export function meanOf<K extends Kind>(
	values: readonly Quantity<K>[],
): Quantity<K> {
	requireList(values, "a quantity", "meanOf");
	if (values.length === 0)
		refuse(
			"list-empty",
			"meanOf",
			"an empty list",
			"at least one value",
			"A mean of no values does not exist.",
		);
	const nodes = values.map(nodeOf) as QuantityNode[];
	if (values.length === 1) return values[0];
	sameKind(nodes, "averaged");
	return derived(values[0].kind, values[0].unit, operations.average, nodes);
}

/** Sum of a list; the list may not be empty. */
export function total<K extends Kind>(
	values: readonly Quantity<K>[],
): Quantity<K> {
	if (values.length === 0)
		refuse(
			"list-empty",
			"total",
			"an empty list",
			"at least one value",
			"A sum of no values has no unit.",
		);
	if (values.length === 1) return values[0];
	return plus(values[0], ...(values.slice(1) as Quantity<Same<K>>[]));
}

/**
 * a times b: concentration times volume is an amount, amount times molar mass is a mass, and a ratio times anything is that thing.
 * @throws ProblemError for two kinds that are not multiplied at a bench
 * @example
 * quantity.times(quantity.input("concentration", 0.1, "mol/L", quantity.exact), quantity.input("volume", 20, "mL", quantity.exact)) // => "2 mmol"
 */
export function times<A extends Kind, B extends WhatMultiplies<A>>(
	a: Quantity<A>,
	b: Quantity<B>,
): Quantity<ProductOf<A, B>> {
	const nodes = [nodeOf(a), nodeOf(b as Quantity)] as QuantityNode[];
	const kind = productKind(a.kind, b.kind);
	if (kind === "")
		refuse(
			"product-unknown",
			"times",
			`${kindText(a.kind)} (${a}) times ${kindText(b.kind)} (${b})`,
			"two kinds whose product is used at a bench",
			"Check which of the two was meant to be something else.",
		);
	const unit =
		kind === a.kind ? a.unit : kind === b.kind ? b.unit : displayUnit(kind);
	return derived(kind, unit, operations.product, nodes) as Quantity as Quantity<
		ProductOf<A, B>
	>;
}

/**
 * a divided by b: a mass by a volume is a mass concentration, two values of one kind give a ratio.
 * @throws ProblemError for two kinds that are not divided at a bench, and for a divisor of zero
 * @example
 * quantity.per(quantity.input("mass", 1, "g", quantity.exact), quantity.input("mass", 4, "g", quantity.exact)) // => "0.25"
 */
export function per<A extends Kind, B extends WhatDivides<A>>(
	a: Quantity<A>,
	b: Quantity<B>,
): Quantity<QuotientOf<A, B>> {
	const nodes = [nodeOf(a), nodeOf(b as Quantity)] as QuantityNode[];
	const kind = quotientKind(a.kind, b.kind);
	if (kind === "")
		refuse(
			"quotient-unknown",
			"per",
			`${kindText(a.kind)} (${a}) divided by ${kindText(b.kind)} (${b})`,
			"two kinds whose quotient is used at a bench",
			"Check which of the two was meant to be something else.",
		);
	const unit = kind === a.kind ? a.unit : displayUnit(kind);
	return derived(
		kind,
		unit,
		operations.quotient,
		nodes,
	) as Quantity as Quantity<QuotientOf<A, B>>;
}

/** Mass taken up per mass of char, an `uptake` (mg/g) rather than a bare ratio. */
export function massPerMass(
	takenUp: Quantity<"mass">,
	char: Quantity<"mass">,
): Quantity<"uptake"> {
	return derived("uptake", "mg/g", operations.quotient, [
		nodeOf(takenUp),
		nodeOf(char),
	] as QuantityNode[]);
}

/** Mass per volume of one liquid, a `density` (g/mL) rather than a concentration of something in it. */
export function densityOf(
	mass: Quantity<"mass">,
	volume: Quantity<"volume">,
): Quantity<"density"> {
	return derived("density", "g/mL", operations.quotient, [
		nodeOf(mass),
		nodeOf(volume),
	] as QuantityNode[]);
}

/** Mass of a solute per volume of its solution from mass fraction and density, a `massConcentration` (g/L). */
export function massConcentrationOf(
	fraction: Quantity<"ratio">,
	density: Quantity<"density">,
): Quantity<"massConcentration"> {
	return derived("massConcentration", "g/L", operations.product, [
		nodeOf(fraction),
		nodeOf(density),
	] as QuantityNode[]);
}

/**
 * A quantity times an exact number.
 * @example
 * quantity.scaled(quantity.input("mass", 3, "g", quantity.normal(0.1)), 2) // => "6.00 g (u 0.20 g)"
 */
export function scaled<K extends Kind>(
	a: Quantity<K>,
	factor: number,
): Quantity<K> {
	const node = nodeOf(a) as QuantityNode;
	if (typeof factor !== "number")
		refuse(
			"wrong-argument",
			"scaled",
			foundText(factor),
			"an exact number to multiply with",
			"Give a number; two quantities are multiplied by quantity.times.",
		);
	return derived(a.kind, a.unit, operations.scaling, [node], factor);
}

/** A quantity times a number that was computed, such as a coefficient of correlation: its digits are no part of the formula. */
export function computedMultiple<K extends Kind>(
	a: Quantity<K>,
	factor: number,
): Quantity<K> {
	return derived(
		a.kind,
		a.unit,
		operations.computedScaling,
		[nodeOf(a)] as QuantityNode[],
		factor,
	);
}

/** A smooth function of one quantity, with its exact derivative; both in the units named. */
export interface SmoothFunction<A extends Kind, K extends Kind> {
	/** Names the function in formulas. */
	readonly name: string;
	readonly argumentUnit: UnitOf<A>;
	readonly kind: K;
	readonly unit: UnitOf<K>;
	value(x: number): number;
	derivative(x: number): number;
}

const functions = new WeakMap<object, operations.Operation>();

/** One operation for each function, so that the same function of the same quantity is known as one and the same step. */
function operationOf<A extends Kind, K extends Kind>(
	argument: A,
	f: SmoothFunction<A, K>,
): operations.Operation {
	const before = functions.get(f);
	if (before !== undefined) return before;
	const at = (base: number): number => fromBase(argument, base, f.argumentUnit);
	const evaluate = (base: number): number =>
		toBase(f.kind, f.value(at(base)), f.unit);
	const slope =
		unitFactor(f.kind, f.unit) / unitFactor(argument, f.argumentUnit);
	const operation: operations.Operation = {
		id: f.name,
		evaluate: ([base]) => evaluate(base),
		derivative: ([base]) => f.derivative(at(base)) * slope,
		evaluateBlock: ([x], _parameter, out) => {
			for (let j = 0; j < out.length; j++) out[j] = evaluate(x[j]);
		},
	};
	functions.set(f, operation);
	return operation;
}

/** Applies a function of one's own to a quantity; errors go through its derivative. Keep the function object: it is what makes two applications the same step. */
export function functionOf<A extends Kind, K extends Kind>(
	argument: Quantity<A>,
	f: SmoothFunction<A, K>,
): Quantity<K> {
	return derived(f.kind, f.unit, operationOf(argument.kind, f), [
		nodeOf(argument),
	] as QuantityNode[]);
}

/** A ratio to an exact power. */
export function raised(
	a: Quantity<"ratio">,
	exponent: number,
): Quantity<"ratio"> {
	return derived("ratio", "1", operations.power, [nodeOf(a)], exponent);
}

/** Natural logarithm of a ratio. */
export function naturalLog(a: Quantity<"ratio">): Quantity<"ratio"> {
	return derived("ratio", "1", operations.logarithm, [nodeOf(a)]);
}

export function exponentialOf(a: Quantity<"ratio">): Quantity<"ratio"> {
	return derived("ratio", "1", operations.exponential, [nodeOf(a)]);
}

export function cosineOf(a: Quantity<"ratio">): Quantity<"ratio"> {
	return derived("ratio", "1", operations.cosine, [nodeOf(a)]);
}

export function sineOf(a: Quantity<"ratio">): Quantity<"ratio"> {
	return derived("ratio", "1", operations.sine, [nodeOf(a)]);
}
