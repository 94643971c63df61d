/** The short working of each difference: which flasks were weighed, with which weights, and what was added at the ends of its interval. */
import { escapeHtml, fixed, type LedgerRow, quoted } from "../../quantity";
import { wholeRows } from "../large/limits";
import type {
	ReportedComparison,
	ReportedResult,
	ReportedVerdict,
	ReportedWeighed,
} from "../reported";
import { pairText, verdictText } from "../verdict-table";
import { differenceId } from "./anchors";
import { stepMarkup } from "./flasks";
import type { Lines } from "./lines";
import { roundedNumbers } from "./tables";

/** A difference with the place of its working. */
export interface PageDifference {
	readonly id: string;
	readonly verdict: ReportedVerdict;
}

/** The same verdict, wherever its comparison was read again. */
const keyOf = ({ treatment, control, reckoned }: ReportedVerdict): string =>
	JSON.stringify([treatment, control, ...reckoned.lines]);

export function comparisonsIn(
	results: readonly ReportedResult[],
): readonly ReportedComparison[] {
	return results.flatMap(({ content }) =>
		content.kind === "comparison" ? [content] : [],
	);
}

/**
 * The differences of a page that can be reckoned again from lines that it has, by their verdict.
 * @param lines as far as the page holds them
 */
export function differencesOf(
	results: readonly ReportedResult[],
	lines: Lines,
): ReadonlyMap<string, PageDifference> {
	return new Map(
		comparisonsIn(results).flatMap(({ verdicts }, c) =>
			verdicts.flatMap((verdict, v) =>
				verdict.reckoned.lines.some((id) => lines.get(id) !== undefined)
					? [
							[
								keyOf(verdict),
								{ id: differenceId(c + 1, v + 1), verdict },
							] as const,
						]
					: [],
			),
		),
	);
}

/** Address of the working of a difference; "" where the page has none. */
export function differenceAddress(
	differences: ReadonlyMap<string, PageDifference>,
	verdict: ReportedVerdict,
): string {
	const found = differences.get(keyOf(verdict));
	return found === undefined ? "" : `#${found.id}`;
}

export function weightText(weight: number): string {
	return fixed(weight, 4);
}

function weighedRow(
	{ flask, treatment, weight, uptake }: ReportedWeighed,
	address: string,
): string {
	const name =
		flask === ""
			? `isotherm of ${escapeHtml(quoted(treatment))}`
			: `flask ${escapeHtml(flask)}`;
	const link = address === "" ? name : `<a href="${address}">${name}</a>`;
	return `<tr><th scope="row">${link}</th><td>${escapeHtml(treatment)}</td><td class="number">${weightText(weight)}</td><td class="number">${fixed(uptake, 1)}</td></tr>`;
}

function lineMarkup(line: LedgerRow, lines: Lines): string {
	const source =
		line.source === ""
			? ""
			: `<span class="what">${escapeHtml(roundedNumbers(line.source))}</span>`;
	// The sum is the table below.
	const shown = line.symbol === "Δ" ? { ...line, numbers: "" } : line;
	return `<li><span class="what">${escapeHtml(line.meaning)}</span> ${stepMarkup(shown, lines.parts(line))}${source}</li>`;
}

/** @param addressOf a flask by its name and the id of a line that it stands behind */
function differenceMarkup(
	{ id, verdict }: PageDifference,
	lines: Lines,
	addressOf: (flask: string, lines: readonly string[]) => string,
): string {
	const steps = verdict.reckoned.lines
		.flatMap((line) => lines.get(line) ?? [])
		.map((line) => lineMarkup(line, lines));
	const { weighed } = verdict.reckoned;
	const more = weighed.length - wholeRows;
	const rows = weighed
		.slice(0, wholeRows)
		.map((w) =>
			weighedRow(w, w.flask === "" ? "#flasks" : addressOf(w.flask, [w.line])),
		);
	const title = `${pairText(verdict)}: ${verdictText(verdict)}`;
	return `<article class="traced" id="${id}" tabindex="-1" aria-labelledby="${id}-name"><h3 id="${id}-name">${escapeHtml(title)}</h3><ul class="working">${steps.join("")}</ul><div class="wide" role="group" tabindex="0" aria-label="${escapeHtml(`What was weighed for ${title}`)}"><table><caption>The difference is the sum of weight times uptake</caption><thead><tr><th scope="col">what was weighed</th><th scope="col">treatment</th><th scope="col">weight w</th><th scope="col">uptake q* at the residue of the comparison (mg/g)</th></tr></thead><tbody>${rows.join("")}</tbody></table></div>${more > 0 ? `<p class="note">${more} more are in results.json.</p>` : ""}<p><a href="#answer">Back to the answer</a></p></article>`;
}

/** The workings of all differences; each is seen where a link has led to it. */
export function differencesSection(
	differences: ReadonlyMap<string, PageDifference>,
	lines: Lines,
	addressOf: (flask: string, lines: readonly string[]) => string,
): string {
	if (differences.size === 0) return "";
	const all = [...differences.values()];
	const list = all.map(
		(d) => `<li><a href="#${d.id}">${escapeHtml(pairText(d.verdict))}</a></li>`,
	);
	return `<section class="screen-only" aria-labelledby="differences"><h2 id="differences">Differences</h2><p>How each was had: the flasks with their weights, and what its interval was made of. Press one and it shows here.</p><ul class="by-treatment">${list.join("")}</ul>${all.map((d) => differenceMarkup(d, lines, addressOf)).join("")}</section>`;
}
