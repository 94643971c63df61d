import { createHash } from "node:crypto";
import { foundText, refuse } from "../problem";
import { keyOf } from "./input-key";
import { type Kind, kindText } from "./kinds";
import {
	asQuantity,
	noOperands,
	type Quantity,
	QuantityNode,
	showUnit,
} from "./quantity";
import type { Distribution, Scope, Source } from "./source";
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
	if (!Number.isFinite(value) || value < 0)
		refuse(
			"uncertainty-wrong",
			what,
			foundText(value),
			"a number of at least 0",
			"An uncertainty has no sign; 0 stands for an exact number.",
		);
	return value;
}

/**
 * A standard uncertainty as it stands (k = 1), normally distributed; with degrees of freedom, Student's t.
 * @throws ProblemError for a negative uncertainty
 * @example
 * quantity.normal(0.02).standardUncertainty // => 0.02
 */
export function normal(
	standardUncertainty: number,
	degreesOfFreedom = Number.POSITIVE_INFINITY,
): Evidence {
	return {
		standardUncertainty: notNegative(standardUncertainty, "normal"),
		distribution: Number.isFinite(degreesOfFreedom) ? "student" : "normal",
		degreesOfFreedom,
	};
}

/**
 * A tolerance of plus or minus a, every value in it equally likely: u = a/sqrt(3) (JCGM 100:2008, 4.3.7).
 * @throws ProblemError for a negative tolerance
 * @example
 * quantity.rectangular(0.3).standardUncertainty // => 0.173205
 */
export function rectangular(halfWidth: number): Evidence {
	return {
		standardUncertainty: notNegative(halfWidth, "rectangular") / Math.sqrt(3),
		distribution: "rectangular",
		degreesOfFreedom: Number.POSITIVE_INFINITY,
	};
}

/**
 * A tolerance of plus or minus a, the middle likelier than the ends: u = a/sqrt(6) (JCGM 100:2008, 4.3.9).
 * @throws ProblemError for a negative tolerance
 * @example
 * quantity.triangular(0.3).standardUncertainty // => 0.122474
 */
export function triangular(halfWidth: number): Evidence {
	return {
		standardUncertainty: notNegative(halfWidth, "triangular") / Math.sqrt(6),
		distribution: "triangular",
		degreesOfFreedom: Number.POSITIVE_INFINITY,
	};
}

/**
 * A certificate's expanded uncertainty U with its coverage factor k (2 on most): u = U/k.
 * @throws ProblemError for a negative uncertainty or a coverage factor that is not above 0
 * @example
 * quantity.certificate(0.06, 3).standardUncertainty // => 0.02
 */
export function certificate(expanded: number, k = 2): Evidence {
	if (typeof k !== "number" || !(k > 0))
		refuse(
			"coverage-factor-wrong",
			"certificate",
			typeof k === "number" ? `a coverage factor of ${k}` : foundText(k),
			"a coverage factor above 0",
			"Take k from the certificate; it is 2 on most.",
		);
	return normal(notNegative(expanded, "certificate") / k);
}

/** Readings taken to the nearest division: rectangular, plus or minus half of it. */
export function halfDivision(division: number): Evidence {
	return rectangular(notNegative(division, "halfDivision") / 2);
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
	/** For a number that was computed and not written down by anyone (a coefficient of a fit, a scatter): what it was computed from. Its ids then come from this and not from its digits; usually "". */
	readonly computedFrom: string;
}

export function stated(source: string): Source {
	return { is: "stated", source };
}

/**
 * A number that was read or stated.
 *
 * @param value in `unit`
 * @param evidence how uncertain it is, in the same unit
 * @param alone true for a reading that stands in no cell: an error of its own, whatever is written about it
 * @throws ProblemError for a unit that the kind does not have, a number that is not finite or a negative uncertainty
 */
export function input<K extends Kind>(
	kind: K,
	value: number,
	unit: UnitOf<K>,
	evidence: Evidence,
	description: Partial<InputDescription>,
	alone = false,
): Quantity<K> {
	if (!Number.isFinite(value))
		refuse(
			"value-not-finite",
			description.meaning ?? "input",
			`${value} for ${kindText(kind)}`,
			"a finite number",
			"Change this number.",
		);
	const described: InputDescription = {
		symbol: description.symbol ?? "",
		meaning: description.meaning ?? "",
		source: description.source ?? stated("typed in"),
		scope: description.scope ?? "shared",
		component: description.component ?? "",
		computedFrom: description.computedFrom ?? "",
	};
	const shownIn = showUnit(kind, unit);
	const uncertainty = evidence.standardUncertainty * unitFactor(kind, unit);
	const { symbol, meaning, source, scope } = described;
	// A number with a source and a symbol is the same wherever it is met; two numbers typed in without them are two, even when they look alike.
	const known = !alone && description.source !== undefined && symbol !== "";
	return asQuantity(
		new QuantityNode<K>(
			kind,
			shownIn,
			toBase(kind, value, unit),
			{ symbol, meaning },
			{
				key: keyOf(described, known, `${value} ${unit}`, uncertainty),
				source,
				distribution: evidence.distribution,
				scope,
				uncertainty,
				degreesOfFreedom: evidence.degreesOfFreedom,
			},
			null,
			noOperands,
			0,
		),
	);
}

/** An exact number without a unit. */
export function exactRatio(
	value: number,
	symbol = "",
	meaning = "",
): Quantity<"ratio"> {
	return input("ratio", value, "1", exact, { symbol, meaning });
}

/** The number 1 of formulas such as 1 - w: one input, in however many of them it stands. */
export const one: Quantity<"ratio"> = exactRatio(1);

/** SHA-256 in hex. */
export function sha256(content: string | Uint8Array): string {
	return createHash("sha256").update(content).digest("hex");
}

/** Content hash that identifies a file wherever it lies: the first 16 hex digits of its SHA-256. */
export function contentHash(content: string | Uint8Array): string {
	return sha256(content).slice(0, 16);
}
