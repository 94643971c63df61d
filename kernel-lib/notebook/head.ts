/** What stands at a head, whoever shows it: what must not be done, claims of a use, the answers, what to know before they are quoted, what to do next, safety. */
import { listed, quoted } from "../quantity";
import type { ResultInNotebook } from "./extract";
import { firstSentence, type HeadAnswer, headAnswers } from "./head-answers";
import { headNames } from "./reported";
import { cautionsApart, statements } from "./statements";
import type { StructuredTable } from "./structured-table";

/** Texts in sight, and those behind a fold. */
export interface Folded {
	readonly open: readonly string[];
	readonly folded: readonly string[];
}

export interface Head {
	readonly forbidden: readonly string[];
	/** That nothing tested a use which the sheet's words promise. */
	readonly claims: readonly string[];
	readonly answers: readonly HeadAnswer[];
	readonly beforeQuoting: Folded;
	readonly next: Folded;
	readonly safety: {
		/** One line; "" where nothing calls for one. */
		readonly line: string;
		/** What no trial of uptake can show, in full. */
		readonly neverShown: readonly string[];
		readonly cautions: readonly string[];
	};
}

/** So many lines before quoting are in sight. Our decision. */
const openLines = 3;
/** So many steps. Our decision. */
const openSteps = 1;

/** A fold that would hide a single text is no use. */
export function foldedAt(texts: readonly string[], open: number): Folded {
	return texts.length <= open + 1
		? { open: texts, folded: [] }
		: { open: texts.slice(0, open), folded: texts.slice(open) };
}

/** A line in sight is no longer, in letters: of a longer one its first sentence is in sight, and all of it folded. Our decision. */
const longLine = 150;

/** The first lines in short; those that were cut stand in full behind the fold, before the others. */
function inShort(texts: readonly string[], most: number): Folded {
	const cut = (text: string): boolean =>
		text.length > longLine && firstSentence(text).rest !== "";
	const { open, folded } = texts.slice(0, most).some(cut)
		? { open: texts.slice(0, most), folded: texts.slice(most) }
		: foldedAt(texts, most);
	return {
		open: open.map((text) => (cut(text) ? firstSentence(text).first : text)),
		folded: [...open.filter(cut), ...folded],
	};
}

const saysUntested = (text: string): boolean =>
	text.endsWith("nothing here tested it.");

const isNeverShown = (text: string): boolean =>
	text.startsWith("This does not show");

/** In short, what the sentences of what can never be shown say. */
const notATest =
	"Not a test for drinking water, breathing or treating poisoning.";

/** What cautions of a signal are about stands before their colon. */
function subjects(cautions: readonly string[], signal: string): string {
	const found = cautions.flatMap((text) =>
		text.startsWith(`${signal}, `)
			? text.slice(signal.length + 2, text.indexOf(":")).split(", ")
			: [],
	);
	return listed([...new Set(found)]);
}

function safetyLine(
	cautions: readonly string[],
	neverShown: readonly string[],
): string {
	const toLife = subjects(cautions, "Danger to life");
	const danger = subjects(cautions, "Danger");
	const count = `${cautions.length} ${cautions.length === 1 ? "caution" : "cautions"}`;
	return [
		...(toLife === "" ? [] : [`Danger to life: ${toLife}.`]),
		...(danger === "" ? [] : [`Danger: ${danger}.`]),
		...(cautions.length === 0 ? [] : [`${count}.`]),
		...(neverShown.length === 0 ? [] : [notATest]),
	].join(" ");
}

/** A step of a table, with the treatment or flask that it concerns. */
function stepText(
	concerns: string,
	what: string,
	treatments: ReadonlySet<string>,
): string {
	if (treatments.has(concerns)) return `${quoted(concerns)}: ${what}`;
	return concerns.startsWith("flask ") && !what.includes(concerns)
		? `${concerns.replace("flask", "Flask")}: ${what}`
		: what;
}

function stepsOf(results: readonly ResultInNotebook[]): readonly string[] {
	const treatments = new Set(
		results.flatMap(({ content }) =>
			content.kind === "comparison"
				? content.verdicts.map((v) => v.treatment)
				: [],
		),
	);
	const inTable = ({ columns, rows }: StructuredTable): string[] => {
		const concerns = columns.indexOf("concerns");
		const what = columns.indexOf("what to do");
		return what < 0
			? []
			: rows.map((row) =>
					stepText(row[concerns]?.text ?? "", row[what].text, treatments),
				);
	};
	return [
		...results.flatMap(({ name, content }) =>
			name === headNames.next && content.kind === "table"
				? inTable(content.table)
				: [],
		),
		...statements(results, headNames.next),
	];
}

/** The head of what was reported, in the order in which it is shown. */
export function headOf(results: readonly ResultInNotebook[]): Head {
	const { forbidden, others } = cautionsApart(results);
	const limits = statements(results, headNames.notConcluded);
	const neverShown = limits.filter(isNeverShown);
	const own = limits.filter((t) => !saysUntested(t) && !isNeverShown(t));
	const claims = limits.filter(saysUntested);
	const answers = headAnswers(results);
	const ofAnswers = answers.flatMap((a) =>
		a.is === "comparison" ? a.comparison.beforeQuoting : [],
	);
	return {
		forbidden,
		claims:
			claims.length > 0 && neverShown.length > 0
				? [...claims.slice(0, -1), `${claims[claims.length - 1]} ${notATest}`]
				: claims,
		answers,
		beforeQuoting: inShort([...ofAnswers, ...own], openLines),
		next: inShort(stepsOf(results), openSteps),
		safety: {
			line: safetyLine(others, neverShown),
			neverShown,
			cautions: others,
		},
	};
}
