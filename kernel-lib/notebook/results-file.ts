/** The texts of results.json and ledger.csv: functions of the executed notebook. */
import { ledgerCsvLines, valueOrThrow } from "../quantity";
import type { DrawnSeed } from "../stats";
import { ledgerOf, reportedResults } from "./extract";
import { hasTag, type Notebook } from "./ipynb";
import { beside } from "./large/packed-file";
import type {
	ReportedComparison,
	ReportedContent,
	ReportedMargin,
	ReportedResidue,
	ReportedResult,
} from "./reported";
import {
	type RunInput,
	type RunTimes,
	type RunVersions,
	runRecord,
} from "./run-record";
import type { SetBy, Setting } from "./settings";
import { analysesTag } from "./tags";

/** Names of the parameters that hold the smallest difference that matters; 0 where it was not set so. */
const marginParameters = {
	uptake: "marginMgPerG",
	"percent of the control": "marginPercent",
	"not set": "marginMgPerG",
};

/** What a comparison asked, in one place for whoever reads the file. */
export interface ComparisonSummary {
	/** Name of the result. */
	readonly result: string;
	readonly claim: ReportedComparison["claim"];
	/** "code": it stands in a cell, and is no setting. */
	readonly margin: ReportedMargin & { readonly setBy: SetBy | "code" };
	readonly confidence: number;
	readonly statedResidue: ReportedResidue;
}

export interface ResultsFile {
	readonly formatVersion: 2;
	readonly runId: string;
	readonly settings: readonly Setting[];
	readonly comparisons: readonly ComparisonSummary[];
	readonly inputs: readonly RunInput[];
	readonly versions: RunVersions;
	/** What chance was drawn from before the last result was reported: with the same seeds it falls the same. */
	readonly seeds: readonly DrawnSeed[];
	readonly times: RunTimes;
	/** Which analysis of its sheet it is in this folder, and what was asked otherwise before; "" for the only one. */
	readonly analyses: string;
	readonly results: readonly {
		readonly name: string;
		readonly note: string;
		readonly content: ReportedContent;
	}[];
}

/** Who set a margin: "code" where it stands in a cell. */
export function marginSetBy(
	margin: ReportedMargin,
	settings: readonly Setting[],
): SetBy | "code" {
	const setting = settings.find((s) => s.name === marginParameters[margin.is]);
	const set = margin.is === "not set" ? 0 : margin.value;
	return setting?.is === "value" && setting.value === set
		? setting.setBy
		: "code";
}

function summaries(
	results: readonly ReportedResult[],
	settings: readonly Setting[],
): ComparisonSummary[] {
	return results.flatMap(({ name, content }) =>
		content.kind === "comparison"
			? [
					{
						result: name,
						claim: content.claim,
						margin: {
							...content.margin,
							setBy: marginSetBy(content.margin, settings),
						},
						confidence: content.confidence,
						statedResidue: content.statedResidue,
					},
				]
			: [],
	);
}

/** A large table's file lies beside results.json, and is named there. */
function withoutInside(content: ReportedContent): ReportedContent {
	if (content.kind !== "table" || content.table.large === undefined)
		return content;
	const { large } = content.table;
	return {
		...content,
		table: {
			...content.table,
			large: { ...large, whole: beside(large.whole) },
		},
	};
}

/**
 * results.json as data.
 * @throws ProblemError when an output of the notebook cannot be read, or its cells were run by different versions
 */
export function resultsFile(notebook: Notebook): ResultsFile {
	const results = valueOrThrow(reportedResults(notebook));
	const { id, settings, inputs, versions, seeds, times } = valueOrThrow(
		runRecord(notebook),
	);
	return {
		formatVersion: 2,
		runId: id,
		settings,
		comparisons: summaries(results, settings),
		inputs,
		versions,
		seeds,
		times,
		analyses:
			notebook.cells.find((cell) => hasTag(cell, analysesTag))?.source ?? "",
		results: results.map(({ name, note, content }) => ({
			name,
			note,
			content: withoutInside(content),
		})),
	};
}

/** The text of results.json. */
export function resultsText(notebook: Notebook): string {
	return `${JSON.stringify(resultsFile(notebook), null, "\t")}\n`;
}

/** The lines of ledger.csv, one after the other. */
export function ledgerTextLines(notebook: Notebook): Generator<string> {
	return ledgerCsvLines(
		ledgerOf(valueOrThrow(reportedResults(notebook))),
		valueOrThrow(runRecord(notebook)).id,
	);
}

/** The text of ledger.csv. */
export function ledgerText(notebook: Notebook): string {
	return [...ledgerTextLines(notebook)].join("");
}
