/** The short working of each flask: what tables say of it, with its own numbers, and the cells that these were read from. */
import { escapeHtml, grouped, type LedgerRow, valueText } from "../../quantity";
import { lineId, rowId } from "./anchors";
import { isStep, type Lines } from "./lines";
import { cellAddress, type PageSheet, type SheetRow, standsIn } from "./sheets";
import { roundedNumbers } from "./tables";

/** A flask of a sheet, with the lines of the ledger that a table of the page shows of it. */
export interface PageFlask {
	/** Of its working; of its row in the sheet where no number of it is reported. */
	readonly id: string;
	readonly name: string;
	readonly treatment: string;
	readonly sheet: PageSheet;
	readonly row: SheetRow;
	/** Results before what they were made from. */
	readonly cited: readonly LedgerRow[];
}

/** So many steps make a short working; the others are folded. Our decision. */
const mostSteps = 7;

/** Of so many flasks each shows all its steps; of more the ledger does. Our decision. */
const mostWithAllSteps = 60;

/** "m_dry" with its index below; names of notebooks are text. */
function symbolsMarkup(
	formula: string,
	parts: readonly { readonly symbol: string }[],
): string {
	const symbols = [...new Set(parts.map((p) => p.symbol))]
		.filter((s) => s.includes("_"))
		.sort((a, b) => b.length - a.length);
	if (symbols.length === 0) return escapeHtml(formula);
	// As code points: whatever stands in a symbol, nothing of it acts as a pattern.
	const letters = symbols.map((s) =>
		s.replaceAll(
			/[^\p{L}\p{N} _]/gu,
			(c) => `\\u{${c.codePointAt(0)?.toString(16)}}`,
		),
	);
	return formula
		.split(new RegExp(`(${letters.join("|")})`, "u"))
		.map((text) => {
			if (!symbols.includes(text)) return escapeHtml(text);
			const [base, ...index] = text.split("_");
			return `<i>${escapeHtml(base)}</i><sub>${escapeHtml(index.join("_"))}</sub>`;
		})
		.join("");
}

export function lineResult(line: LedgerRow): string {
	return valueText(line.value, line.standardUncertainty, line.unit);
}

/** Formula, the same with numbers, and the result, on one line. */
export function stepMarkup(
	line: LedgerRow,
	parts: readonly LedgerRow[],
): string {
	const symbol = symbolsMarkup(line.symbol, [line]);
	const formula = symbolsMarkup(line.formula, parts);
	const numbers =
		line.numbers === "" ? "" : ` = ${escapeHtml(roundedNumbers(line.numbers))}`;
	return `${symbol} = ${formula}${numbers} = <strong>${escapeHtml(roundedNumbers(lineResult(line)))}</strong>`;
}

/** What tables show of a flask, then what stands in these formulas and has its own row behind it. */
function shortSteps(
	{ cited }: PageFlask,
	own: (line: LedgerRow) => boolean,
	lines: Lines,
): LedgerRow[] {
	const shown = new Set(cited.filter((line) => isStep(line)));
	for (const line of cited)
		for (const part of lines.parts(line))
			if (shown.size < mostSteps && isStep(part) && own(part)) shown.add(part);
	return [...shown];
}

function listOf(look: string, items: readonly string[]): string {
	return `<ul class="${look}">${items.map((i) => `<li>${i}</li>`).join("")}</ul>`;
}

function readMarkup(
	{ sheet, row, name }: PageFlask,
	cells: readonly LedgerRow[],
): string {
	const links = cells.map((cell) => {
		const address = cellAddress([sheet], cell);
		const at = sheet.headers.indexOf(cell.column);
		const text = escapeHtml(`${cell.column}: ${row.cells[at] ?? ""}`);
		return address === "" ? text : `<a href="${address}">${text}</a>`;
	});
	const place = `<a href="#${rowId(sheet.number, row.row)}">row ${row.row} of ${escapeHtml(sheet.file)}</a>`;
	return links.length === 0
		? `<p>Flask ${escapeHtml(name)} stands in ${place}.</p>`
		: `<p>Read in ${place}:</p>${listOf("cells", links)}`;
}

function sharedMarkup(
	shared: readonly LedgerRow[],
	withLedger: boolean,
): string {
	if (shared.length === 0) return "";
	const items = shared.map((line) => {
		const text = escapeHtml(
			`${line.meaning || line.symbol}: ${lineResult(line)}`,
		);
		return withLedger ? `<a href="#${lineId(line.id)}">${text}</a>` : text;
	});
	return `<p>What other flasks lean on too:</p>${listOf("cells", items)}`;
}

/** The long working in plain letters: many flasks have many steps. */
function allSteps(steps: readonly LedgerRow[]): string {
	const items = steps.map((line) => {
		const { symbol, formula, numbers, meaning } = line;
		const parts = [symbol, formula, roundedNumbers(numbers), lineResult(line)];
		return `<li><a href="#${lineId(line.id)}">${escapeHtml(meaning || symbol)}</a>: ${escapeHtml(parts.filter((p) => p !== "").join(" = "))}</li>`;
	});
	return `<details class="steps"><summary>All ${steps.length} steps</summary><ol>${items.join("")}</ol></details>`;
}

/** What a working of a flask is made from beside the flask. */
export interface WorkingGround {
	readonly lines: Lines;
	/** Whether the page holds the whole ledger, to which steps lead. */
	readonly withLedger: boolean;
	/** How many flasks have a working. */
	readonly flasks: number;
	/** Where the flask counts: links back to what it was weighed in. */
	counted(
		flask: PageFlask,
	): readonly { readonly address: string; readonly text: string }[];
}

function flaskMarkup(flask: PageFlask, ground: WorkingGround): string {
	const { lines, withLedger } = ground;
	const { sheet, row, cited } = flask;
	const isOwn = (cell: LedgerRow): boolean => standsIn(sheet, row, cell);
	const own = (line: LedgerRow): boolean => lines.cells(line).some(isOwn);
	const below = [...new Set(cited.flatMap((line) => lines.below(line)))];
	const steps = below.filter(isStep);
	const shared = new Set(
		steps
			.filter(own)
			.flatMap((line) => lines.parts(line))
			.filter((p) => isStep(p) && !own(p) && lines.cells(p).length > 0),
	);
	const shown = shortSteps(flask, own, lines).map(
		(line) =>
			`<span class="what">${escapeHtml(line.meaning)}</span> ${stepMarkup(line, lines.parts(line))}`,
	);
	const of = flask.treatment === "" ? "" : `: ${escapeHtml(flask.treatment)}`;
	const counts = ground
		.counted(flask)
		.map(({ address, text }) => `<a href="${address}">${escapeHtml(text)}</a>`);
	return `<article class="traced" id="${flask.id}" tabindex="-1" aria-labelledby="${flask.id}-name"><h3 id="${flask.id}-name">Flask ${escapeHtml(flask.name)}${of}</h3>${listOf("working", shown)}${readMarkup(flask, below.filter(isOwn))}${sharedMarkup([...shared], withLedger)}${withLedger && ground.flasks <= mostWithAllSteps ? allSteps(steps) : ""}${counts.length === 0 ? "" : `<p>Back to what it counts in:</p>${listOf("cells", counts)}`}</article>`;
}

/** The treatments of a page, each with its flasks. */
function byTreatment(
	flasks: readonly PageFlask[],
	treatments: ReadonlyMap<string, string>,
): string {
	const items = [...grouped(flasks, ({ treatment }) => treatment)].map(
		([treatment, own]) => {
			const links = own
				.map(({ id, name }) => `<a href="#${id}">${escapeHtml(name)}</a>`)
				.join(", ");
			const id = treatments.get(treatment);
			return id === undefined
				? `<li>${links}</li>`
				: `<li id="${id}" tabindex="-1">${escapeHtml(treatment)}: ${links}</li>`;
		},
	);
	return `<ul class="by-treatment">${items.join("")}</ul>`;
}

/** All workings; each is seen where a link has led to it, so that they do not bury what stands below. */
export function flasksSection(
	flasks: readonly PageFlask[],
	treatments: ReadonlyMap<string, string>,
	ground: Omit<WorkingGround, "flasks">,
): string {
	const worked = flasks.filter(({ cited }) => cited.length > 0);
	return worked.length === 0
		? ""
		: `<section class="screen-only" aria-labelledby="flasks"><h2 id="flasks">Flasks</h2><p>A flask's name shows its working here: its numbers in the formulas, and the cells that they were read from.</p>${byTreatment(worked, treatments)}${worked.map((f) => flaskMarkup(f, { ...ground, flasks: worked.length })).join("")}</section>`;
}
