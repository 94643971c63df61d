import {
	fixed,
	listed,
	quoted,
	requireResults,
	type Table,
	table,
} from "../quantity";
import {
	d4607,
	type IodineNumber,
	iodineNumberKind,
	placesNotInSheet,
} from "../uptake";
import type { AnswerInWords } from "./answer-words";
import { counted } from "./wording";

type Found = Extract<IodineNumber, { is: "value" }>;

/** More chars than this are told by the lowest and the highest of them. Our decision. */
export const mostNamed = 3;

const met = ({ conditions }: Found): number =>
	conditions.filter((c) => c.state === "met").length;

/** Whether it may bear the standard's name: the volumes are among the conditions. */
const isByTheStandard = (number: Found): boolean =>
	met(number) === number.conditions.length;

/** "368 mg/g (361 to 374)". */
function valueText({ line }: Found, unit = " mg/g"): string {
	return `${fixed(line.value.in("mg/g"), 0)}${unit} (${fixed(line.low, 0)} to ${fixed(line.high, 0)})`;
}

/** What else must be known of the value before it is quoted: dosages that are not in it, a line read beyond its points. */
function limitsOf({ line, points, offTheLine }: Found): string {
	const [low, high] = line.range;
	const beyond = low > d4607.reportedAt_N || high < d4607.reportedAt_N;
	return [
		...(offTheLine.length > 0
			? [
					`from ${points.length} of ${counted(points.length + offTheLine.length, "dosage")}`,
				]
			: []),
		...(beyond ? ["read beyond the residues of its points"] : []),
	]
		.map((text) => `, ${text}`)
		.join("");
}

/** "of 9 conditions 2 are not met and 1 is not recorded". */
function unmetText({ conditions }: Found): string {
	const count = (state: string): number =>
		conditions.filter((c) => c.state === state).length;
	const parts = (["not met", "not recorded"] as const)
		.filter((state) => count(state) > 0)
		.map(
			(state) =>
				`${count(state)} ${count(state) === 1 ? "is" : "are"} ${state}`,
		);
	return `of ${counted(conditions.length, "condition")} ${parts.join(" and ")}`;
}

function clauseOf(number: IodineNumber): string {
	const { treatment } = number;
	if (number.is === "not available")
		return `No iodine number for ${quoted(treatment)}: ${number.because}`;
	return isByTheStandard(number)
		? `Iodine number of ${quoted(treatment)}: ${valueText(number)}${limitsOf(number)}; ${met(number)} of ${number.conditions.length} conditions of the standard that a sheet can show are met`
		: `${quoted(treatment)} took up ${valueText(number)} of iodine at ${d4607.reportedAt_N} N${limitsOf(number)}; by the standard this is no iodine number: ${unmetText(number)}`;
}

/** Many chars: from the lowest to the highest, how many bear the standard's name, and how many have no value. */
function rangeText(numbers: readonly IodineNumber[]): string {
	const found = numbers
		.filter((n) => n.is === "value")
		.sort((a, b) => a.line.value.in("mg/g") - b.line.value.in("mg/g"));
	const none = numbers.length - found.length;
	if (found.length === 0)
		return `None of ${counted(none, "char")} has an iodine number`;
	const [lowest] = found;
	const highest = found[found.length - 1];
	const named = found.filter(isByTheStandard).length;
	const values =
		lowest === highest
			? `${quoted(lowest.treatment)} ${valueText(lowest)}`
			: `from ${valueText(lowest)} of ${quoted(lowest.treatment)} to ${valueText(highest)} of ${quoted(highest.treatment)}`;
	return [
		`Uptake of iodine at ${d4607.reportedAt_N} N, ${counted(numbers.length, "char")}: ${values}`,
		named === found.length
			? "all of these are iodine numbers by the standard"
			: `${named} of ${found.length} are iodine numbers by the standard`,
		...(none > 0 ? [`${none} of ${numbers.length} without a value`] : []),
	].join("; ");
}

/** The sentence at the head: each char, or from the lowest to the highest where there are many. */
export function iodineNumberFinding(numbers: readonly IodineNumber[]): string {
	if (numbers.length === 0)
		return "This sheet holds no char that was dosed and titrated, so there is no iodine number.";
	return numbers.length > mostNamed
		? `${rangeText(numbers)}.`
		: numbers.map((n) => `${clauseOf(n)}.`).join(" ");
}

/** A row a char; its sheet is named where there are several. */
function answerTable(numbers: readonly IodineNumber[]): Table {
	const several = new Set(numbers.map((n) => n.file)).size > 1;
	const nameOf = ({ treatment, file }: IodineNumber): string =>
		several ? `${treatment}, ${file}` : treatment;
	return table(
		"",
		[
			"char",
			`at ${d4607.reportedAt_N} N (mg/g)`,
			"conditions met",
			"may be called",
		],
		numbers.map((n) =>
			n.is === "value"
				? [
						nameOf(n),
						valueText(n, ""),
						`${met(n)} of ${n.conditions.length}`,
						isByTheStandard(n) ? "iodine number" : "not an iodine number",
					]
				: [nameOf(n), "no value", "", "not an iodine number"],
		),
	);
}

/**
 * The answer of a trial by the steps of the standard: each char's uptake at 0.02 N with its 95 % interval, how many conditions were met, and whether it may be called an iodine number. The title is of the first list alone.
 *
 * @param scaledDown the same steps with less iodine, from another sheet: rows of the table
 * @example
 * const answer = words.iodineNumberAnswer(uptake.iodineNumbers(iodineNumberTrial));
 * answer.finding.startsWith('Iodine number of "fired twice": ') // => true
 * answer.table.columns.length // => 4
 */
export function iodineNumberAnswer(
	numbers: readonly IodineNumber[],
	scaledDown: readonly IodineNumber[] = [],
): AnswerInWords {
	requireResults(numbers, iodineNumberKind, "iodineNumberAnswer");
	requireResults(scaledDown, iodineNumberKind, "iodineNumberAnswer");
	const all = [...numbers, ...scaledDown];
	const found = all.filter((n) => n.is === "value");
	const files = [...new Set(scaledDown.map((n) => n.file))];
	return {
		finding: iodineNumberFinding(numbers),
		table: answerTable(all),
		statements: [
			...(found.length > 0
				? [
						"In brackets: the 95 % interval of measuring in this trial; another lot of the char, or another laboratory, may lie outside it.",
					]
				: []),
			...(files.length > 0
				? [
						`The rows from ${listed(files)} are a check with less iodine: compare them only with figures from the same volumes, strength and contact time.`,
					]
				: []),
			...(found.some(isByTheStandard) ? [placesNotInSheet] : []),
		],
	};
}
