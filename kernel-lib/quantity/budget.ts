import { studentTQuantile } from "../stats";
import { plainSymbol, symbolOf } from "./expression";
import {
	fixed,
	intervalText,
	plainNumber,
	roundedPair,
	significant,
	unitText,
} from "./format";
import { sensitivities } from "./graph";
import { countOption, numberOption, requireOptions } from "./options";
import { effectiveDegreesOfFreedom } from "./propagation";
import { nodeOf, type Quantity, type QuantityNode } from "./quantity";
import type { Distribution } from "./source";
import { type Table, table } from "./table";
import { unitFactor } from "./units";
import { type WithTable, withTable } from "./with-table";

/** What one input contributes to the uncertainty of a result. */
export interface BudgetRow {
	readonly symbol: string;
	readonly meaning: string;
	/** Value and standard uncertainty of the input, in its own unit. */
	readonly value: number;
	readonly standardUncertainty: number;
	readonly unit: string;
	readonly distribution: Distribution;
	readonly degreesOfFreedom: number;
	/** d(result)/d(input), in unit of the result per unit of the input. */
	readonly sensitivity: number;
	/** |sensitivity| times the input's standard uncertainty, in the unit of the result. */
	readonly contribution: number;
	/** Part of the variance of the result, 0 to 1; the shares add up to 1. */
	readonly share: number;
	/** Standard uncertainty of the result if this input's were half as large. */
	readonly ifHalved: number;
}

/** An interval that is expected to hold a stated part of the values that could reasonably be attributed (JCGM 100:2008, clause 6 and annex G). */
export interface ExpandedUncertainty {
	/** Coverage probability, 0.95 for 95 %. */
	readonly confidence: number;
	readonly coverageFactor: number;
	/** Welch-Satterthwaite, for independent inputs; Infinity where every input is taken as known. */
	readonly degreesOfFreedom: number;
	/** Half-width U = k u, in the unit of the result. */
	readonly halfWidth: number;
	readonly lower: number;
	readonly upper: number;
}

/** Uncertainty budget: the inputs sorted by what they contribute, largest first. */
export interface Budget {
	readonly quantity: Quantity;
	readonly rows: readonly BudgetRow[];
	readonly expanded: ExpandedUncertainty;
	/** "Halving this would bring u from .. to ..": one sentence on the largest contribution; says so where nothing contributes. */
	readonly advice: string;
}

const usualConfidence = 0.95;

const confidenceRule = { confidence: numberOption(0, 1) };

/**
 * Expanded uncertainty by first order: k is the t quantile at the effective degrees of freedom, cut to a whole number as JCGM 100:2008, G.4.1 advises.
 *
 * @param confidence coverage probability, between 0 and 1
 * @throws ProblemError for a confidence that is not between 0 and 1
 */
export function expandedUncertainty(
	q: Quantity,
	confidence = usualConfidence,
): ExpandedUncertainty {
	requireOptions({ confidence }, confidenceRule, "expandedUncertainty");
	const degreesOfFreedom = effectiveDegreesOfFreedom(q);
	const whole = Math.max(1, Math.floor(degreesOfFreedom + 1e-9));
	const coverageFactor = studentTQuantile((1 + confidence) / 2, whole);
	const halfWidth = coverageFactor * q.standardUncertainty;
	return {
		confidence,
		coverageFactor,
		degreesOfFreedom,
		halfWidth,
		lower: q.value - halfWidth,
		upper: q.value + halfWidth,
	};
}

/** A value and its expanded interval: "326.1 mg/g (322.0 to 330.2)". Say beside it which interval it is. */
export function expandedText(
	q: Quantity,
	confidence = usualConfidence,
): string {
	const { halfWidth, lower, upper } = expandedUncertainty(q, confidence);
	return halfWidth > 0
		? intervalText(q.value, lower, upper, q.unit)
		: `${plainNumber(q.value)}${unitText(q.unit)}`;
}

/** The same without the unit, for a column whose head says it: "326.1 (322.0 to 330.2)". */
export function expandedNumbers(q: Quantity): string {
	const { halfWidth, lower, upper } = expandedUncertainty(q, usualConfidence);
	return halfWidth > 0
		? intervalText(q.value, lower, upper)
		: plainNumber(q.value);
}

/** How a budget is shown. */
export interface BudgetOptions {
	/** Coverage probability of the expanded uncertainty, 0.95 unless told otherwise. */
	readonly confidence: number;
	/** Lines of the table; what is beyond them is added up in one. 12 unless told otherwise. */
	readonly most: number;
}

const budgetRules = { ...confidenceRule, most: countOption(1) };

/**
 * The uncertainty budget of a result, by first order with exact derivatives: what each input contributes to its standard uncertainty, the largest first; shown as a table, with the expanded uncertainty and which input to measure better. An input that enters in several
 * places counts once, with its whole effect (JCGM 100:2008, 5.1).
 * @throws ProblemError for an option that it does not have
 * @example
 * quantity.budget(quantity.plus(quantity.input("mass", 1, "g", quantity.normal(0.03)), quantity.input("mass", 2, "g", quantity.normal(0.04)))).rows.map((row) => row.share) // => [0.64, 0.36]
 * quantity.budget(quantity.input("mass", 3, "g", quantity.normal(0.1), { symbol: "m", meaning: "char" })).table // => "Uncertainty budget of char: 3.00 g (u 0.10 g)"
 */
export function budget(
	q: Quantity,
	options: Partial<BudgetOptions> = {},
): WithTable<Budget> {
	requireOptions(options, budgetRules, "budget");
	const node = nodeOf(q) as QuantityNode;
	const factor = unitFactor(node.kind, node.unit);
	const u = node.standardUncertainty;
	const rows = [...sensitivities(node).values()]
		.map(({ input, node: x, derivative }): BudgetRow => {
			const inputFactor = unitFactor(x.kind, x.unit);
			const contribution = Math.abs(derivative * input.uncertainty) / factor;
			const share = u > 0 ? (contribution / u) ** 2 : 0;
			return {
				symbol: plainSymbol(symbolOf(x)),
				meaning: x.name.meaning,
				value: x.value,
				standardUncertainty: input.uncertainty / inputFactor,
				unit: x.unit,
				distribution: input.distribution,
				degreesOfFreedom: input.degreesOfFreedom,
				sensitivity: (derivative * inputFactor) / factor,
				contribution,
				share,
				ifHalved: u * Math.sqrt(Math.max(0, 1 - 0.75 * share)),
			};
		})
		.sort((a, b) => b.contribution - a.contribution);
	const expanded = expandedUncertainty(q, options.confidence);
	const result = { quantity: q, rows, expanded, advice: adviceOn(q, rows) };
	return withTable(result, () => budgetTable(result, options.most));
}

function adviceOn(q: Quantity, rows: readonly BudgetRow[]): string {
	const u = q.standardUncertainty;
	if (rows.length === 0 || !(u > 0))
		return "No input has an uncertainty: nothing was said about any.";
	const [first] = rows;
	const [after, before] = roundedPair(first.ifHalved, u);
	const name = first.meaning === "" ? first.symbol : first.meaning;
	return `Halving the uncertainty of ${name} (${first.symbol}) would bring u from ${before} to ${after}${unitText(q.unit)}.`;
}

function percent(share: number): string {
	return share >= 0.001 ? `${fixed(100 * share, 1)} %` : "below 0.1 %";
}

/** Lines of the table unless told otherwise. Our decision. */
const usualLines = 12;

/** The budget for people: what is beyond `most` lines is added up in one; below it, which input to measure better, and the expanded uncertainty. */
function budgetTable(
	{ quantity: q, rows, expanded, advice }: Budget,
	most = usualLines,
): Table {
	const unit = unitText(q.unit).trim();
	const inUnit = unit === "" ? "" : ` (${unit})`;
	return table(
		`Uncertainty budget${q.name.meaning === "" ? "" : ` of ${q.name.meaning}`}: ${q}`,
		[
			"input",
			"meaning",
			"value",
			"u",
			"shape",
			`contribution${inUnit}`,
			"share of u²",
			`u if halved${inUnit}`,
		],
		[...rows.slice(0, most).map(rowTexts), ...othersTexts(q, rows.slice(most))],
		[advice, expandedSentence(q, expanded)],
	);
}

function rowTexts(r: BudgetRow): string[] {
	const [value, u] = roundedPair(r.value, r.standardUncertainty);
	return [
		r.symbol,
		r.meaning,
		`${value}${unitText(r.unit)}`,
		`${u}${unitText(r.unit)}`,
		r.distribution === "student"
			? `student, ${r.degreesOfFreedom} df`
			: r.distribution,
		significant(r.contribution, 2),
		percent(r.share),
		significant(r.ifHalved, 3),
	];
}

/** What is beyond the lines that are shown, in one line; none where there is nothing. */
function othersTexts(q: Quantity, rest: readonly BudgetRow[]): string[][] {
	if (rest.length === 0) return [];
	const share = rest.reduce((sum, r) => sum + r.share, 0);
	return [
		[
			"others",
			`${rest.length} smaller inputs together`,
			"",
			"",
			"",
			significant(q.standardUncertainty * Math.sqrt(share), 2),
			percent(share),
			"",
		],
	];
}

/** From so many effective degrees of freedom on, their number says nothing more: Student's factor for 95 % is that of the normal distribution to two decimals. Our decision. */
const manyDegrees = 1000;

/** What is said of the effective degrees of freedom. */
export function freedomText(degrees: number): string {
	if (!Number.isFinite(degrees))
		return "every input's uncertainty taken as known";
	return degrees < manyDegrees
		? `${fixed(degrees, 1)} effective degrees of freedom by Welch and Satterthwaite, for independent inputs`
		: `effective degrees of freedom unlimited for every practical purpose (${manyDegrees} or more)`;
}

function expandedSentence(q: Quantity, expanded: ExpandedUncertainty): string {
	const { coverageFactor, degreesOfFreedom, confidence } = expanded;
	const [, halfWidth] = roundedPair(q.value, expanded.halfWidth);
	return `Expanded uncertainty U = ${halfWidth}${unitText(q.unit)} with k = ${fixed(coverageFactor, 2)} (${plainNumber(100 * confidence)} %, ${freedomText(degreesOfFreedom)}).`;
}
