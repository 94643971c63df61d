/** The log of analyses beside the results: what was asked of a sheet, run by run, so that a margin chosen after the first look is told. */
import { z } from "zod";
import { residueText, unusualDecisions } from "../../compare";
import {
	type Checked,
	type Problem,
	plainNumber,
	problem,
	valueOrThrow,
} from "../../quantity";
import { reportedResults } from "../extract";
import type { Cell, Notebook } from "../ipynb";
import {
	headNames,
	type ReportedComparison,
	type ReportedMargin,
	type ReportedResidue,
} from "../reported";
import {
	type RunInput,
	type RunRecord,
	runRecord,
	saysToldFrom,
} from "../run-record";
import { analysesTag } from "../tags";

/** Name of the log, in the folder of the results. */
export const analysesFile = "analyses.jsonl";

const text = z.string();

const analysis = z.object({
	formatVersion: z.literal(1),
	runId: text,
	/** When it was run, UTC. */
	date: text,
	notebook: text,
	sheet: z.object({ file: text, hash: text }),
	/** In words, as "25 mg/g". */
	asked: z.object({
		margin: text,
		claim: text,
		confidence: text,
		residue: text,
		/** "as usual", or those that were taken otherwise. A log that was begun before does not say. */
		decisions: text.default("as usual"),
	}),
	words: z.array(z.object({ treatment: text, word: text })),
});

/** One analysis of a sheet: a line of the log. */
export type Analysis = z.output<typeof analysis>;

/** Reads the log; all damaged lines at once. */
export function readAnalyses(log: string, file: string): Checked<Analysis[]> {
	const found: Analysis[] = [];
	const problems: Problem[] = [];
	log.split("\n").forEach((line, i) => {
		if (line.trim() === "") return;
		const parsed = analysis.safeParse(json(line));
		if (parsed.success) found.push(parsed.data);
		else
			problems.push(
				problem(
					"analyses-damaged",
					{ file, row: i + 1 },
					"a line that is no analysis",
					"the log as `charledger run` writes it",
					"Mend the line, or run into another folder with --out.",
				),
			);
	});
	return problems.length > 0
		? { ok: false, problems }
		: { ok: true, value: found };
}

function json(line: string): unknown {
	try {
		return JSON.parse(line);
	} catch {
		return null;
	}
}

function marginText(margin: ReportedMargin): string {
	switch (margin.is) {
		case "not set":
			return "not set";
		case "uptake":
			return `${plainNumber(margin.value)} ${margin.unit}`;
		case "percent of the control":
			return `${plainNumber(margin.value)} % of the control`;
	}
}

function residueAsked({ is, value }: ReportedResidue): string {
	return is === "stated" ? residueText(value) : "not stated";
}

function decisionsText(c: ReportedComparison): string {
	const unusual = unusualDecisions(c).map((d) => `${d.name} ${d.taken}`);
	return unusual.length === 0 ? "as usual" : `"${unusual.join("; ")}"`;
}

/** The bench sheet among what was read: the file that the parameter `sheet` names, else the first. */
function sheetOf({ inputs, settings }: RunRecord): readonly RunInput[] {
	const named = settings.find((s) => s.name === "sheet");
	const sheet = inputs.find(
		({ file }) => named?.is === "value" && named.value === file,
	);
	return sheet === undefined ? inputs.slice(0, 1) : [sheet];
}

/** The comparison that is the answer of a notebook: the one called "verdict", else the first. */
function answerOf(notebook: Notebook): readonly ReportedComparison[] {
	const compared = valueOrThrow(reportedResults(notebook)).flatMap(
		({ name, content }) =>
			content.kind === "comparison" ? [{ name, content }] : [],
	);
	const answer =
		compared.find(({ name }) => name === headNames.verdict) ?? compared[0];
	return answer === undefined ? [] : [answer.content];
}

/** The analysis that an executed notebook is; none where it compares nothing or reads no file. */
export function analysisOf(
	executed: Notebook,
	notebook: string,
	now: Date,
): readonly Analysis[] {
	const record = valueOrThrow(runRecord(executed));
	return sheetOf(record).flatMap(({ file, hash }) =>
		answerOf(executed).map(
			(c): Analysis => ({
				formatVersion: 1,
				runId: record.id,
				date:
					record.times.is === "recorded"
						? record.times.ended
						: now.toISOString(),
				notebook,
				sheet: { file, hash },
				asked: {
					margin: marginText(c.margin),
					claim: c.claim,
					confidence: `${plainNumber(100 * c.confidence)} %`,
					residue: residueAsked(c.statedResidue),
					decisions: decisionsText(c),
				},
				words: c.verdicts.map(({ treatment, word }) => ({ treatment, word })),
			}),
		),
	);
}

const ordinals = [
	"first",
	"second",
	"third",
	"fourth",
	"fifth",
	"sixth",
	"seventh",
	"eighth",
	"ninth",
	"tenth",
];

/** "third", "no. 11" */
function ordinal(n: number): string {
	return ordinals[n - 1] ?? `no. ${n}`;
}

/** What was asked otherwise in an analysis than in the one before it, as "margin changed from 25 mg/g to 15 mg/g". */
function changes(before: Analysis, after: Analysis): string[] {
	const pairs = [
		["margin", before.asked.margin, after.asked.margin],
		["claim", `"${before.asked.claim}"`, `"${after.asked.claim}"`],
		["confidence", before.asked.confidence, after.asked.confidence],
		["stated residue", before.asked.residue, after.asked.residue],
		["decisions", before.asked.decisions, after.asked.decisions],
		["notebook", before.notebook, after.notebook],
	].filter(([, from, to]) => from !== to);
	const told = [
		...(before.sheet.hash === after.sheet.hash
			? []
			: ["what the sheet holds changed"]),
		...pairs.map(([what, from, to]) => `${what} changed from ${from} to ${to}`),
	];
	return told.length > 0
		? told
		: [
				"margin, claim, confidence, residue and decisions as before, something else changed",
			];
}

/** The log with an analysis in its place: a run that is in it already is no new one. */
export function withAnalysis(
	log: readonly Analysis[],
	one: Analysis,
): readonly Analysis[] {
	return log.some((a) => a.runId === one.runId) ? log : [...log, one];
}

/**
 * Which analysis of its sheet it is (of the same file, or of the same content under another name), and what changed from each to the next: "Third analysis of this sheet; margin changed from 25 mg/g to 15 mg/g after the first." Empty where it is the only one.
 *
 * @param log with the analysis in it
 */
export function analysesText(
	log: readonly Analysis[],
	{ runId, sheet }: Analysis,
): string {
	const own = log.filter(
		(a) => a.sheet.hash === sheet.hash || a.sheet.file === sheet.file,
	);
	if (own.length < 2) return "";
	const place = own.findIndex((a) => a.runId === runId) + 1;
	const which =
		place === own.length
			? `${ordinal(place)} analysis of this sheet`
			: `${ordinal(place)} of ${own.length} analyses of this sheet`;
	const told = own
		.slice(1)
		.flatMap((a, i) =>
			changes(own[i], a).map((c) => `${c} after the ${ordinal(i + 1)}`),
		);
	const sentence = [which, ...told].join("; ");
	return `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.`;
}

/**
 * A notebook that says at its top which analysis of its sheet it is; what an earlier run had said is gone.
 *
 * @param log as it was read, before this run
 */
export function withAnalysesTold(
	notebook: Notebook,
	told: string,
	log: string,
): Notebook {
	const cells = notebook.cells.filter(
		(c) => !c.metadata.tags?.includes(analysesTag),
	);
	const notice: Cell = {
		cell_type: "markdown",
		id: analysesTag,
		metadata: { tags: [analysesTag], ...saysToldFrom(analysesFile, log) },
		source: told,
	};
	return { ...notebook, cells: told === "" ? cells : [notice, ...cells] };
}
