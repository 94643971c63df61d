/** The answer as a picture with its words: a row a verdict, the clearest first, a bar for the difference on one axis. */
import { scaleLinear } from "d3-scale";
import type { VerdictWord } from "../../compare";
import { differenceEnds, differenceStretch } from "../../figures";
import { confidenceText } from "../../isotherms";
import { escapeHtml } from "../../quantity";
import type {
	ReportedComparison,
	ReportedDifference,
	ReportedVerdict,
} from "../reported";
import { differenceText, sortedVerdicts, verdictText } from "../verdict-table";

const glyphs: Readonly<Record<VerdictWord, string>> = {
	higher: "▲",
	lower: "▼",
	"no difference that matters": "●",
	"cannot tell": "?",
};

const width = 320;
const height = 36;
const middle = height / 2;
/** Room at either end, for arrows and the numbers of the axis. */
const room = 24;

type Scale = ReturnType<typeof scaleLinear<number>>;

/** One axis for all rows, with zero and the margins on it; what would make dots of all else is cut off at its ends. */
interface Axis {
	readonly scale: Scale;
	readonly isCut: boolean;
}

function axisOf({ verdicts }: ReportedComparison): Axis {
	const margins = verdicts.flatMap((v) =>
		v.margin.is === "value" ? [v.margin.value] : [],
	);
	const ends = verdicts.flatMap((v) => differenceEnds(v.difference));
	const stretch = differenceStretch(margins, ends);
	const values =
		stretch === null
			? [0, ...ends, ...margins, ...margins.map((m) => -m)]
			: [stretch.low, stretch.high];
	const [low, high] = [Math.min(...values), Math.max(...values)];
	const domain = low < high ? [low, high] : [-1, 1];
	return {
		scale: scaleLinear(domain, [room, width - room]).clamp(true),
		isCut: stretch !== null,
	};
}

const at = ({ scale }: Axis, value: number): string => scale(value).toFixed(1);

/** -1 or 1 for a value beyond that end of the axis, else 0. */
function beyond({ scale }: Axis, value: number): -1 | 0 | 1 {
	const [low, high] = scale.domain();
	return value < low ? -1 : value > high ? 1 : 0;
}

/** The end of a bar: a cap, or a head that points to what lies beyond. */
function endPath(axis: Axis, value: number): string {
	const side = beyond(axis, value);
	const end = axis.scale(value);
	const [top, foot] = [middle - 6, middle + 6];
	return side === 0
		? `M${at(axis, value)} ${top}V${foot}`
		: `M${end.toFixed(1)} ${top}L${(end + 8 * side).toFixed(1)} ${middle}L${end.toFixed(1)} ${foot}`;
}

function bandMarkup(axis: Axis, { margin }: ReportedVerdict): string {
	if (margin.is !== "value") return "";
	const [low, high] = [axis.scale(-margin.value), axis.scale(margin.value)];
	return `<rect class="band" x="${low.toFixed(1)}" y="2" width="${(high - low).toFixed(1)}" height="${height - 4}"/>`;
}

function barMarkup(axis: Axis, difference: ReportedDifference): string {
	if (difference.is === "not available") return "";
	if (difference.is === "estimate") {
		const { low, estimate, high } = difference;
		const dot =
			beyond(axis, estimate) === 0
				? `<circle class="dot" cx="${at(axis, estimate)}" cy="${middle}" r="5"/>`
				: "";
		return `<path class="bar" d="M${at(axis, low)} ${middle}H${at(axis, high)}${endPath(axis, low)}${endPath(axis, high)}"/>${dot}`;
	}
	// A bound: an arrow from its limit to where the difference may lie.
	const from = axis.scale(difference.limit);
	const to = difference.is === "at least" ? from + room - 6 : from - room + 6;
	const back = difference.is === "at least" ? to - 6 : to + 6;
	return `<path class="bar" d="${endPath(axis, difference.limit)}M${from.toFixed(1)} ${middle}H${to.toFixed(1)}M${back.toFixed(1)} ${middle - 5}L${to.toFixed(1)} ${middle}L${back.toFixed(1)} ${middle + 5}"/>`;
}

/** Thick: all of what "no difference that matters" was judged on, which is narrower than the interval of the difference. */
function judgedMarkup(
	axis: Axis,
	{ word, wordGround }: ReportedVerdict,
): string {
	const within = wordGround.judged.map((j) => j.within);
	if (word !== "no difference that matters" || within.length === 0) return "";
	const low = Math.min(...within.map((w) => w.low));
	const high = Math.max(...within.map((w) => w.high));
	return `<path class="judged" d="M${at(axis, low)} ${middle}H${at(axis, high)}"/>`;
}

/** Said in words beside it. */
function pictureMarkup(axis: Axis, verdict: ReportedVerdict): string {
	const zero = at(axis, 0);
	return `<svg viewBox="0 0 ${width} ${height}" aria-hidden="true">${bandMarkup(axis, verdict)}<path class="zero" d="M${zero} 0V${height}"/>${barMarkup(axis, verdict.difference)}${judgedMarkup(axis, verdict)}</svg>`;
}

function scaleMarkup(axis: Axis): string {
	const number = axis.scale.tickFormat(5);
	const ticks = axis.scale
		.ticks(5)
		.map(
			(t) =>
				`<text x="${at(axis, t)}" y="12" text-anchor="middle">${t > 0 ? "+" : ""}${number(t)}</text>`,
		);
	return `<svg viewBox="0 0 ${width} 18" aria-hidden="true">${ticks.join("")}</svg>`;
}

/** Where the words of a verdict lead to; "" for nowhere. */
export interface VerdictLinks {
	difference(verdict: ReportedVerdict): string;
}

/** Words and numbers of a verdict lead to how its difference was had. */
function saidMarkup(verdict: ReportedVerdict, links?: VerdictLinks): string {
	const { word, difference } = verdict;
	const numbers =
		difference.is === "not available"
			? ""
			: ` <span class="numbers">${escapeHtml(differenceText(verdict))}</span>`;
	const said = `<strong class="word"><span aria-hidden="true">${glyphs[word]}</span> ${escapeHtml(verdictText(verdict))}</strong>${numbers}`;
	const address = links?.difference(verdict) ?? "";
	return address === ""
		? said
		: `<a class="to-working" href="${address}">${said}</a>`;
}

function rowMarkup(
	axis: Axis,
	verdict: ReportedVerdict,
	links?: VerdictLinks,
): string {
	const { treatment, control, inShort, sentence } = verdict;
	return `<tr class="row"><th scope="row">${escapeHtml(treatment)}<span class="control">control: ${escapeHtml(control)}</span></th><td class="picture">${pictureMarkup(axis, verdict)}</td><td class="said">${saidMarkup(verdict, links)}</td></tr><tr class="sentence"><td colspan="3"><details class="why"><summary>${escapeHtml(inShort)}</summary><p>${escapeHtml(sentence)}</p></details></td></tr>`;
}

/** What the bars and the band mean. */
function captionText(comparison: ReportedComparison, { isCut }: Axis): string {
	const percent = confidenceText(comparison.confidence);
	const interval = comparison.verdicts.every((v) => v.measuringErrorOnly)
		? "interval of the measuring error alone"
		: "interval";
	const together =
		comparison.verdicts.length > 1
			? `, all ${comparison.verdicts.length} together`
			: "";
	const band = comparison.verdicts.some((v) => v.margin.is === "value")
		? " Grey: differences that would not matter."
		: "";
	const thick = comparison.verdicts.some(
		(v) => v.word === "no difference that matters",
	)
		? ' Thick: what "no difference that matters" was judged on.'
		: "";
	const cut = isCut ? " A head at the edge: the bar goes on." : "";
	return `Difference from its control, mg of ${comparison.probe} per g of char; bars: ${percent} ${interval}${together}.${band}${thick}${cut}`;
}

/** So many verdicts stand open, more are folded. Our decision. */
export const mostOpen = 40;

/** The verdicts of a comparison as rows of name, picture and word, each with its sentence. */
export function answerRows(
	comparison: ReportedComparison,
	links?: VerdictLinks,
): string {
	const axis = axisOf(comparison);
	const rows = sortedVerdicts(comparison).map((v) => rowMarkup(axis, v, links));
	const tableOf = (caption: string, some: readonly string[]): string =>
		`<table class="verdicts"><caption>${escapeHtml(caption)}</caption><thead><tr><td></td><td class="picture">${scaleMarkup(axis)}</td><td></td></tr></thead><tbody>${some.join("")}</tbody></table>`;
	const caption = captionText(comparison, axis);
	const folded = rows.slice(mostOpen);
	return `${tableOf(caption, rows.slice(0, mostOpen))}${folded.length === 0 ? "" : `<details class="why"><summary>${folded.length} more treatments</summary>${tableOf(caption, folded)}</details>`}`;
}
