/** What a notebook reports, in the form in which it travels: plain JSON with a format version, from which results.json, ledger.csv and the page are made. */
import type {
	Comparison,
	Difference,
	GroupSummary,
	Replicates,
	VerdictScope,
	VerdictWord,
} from "../compare";
import {
	effectiveDegreesOfFreedom,
	jupyterDisplay,
	type LedgerRow,
	ledgerRows,
	type Measured,
	type Quantity,
	type Table,
} from "../quantity";
import { studentTQuantile } from "../stats";
import {
	isTable,
	type StructuredTable,
	structuredTable,
} from "./structured-table";

/** Type under which a reported result travels in a notebook. */
export const resultMimeType = "application/vnd.charledger.result+json";

/** A value with its unit and standard uncertainty. */
export interface ReportedValue {
	readonly value: number;
	readonly unit: string;
	readonly standardUncertainty: number;
}

export interface ReportedInterval {
	/** Probability that the interval stands for, 0.95. */
	readonly level: number;
	readonly low: number;
	readonly high: number;
	/** Half-width over standard uncertainty. */
	readonly coverageFactor: number;
}

export interface ReportedVerdict {
	readonly treatment: string;
	readonly control: string;
	readonly word: VerdictWord;
	/** True where only the measuring error is covered (one flask a treatment). */
	readonly measuringErrorOnly: boolean;
	readonly sentence: string;
	readonly reasons: readonly string[];
	/** In mg/g. */
	readonly difference: Difference;
	readonly exceedsMargin: boolean;
	readonly replicates: Replicates;
	readonly comparableDose: string;
	readonly withoutDeviations: VerdictWord;
	readonly withDeviations: VerdictWord;
}

export type ReportedContent =
	| ({
			readonly kind: "quantity";
			readonly interval: ReportedInterval;
	  } & ReportedValue)
	| ({
			readonly kind: "bound";
			readonly side: "at least" | "at most";
			readonly because: string;
	  } & ReportedValue)
	| {
			readonly kind: "comparison";
			readonly margin: ReportedValue;
			readonly scope: VerdictScope;
			readonly verdicts: readonly ReportedVerdict[];
			readonly groups: readonly GroupSummary[];
			readonly method: readonly string[];
			readonly degreesOfFreedom: number;
			readonly pooledDeviation: number;
	  }
	| { readonly kind: "table"; readonly table: StructuredTable }
	| { readonly kind: "figure"; readonly alt: string }
	| { readonly kind: "number"; readonly value: number }
	| { readonly kind: "text"; readonly text: string }
	| { readonly kind: "statements"; readonly statements: readonly string[] };

export interface ReportedResult {
	readonly formatVersion: 1;
	readonly name: string;
	/** A sentence of the reporter's own; "" for none. */
	readonly note: string;
	readonly content: ReportedContent;
	/** The ancestors of the result: inputs with the place they were read at, named steps with their formula. */
	readonly ledger: readonly LedgerRow[];
}

/** What `report` takes. */
export type Reportable =
	| Quantity
	| Measured<Quantity["kind"]>
	| Comparison
	| Table
	| { readonly alt: string; readonly layers: readonly unknown[] }
	| string
	| number
	| readonly string[];

const level = 0.95;

function isObject(value: unknown): value is Record<PropertyKey, unknown> {
	return typeof value === "object" && value !== null;
}

export function isQuantity(value: unknown): value is Quantity {
	return (
		isObject(value) &&
		typeof value.kind === "string" &&
		typeof value.unit === "string" &&
		typeof value.value === "number" &&
		typeof value.standardUncertainty === "number" &&
		typeof value[jupyterDisplay] === "function"
	);
}

function isMeasured(value: unknown): value is Measured<Quantity["kind"]> {
	return (
		isObject(value) &&
		(value.is === "value" ||
			value.is === "at least" ||
			value.is === "at most") &&
		isQuantity(value.quantity)
	);
}

function isComparison(value: unknown): value is Comparison {
	return (
		isObject(value) &&
		Array.isArray(value.verdicts) &&
		Array.isArray(value.groups) &&
		isQuantity(value.margin)
	);
}

function reportedValue(q: Quantity): ReportedValue {
	return {
		value: q.value,
		unit: q.unit,
		standardUncertainty: q.standardUncertainty,
	};
}

/** 95 % interval from the standard uncertainty and its effective degrees of freedom (JCGM 100:2008, G.3 and G.4). */
function intervalOf(q: Quantity): ReportedInterval {
	const degrees =
		q.standardUncertainty > 0
			? effectiveDegreesOfFreedom(q)
			: Number.POSITIVE_INFINITY;
	const coverageFactor = studentTQuantile((1 + level) / 2, degrees);
	const half = coverageFactor * q.standardUncertainty;
	return { level, low: q.value - half, high: q.value + half, coverageFactor };
}

function comparisonContent(comparison: Comparison): ReportedContent {
	return {
		kind: "comparison",
		margin: reportedValue(comparison.margin),
		scope: comparison.scope,
		verdicts: comparison.verdicts.map((v) => ({
			treatment: v.treatment,
			control: v.control,
			word: v.word,
			measuringErrorOnly: comparison.scope === "measuring error only",
			sentence: v.sentence,
			reasons: v.reasons,
			difference: v.difference,
			exceedsMargin: v.exceedsMargin,
			replicates: v.replicates,
			comparableDose: v.comparableDose,
			withoutDeviations: v.withoutDeviations,
			withDeviations: v.withDeviations,
		})),
		groups: comparison.groups,
		method: comparison.method,
		degreesOfFreedom: comparison.degreesOfFreedom,
		pooledDeviation: comparison.pooledDeviation,
	};
}

function contentOf(value: Reportable): ReportedContent {
	if (typeof value === "string") return { kind: "text", text: value };
	if (typeof value === "number") return { kind: "number", value };
	if (Array.isArray(value) && value.every((v) => typeof v === "string"))
		return { kind: "statements", statements: value };
	if (isQuantity(value))
		return {
			kind: "quantity",
			...reportedValue(value),
			interval: intervalOf(value),
		};
	if (isMeasured(value))
		return value.is === "value"
			? contentOf(value.quantity)
			: {
					kind: "bound",
					side: value.is,
					because: value.because,
					...reportedValue(value.quantity),
				};
	if (isComparison(value)) return comparisonContent(value);
	if (isTable(value)) return { kind: "table", table: structuredTable(value) };
	if (isObject(value) && typeof value.alt === "string" && "layers" in value)
		return { kind: "figure", alt: value.alt };
	throw new TypeError(
		`report() takes a quantity, a bound, a comparison, a table, a figure, a text, a list of texts or a number; found ${typeof value}.`,
	);
}

/** Every quantity inside a value, each once, in the order of the value's fields. */
export function quantitiesIn(value: unknown): Quantity[] {
	const found: Quantity[] = [];
	const seen = new Set<object>();
	const walk = (v: unknown): void => {
		if (!isObject(v) || seen.has(v)) return;
		seen.add(v);
		if (isQuantity(v)) found.push(v);
		else for (const child of Object.values(v)) walk(child);
	};
	walk(value);
	return found;
}

function requireFinite(value: unknown, path: string): void {
	if (typeof value === "number" && !Number.isFinite(value))
		throw new RangeError(
			`A reported result may hold finite numbers only; ${path} is ${value}.`,
		);
	if (isObject(value))
		for (const [key, child] of Object.entries(value))
			requireFinite(child, `${path}.${key}`);
}

/**
 * A value in the form in which it is reported.
 * @throws TypeError for a value that cannot be reported, RangeError for one that holds a number that is not finite
 */
export function resultOf(
	name: string,
	value: Reportable,
	note: string,
): ReportedResult {
	if (typeof name !== "string" || name.trim() === "")
		throw new TypeError(
			'report() needs a name first: report("uptake of flask 1", uptake).',
		);
	const result: ReportedResult = {
		formatVersion: 1,
		name,
		note,
		content: contentOf(value),
		ledger: ledgerRows(quantitiesIn(value)),
	};
	requireFinite(result, `"${name}"`);
	return result;
}
