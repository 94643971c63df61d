/** The answers that a notebook reports, each with the sentence that says what was found. */
import type { FigureDescription } from "../figures";
import type { ResultInNotebook } from "./extract";
import { findingText } from "./finding";
import { headNames, type ReportedComparison } from "./reported";
import type { StructuredTable } from "./structured-table";

/** An answer at a head. The first is its title. */
export type HeadAnswer =
	| {
			readonly is: "comparison";
			readonly finding: string;
			readonly comparison: ReportedComparison;
			/** Those that were reported as the verdict drawn; of the first comparison alone. */
			readonly figures: readonly FigureDescription[];
	  }
	| {
			readonly is: "answer";
			readonly finding: string;
			/** One, or none. */
			readonly figures: readonly FigureDescription[];
			readonly tables: readonly StructuredTable[];
			readonly statements: readonly string[];
	  };

/** The first sentence of a text, and what follows it. */
export function firstSentence(text: string): {
	readonly first: string;
	readonly rest: string;
} {
	const end = /(?<!\b(?:e\.g|i\.e))[.!?](?=\s+["(\p{Lu}])/u.exec(text);
	const at = end === null ? text.length : end.index + 1;
	return { first: text.slice(0, at), rest: text.slice(at).trim() };
}

/** A list of sentences: the first is the finding. */
function saidAnswer([said, ...others]: readonly string[]): HeadAnswer[] {
	if (said === undefined) return [];
	const { first, rest } = firstSentence(said);
	return [
		{
			is: "answer",
			finding: first,
			figures: [],
			tables: [],
			statements: [...(rest === "" ? [] : [rest]), ...others],
		},
	];
}

const isVerdict = ({ name }: ResultInNotebook): boolean =>
	name === headNames.verdict || name === headNames.answer;

function answerOf(result: ResultInNotebook): HeadAnswer[] {
	const { content, figure } = result;
	switch (content.kind) {
		case "comparison":
			return [
				{
					is: "comparison",
					finding: findingText(content),
					comparison: content,
					figures: [],
				},
			];
		case "answer":
			return isVerdict(result)
				? [
						{
							is: "answer",
							finding: content.finding,
							figures: figure === undefined ? [] : [figure],
							tables: content.tables,
							statements: content.statements,
						},
					]
				: [];
		case "statements":
			return isVerdict(result) ? saidAnswer(content.statements) : [];
		case "text":
			return isVerdict(result) ? saidAnswer([content.text]) : [];
		default:
			return [];
	}
}

/** What was reported as the verdict first, then every other comparison. */
export function headAnswers(
	results: readonly ResultInNotebook[],
): readonly HeadAnswer[] {
	const answers = [
		...results.filter(isVerdict),
		...results.filter((result) => !isVerdict(result)),
	].flatMap(answerOf);
	const drawn = results.flatMap(({ name, figure }) =>
		name === headNames.drawn && figure !== undefined ? [figure] : [],
	);
	const first = answers.findIndex((a) => a.is === "comparison");
	return answers.map((answer, i) =>
		i === first && answer.is === "comparison"
			? { ...answer, figures: drawn }
			: answer,
	);
}
