import { createHash } from "node:crypto";
import type { Kind } from "./kinds";
import {
	asQuantity,
	type Distribution,
	type Quantity,
	QuantityNode,
	type Scope,
	type Source,
	showUnit,
} from "./quantity";
import { toBase, type UnitOf, unitFactor } from "./units";

/** How uncertain an input is, in the unit that the value is given in. */
export interface Evidence {
	/** Standard uncertainty (k = 1) in the unit of the value; 0 for an exact number. */
	readonly standardUncertainty: number;
	readonly distribution: Distribution;
	readonly degreesOfFreedom: number;
}

export const exact: Evidence = {
	standardUncertainty: 0,
	distribution: "exact",
	degreesOfFreedom: Number.POSITIVE_INFINITY,
};

function notNegative(value: number, what: string): number {
	if (!(value >= 0) || !Number.isFinite(value))
		throw new RangeError(
			`${what} must be a number of at least 0, found ${value}.`,
		);
	return value;
}

/** A standard uncertainty as it stands (k = 1), normal. */
export function normal(
	standardUncertainty: number,
	degreesOfFreedom = Number.POSITIVE_INFINITY,
): Evidence {
	return {
		standardUncertainty: notNegative(standardUncertainty, "An uncertainty"),
		distribution: Number.isFinite(degreesOfFreedom) ? "student" : "normal",
		degreesOfFreedom,
	};
}

/** A tolerance of plus or minus a, every value in it equally likely: u = a/sqrt(3) (JCGM 100:2008, 4.3.7). */
export function rectangular(halfWidth: number): Evidence {
	return {
		standardUncertainty: notNegative(halfWidth, "A tolerance") / Math.sqrt(3),
		distribution: "rectangular",
		degreesOfFreedom: Number.POSITIVE_INFINITY,
	};
}

/** A tolerance of plus or minus a, the middle likelier than the ends: u = a/sqrt(6) (JCGM 100:2008, 4.3.9). */
export function triangular(halfWidth: number): Evidence {
	return {
		standardUncertainty: notNegative(halfWidth, "A tolerance") / Math.sqrt(6),
		distribution: "triangular",
		degreesOfFreedom: Number.POSITIVE_INFINITY,
	};
}

/** A certificate's expanded uncertainty U with its coverage factor k: u = U/k. */
export function certificate(expanded: number, k = 2): Evidence {
	if (!(k > 0))
		throw new RangeError(`A coverage factor must be above 0, found ${k}.`);
	return normal(notNegative(expanded, "An expanded uncertainty") / k);
}

/** Readings taken to the nearest division: rectangular, plus or minus half of it. */
export function halfDivision(division: number): Evidence {
	return rectangular(notNegative(division, "A division") / 2);
}

export interface InputDescription {
	/** Symbol for formulas, e.g. "V_{end}". */
	readonly symbol: string;
	/** What it is, in words. */
	readonly meaning: string;
	readonly source: Source;
	readonly scope: Scope;
	/** Tells apart several components of one cell (its reading error, its end point); usually "". */
	readonly component: string;
}

export function stated(source: string): Source {
	return { is: "stated", source };
}

/** Keys of numbers that were typed into a cell begin with this; the rest of the key counts up through a session. */
const typedInKey = "typed in|";

export function isTypedIn(key: string): boolean {
	return key.startsWith(typedInKey);
}

/**
 * A number that was read or stated.
 *
 * @param value in `unit`
 * @param evidence how uncertain it is, in the same unit
 * @throws RangeError for a unit that the kind does not have or a number that is not finite
 */
export function input<K extends Kind>(
	kind: K,
	value: number,
	unit: UnitOf<K>,
	evidence: Evidence,
	description: Partial<InputDescription>,
): Quantity<K> {
	if (!Number.isFinite(value))
		throw new RangeError(
			`A ${kind} must be a finite number, found ${value}${description.meaning ? ` for ${description.meaning}` : ""}.`,
		);
	const source = description.source ?? stated("typed in");
	const symbol = description.symbol ?? "";
	const component = description.component ?? "";
	const own = description.source !== undefined && symbol !== "";
	const uncertainty = evidence.standardUncertainty * unitFactor(kind, unit);
	const key =
		source.is === "cell"
			? // join() makes one flat text; a template keeps every piece of it alive, a third of the memory of a large sheet.
				[source.hash, source.sheet, source.row, source.column, component].join(
					"|",
				)
			: own
				? `stated|${source.source}|${symbol}|${component}|${value} ${unit}|${uncertainty}`
				: // Two numbers typed in without a source are two inputs, even when they look alike.
					`${typedInKey}${nextTyped()}`;
	return asQuantity(
		new QuantityNode<K>(
			kind,
			showUnit(kind, unit),
			toBase(kind, value, unit),
			{ symbol, meaning: description.meaning ?? "" },
			{
				key,
				source,
				distribution: evidence.distribution,
				scope: description.scope ?? "shared",
				uncertainty,
				degreesOfFreedom: evidence.degreesOfFreedom,
			},
			null,
			[],
			0,
		),
	);
}

let typed = 0;
function nextTyped(): number {
	typed += 1;
	return typed;
}

/** An exact number without a unit. */
export function exactRatio(
	value: number,
	symbol = "",
	meaning = "",
): Quantity<"ratio"> {
	return input("ratio", value, "1", exact, { symbol, meaning });
}

/** Content hash that identifies a file wherever it lies: the first 16 hex digits of its SHA-256. */
export function contentHash(content: string | Uint8Array): string {
	return createHash("sha256").update(content).digest("hex").slice(0, 16);
}
