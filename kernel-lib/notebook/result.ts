/** A value in the form in which it is reported. */
import {
	type Comparison,
	findingsOf,
	scatterTable,
	type TreatmentVerdict,
} from "../compare";
import {
	effectiveDegreesOfFreedom,
	jupyterDisplay,
	type LedgerRow,
	type LineIds,
	ledgerLines,
	lineIds,
	type Measured,
	ProblemError,
	problem,
	type Quantity,
	type Table,
} from "../quantity";
import { drawnSeeds, studentTQuantile } from "../stats";
import {
	beforeQuoting,
	comparableDose,
	methodSentences,
	obstaclesText,
	replicatesReason,
	verdictInShort,
	verdictReasons,
	verdictSentence,
	whyNoDifference,
	wordsAtThreeMargins,
} from "../words";
import { type Answer, answerContent, isAnswer, isFigure } from "./answer";
import {
	type DifferenceLines,
	differenceLines,
	weighedCount,
} from "./difference-lines";
import { mostWeighed } from "./large/limits";
import { ledgerPart } from "./large/packed-ledger";
import type {
	ReportedComparison,
	ReportedContent,
	ReportedDifference,
	ReportedInterval,
	ReportedMargin,
	ReportedReplicates,
	ReportedResidue,
	ReportedResult,
	ReportedValue,
	ReportedWordGround,
} from "./reported";
import { structuredTable, tableOf } from "./structured-table";
import { versionsHere } from "./versions";

/** What `report` takes. */
export type Reportable =
	| Quantity
	| Measured<Quantity["kind"]>
	| Comparison
	| Answer
	| Table
	| { readonly table: Table }
	| { readonly alt: string; readonly layers: readonly unknown[] }
	| string
	| number
	| readonly string[];

const confidence = 0.95;

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

export function isComparison(value: unknown): value is Comparison {
	return (
		isObject(value) &&
		Array.isArray(value.verdicts) &&
		Array.isArray(value.groups) &&
		isObject(value.margin)
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
	const coverageFactor = studentTQuantile((1 + confidence) / 2, degrees);
	const half = coverageFactor * q.standardUncertainty;
	return {
		confidence,
		low: q.value - half,
		high: q.value + half,
		coverageFactor,
	};
}

function reportedMargin({ margin }: Comparison): ReportedMargin {
	switch (margin.is) {
		case "not set":
			return margin;
		case "uptake":
			return { is: margin.is, ...reportedValue(margin.uptake) };
		case "percent of the control":
			return {
				is: margin.is,
				value: margin.percent,
				unit: "%",
				standardUncertainty: 0,
			};
	}
}

function residueOf({ at }: Comparison): ReportedResidue {
	return {
		is: at.statedBy === "nobody" ? "from the trial" : "stated",
		...reportedValue(at.residue),
	};
}

function reportedDifference(v: TreatmentVerdict): ReportedDifference {
	const d = v.difference;
	switch (d.is) {
		case "estimate":
			return d;
		case "not available":
			return { is: d.is, because: whyNoDifference(d, v) };
		default:
			return { is: d.is, limit: d.limit };
	}
}

/** Why no word can be told where the intervals give none. */
function undecided({ difference, obstacles }: TreatmentVerdict): string {
	switch (difference.is) {
		case "estimate":
			return "the interval does not decide";
		case "at least":
		case "at most":
			return "only a bound is known, and it does not decide";
		case "not available":
			return obstacles.length > 0
				? obstaclesText(obstacles)
				: "nothing is known of the difference";
	}
}

function reportedGround(v: TreatmentVerdict): ReportedWordGround {
	const { claim, judged, provable, forbidden } = v.ground;
	return {
		claim,
		judged,
		provable,
		forbidden: forbidden.map(({ word, obstacles, upTo }) => ({
			word,
			because: obstaclesText(obstacles),
			upTo,
		})),
		because: undecided(v),
	};
}

function reportedReplicates(
	comparison: Comparison,
	v: TreatmentVerdict,
): ReportedReplicates {
	const { replicates } = v;
	const because = replicatesReason(comparison, v);
	switch (replicates.is) {
		case "enough":
			return replicates;
		case "not given":
			return { is: replicates.is, because };
		default:
			return { is: replicates.is, units: replicates.units, because };
	}
}

/** What each verdict adds to the ledger. */
type Differences = ReadonlyMap<TreatmentVerdict, DifferenceLines>;

function comparisonContent(
	comparison: Comparison,
	differences: Differences,
): ReportedComparison {
	return {
		kind: "comparison",
		claim: comparison.claim,
		probe: comparison.probe,
		margin: reportedMargin(comparison),
		atThreeMargins: structuredTable(wordsAtThreeMargins(comparison)),
		confidence: comparison.confidence,
		statedResidue: residueOf(comparison),
		scope: comparison.scope,
		verdicts: comparison.verdicts.map((v) => ({
			treatment: v.treatment,
			control: v.control,
			word: v.word,
			measuringErrorOnly: comparison.scope === "measuring error only",
			sentence: verdictSentence(comparison, v),
			inShort: verdictInShort(comparison, v),
			reasons: verdictReasons(comparison, v),
			conditions: findingsOf(v.audited),
			difference: reportedDifference(v),
			reckoned: differences.get(v)?.reckoned ?? { lines: [], weighed: [] },
			wordGround: reportedGround(v),
			margin: v.margin,
			exceedsMargin: v.exceedsMargin,
			replicates: reportedReplicates(comparison, v),
			comparableDose: comparableDose(v),
			withoutDeviations: v.withoutDeviations,
			withDeviations: v.withDeviations,
		})),
		decisions: comparison.decisions,
		groups: comparison.groups,
		beforeQuoting: beforeQuoting(comparison),
		method: methodSentences(comparison),
		degreesOfFreedom: comparison.degreesOfFreedom,
		pooledDeviation: comparison.pooledDeviation,
		scatter: structuredTable(scatterTable(comparison)),
	};
}

function refused(
	code: string,
	found: string,
	expected: string,
	mend: string,
): ProblemError {
	return new ProblemError([
		problem(code, { column: "report" }, found, expected, mend),
	]);
}

function contentOf(
	value: Reportable,
	lines: LineIds,
	differences: Differences,
): ReportedContent {
	if (typeof value === "string") return { kind: "text", text: value };
	if (typeof value === "number") return { kind: "number", value };
	if (isQuantity(value))
		return {
			kind: "quantity",
			...reportedValue(value),
			interval: intervalOf(value),
		};
	if (isMeasured(value))
		return value.is === "value"
			? contentOf(value.quantity, lines, differences)
			: {
					kind: "bound",
					side: value.is,
					because: value.because,
					...reportedValue(value.quantity),
				};
	if (isComparison(value)) return comparisonContent(value, differences);
	if (isAnswer(value)) return answerContent(value, lines);
	const shown = tableOf(value);
	if (shown !== null)
		return { kind: "table", table: structuredTable(shown, lines) };
	if (Array.isArray(value) && value.every((v) => typeof v === "string"))
		return { kind: "statements", statements: value };
	if (isFigure(value)) return { kind: "figure", alt: value.alt };
	throw refused(
		"report-value",
		typeof value === "object"
			? "an object of another kind"
			: value === undefined
				? "nothing (undefined)"
				: `a ${typeof value}`,
		"a quantity, a bound, a comparison, an answer, a table, a result with a table, a figure, a text, a list of texts or a number",
		"Report one of these.",
	);
}

/** What a comparison rests on: the margin, the stated residue, the uptake of every flask. The rest of its trial is not reported with it. */
function quantitiesOfComparison({
	at,
	flasks,
	compared,
	margin,
}: Comparison): Quantity[] {
	return [
		...(margin.is === "uptake" ? [margin.uptake] : []),
		at.residue,
		...flasks.map((f) => f.uptake.quantity),
		...compared.flatMap(({ flask }) => [
			flask.uptake.quantity,
			flask.residue.quantity,
		]),
	];
}

/** The part of a value that is written down: of a result with a table, that table. */
function reportedPart(value: Reportable): unknown {
	return isQuantity(value) || isComparison(value) || isAnswer(value)
		? value
		: (tableOf(value) ?? value);
}

/** Every quantity inside a value, each once, in the order of the value's fields. */
export function quantitiesIn(value: unknown): Quantity[] {
	if (isComparison(value)) return quantitiesOfComparison(value);
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
		throw refused(
			"report-not-finite",
			`${value} as ${path}`,
			"finite numbers only",
			"Find out where it came from, and report a text where there is no value.",
		);
	if (isObject(value))
		for (const [key, child] of Object.entries(value))
			requireFinite(child, `${path}.${key}`);
}

function* finite(
	rows: Iterable<LedgerRow>,
	name: string,
): Generator<LedgerRow> {
	let line = 0;
	for (const row of rows) {
		requireFinite(row, `"${name}".ledger.${line}`);
		line += 1;
		yield row;
	}
}

/** Of a comparison that weighs very many flasks, none. */
function differencesOf(comparison: Comparison, lines: LineIds): Differences {
	const { verdicts } = comparison;
	const weighed = verdicts.reduce(
		(sum, v) => sum + weighedCount(v, comparison),
		0,
	);
	return new Map(
		weighed > mostWeighed
			? []
			: verdicts.map((v) => [v, differenceLines(comparison, v, lines)]),
	);
}

/** The lines of flasks, then those of the differences between them, each once. */
function* withDifferences(
	rows: Iterable<LedgerRow>,
	differences: Differences,
): Generator<LedgerRow> {
	yield* rows;
	const told = new Set<string>();
	for (const { lines } of differences.values())
		for (const line of lines) {
			if (told.has(line.id)) continue;
			told.add(line.id);
			yield line;
		}
}

/**
 * A value in the form in which it is reported.
 * @throws ProblemError for a name that is missing, a value that cannot be reported, a number in it that is not finite
 */
export function resultOf(
	name: string,
	value: Reportable,
	note: string,
): ReportedResult {
	if (typeof name !== "string" || name.trim() === "")
		throw refused(
			"report-name",
			"no name",
			"the name of the result first",
			'Write for instance report("uptake of flask 1", uptake).',
		);
	const quantities = quantitiesIn(reportedPart(value));
	const lines = lineIds(quantities);
	const differences = isComparison(value)
		? differencesOf(value, lines)
		: new Map();
	const content = contentOf(value, lines, differences);
	requireFinite(content, `"${name}".content`);
	return {
		formatVersion: 2,
		name,
		note,
		content,
		ledger: ledgerPart(
			finite(
				withDifferences(ledgerLines(quantities, lines), differences),
				name,
			),
		),
		versions: versionsHere(),
		seeds: drawnSeeds(),
	};
}
