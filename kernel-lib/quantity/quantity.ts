import { foundName, foundText, refuse, requireText } from "../problem";
import { formatQuantity } from "./format";
import { standardUncertaintyOf } from "./graph";
import { baseUnits, type Kind } from "./kinds";
import { didYouMean } from "./nearest-name";
import type { Operation } from "./operations";
import type { Input } from "./source";
import { displayUnit, fromBase, type UnitOf, unitFactor } from "./units";

/** The open convention by which an object says how a notebook should show it: a method that returns a MIME bundle. */
export const jupyterDisplay: unique symbol = Symbol.for("Jupyter.display");

/** What Node's console shows; the plain notebook kernel uses it for the last value of a cell. */
const inspected: unique symbol = Symbol.for("nodejs.util.inspect.custom");

/** Symbol for formulas and meaning in words; empty strings where a step has no name of its own. */
export interface Name {
	readonly symbol: string;
	readonly meaning: string;
}

export const unnamed: Name = { symbol: "", meaning: "" };

/**
 * A value that knows its kind, unit, uncertainty and where it came from.
 *
 * `value` and `standardUncertainty` are in `unit`. `kind` is a required property, so that the kernel's loose compiler rejects grams where millilitres belong.
 */
export interface Quantity<K extends Kind = Kind> {
	readonly kind: K;
	/** The unit that `value` and `standardUncertainty` are in. */
	readonly unit: string;
	readonly value: number;
	/** Standard uncertainty (k = 1) by first-order propagation over all inputs, correlations included; 0 for an exact number. */
	readonly standardUncertainty: number;
	readonly name: Name;
	/** The value in another unit of the kind. */
	in(unit: UnitOf<K>): number;
	/** The same quantity, shown in another unit. */
	to(unit: UnitOf<K>): Quantity<K>;
	/** Value and uncertainty rounded by the uncertainty, with unit. */
	toString(): string;
	/** MIME bundle for notebooks (the open convention that several kernels follow). */
	[jupyterDisplay](): Record<string, string>;
}

/**
 * The one implementation: a node of the expression graph. A class, because ten thousand flasks make a million of these and the methods must sit on a
 * shared prototype; everything outside this folder sees the interface `Quantity`.
 */
export class QuantityNode<K extends Kind = Kind> {
	private uncertaintyCache: number | null = null;
	/** The node that this one is under another unit or name, until their uncertainty is known: it is worked out once. */
	private origin: QuantityNode<K> | null = null;
	/** Of the walks over the graph. */
	visited = 0;
	adjoint = 0;
	constructor(
		readonly kind: K,
		readonly unit: string,
		/** In base units. */
		readonly base: number,
		readonly name: Name,
		/** What an input is; null for a derived number. */
		readonly input: Input | null,
		/** What was done; null for an input. */
		readonly operation: Operation | null,
		readonly operands: readonly QuantityNode[],
		/** The constant of an operation (a factor, an exponent); 0 where it has none. */
		readonly parameter: number,
	) {}

	get value(): number {
		return fromBase(this.kind, this.base, this.unit);
	}

	/** Standard uncertainty in base units. */
	get baseUncertainty(): number {
		if (this.uncertaintyCache === null) {
			this.uncertaintyCache =
				this.origin === null
					? standardUncertaintyOf(this as unknown as QuantityNode)
					: this.origin.baseUncertainty;
			this.origin = null;
		}
		return this.uncertaintyCache;
	}

	get standardUncertainty(): number {
		return this.baseUncertainty / unitFactor(this.kind, this.unit);
	}

	in(unit: UnitOf<K>): number {
		return fromBase(this.kind, this.base, unit);
	}

	to(unit: UnitOf<K>): QuantityNode<K> {
		unitFactor(this.kind, unit);
		return this.with({ unit });
	}

	/** The same node of the graph under another unit or name. */
	with(change: { unit?: string; name?: Name }): QuantityNode<K> {
		const same = new QuantityNode(
			this.kind,
			change.unit ?? this.unit,
			this.base,
			change.name ?? this.name,
			this.input,
			this.operation,
			this.operands,
			this.parameter,
		);
		if (this.uncertaintyCache === null) same.origin = this.origin ?? this;
		else same.uncertaintyCache = this.uncertaintyCache;
		return same;
	}

	toString(): string {
		return formatQuantity(this);
	}

	[jupyterDisplay](): Record<string, string> {
		return { "text/plain": this.toString() };
	}

	[inspected](): string {
		return this.toString();
	}
}

/** Of every input. */
export const noOperands: readonly QuantityNode[] = [];

/** From the public interface to the node behind it. */
export function nodeOf<K extends Kind>(quantity: Quantity<K>): QuantityNode<K> {
	if (quantity instanceof QuantityNode)
		return quantity as unknown as QuantityNode<K>;
	return refuse(
		"not-a-quantity",
		"",
		typeof quantity === "number"
			? `the bare number ${quantity}`
			: foundText(quantity),
		"a quantity: a number with a unit",
		typeof quantity === "number"
			? `Give it a unit, e.g. quantity.input("mass", ${quantity}, "g", quantity.normal(0.001)).`
			: "Make one with quantity.input().",
	);
}

export function asQuantity<K extends Kind>(node: QuantityNode<K>): Quantity<K> {
	return node as unknown as Quantity<K>;
}

/**
 * Gives a step its symbol and its meaning in words; named steps are the lines of the working and of the ledger.
 * @param symbol as in a formula, an index in braces: "V_{end}"
 * @example
 * quantity.named(quantity.input("mass", 1, "g", quantity.exact), "m", "dry char").name.meaning // => "dry char"
 */
export function named<K extends Kind>(
	quantity: Quantity<K>,
	symbol: string,
	meaning: string,
): Quantity<K> {
	// Asked here first, for every step of a chain is named.
	if (typeof symbol !== "string" || typeof meaning !== "string") {
		requireText(symbol, 'a symbol in quotes, such as "V_{end}"', "named");
		requireText(meaning, "the meaning in words, in quotes", "named");
	}
	return asQuantity(nodeOf(quantity).with({ name: { symbol, meaning } }));
}

/** Unit to show a kind in, checked. */
export function showUnit(kind: Kind, unit: string | null): string {
	if (!Object.hasOwn(baseUnits, kind))
		refuse(
			"kind-unknown",
			"input",
			foundName("the kind", kind),
			`one of ${Object.keys(baseUnits).join(", ")}`,
			didYouMean(kind, Object.keys(baseUnits)),
		);
	return unit ?? displayUnit(kind);
}
