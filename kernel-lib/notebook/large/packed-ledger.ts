/** The ledger of a result: its lines as they are, or of a long one compressed. */
import { type LedgerRow, problem, throwProblems } from "../../quantity";
import { wholeLedger } from "./limits";
import {
	type PackedFile,
	packed,
	piecesFromTheEnd,
	piecesOf,
} from "./packed-file";

export interface PackedLedger {
	/** How many there are. */
	readonly lines: number;
	/** The files that they lead back to. */
	readonly inputs: readonly { readonly file: string; readonly hash: string }[];
	/** A line of JSON for each line of the ledger; or the name of the ledger beside the page. */
	readonly rows: PackedFile;
}

export type LedgerPart = readonly LedgerRow[] | PackedLedger;

export function isPacked(ledger: LedgerPart): ledger is PackedLedger {
	return !Array.isArray(ledger);
}

function packedLedger(rows: Iterable<LedgerRow>): PackedLedger {
	let lines = 0;
	const inputs = new Map<string, { file: string; hash: string }>();
	function* texts(): Generator<string> {
		for (const row of rows) {
			lines += 1;
			if (row.file !== "" && row.hash !== "")
				inputs.set(`${row.file} ${row.hash}`, {
					file: row.file,
					hash: row.hash,
				});
			yield `${JSON.stringify(row)}\n`;
		}
	}
	const file = packed(
		(sha256) => `ledger-${sha256.slice(0, 8)}.jsonl.gz`,
		texts(),
	);
	return { lines, inputs: [...inputs.values()], rows: file };
}

/** Takes the lines one by one, so that a long ledger is never in memory as a whole. */
export function ledgerPart(rows: Iterable<LedgerRow>): LedgerPart {
	const first: LedgerRow[] = [];
	const all = rows[Symbol.iterator]();
	for (let next = all.next(); !next.done; next = all.next()) {
		first.push(next.value);
		if (first.length > wholeLedger) return packedLedger(following(first, all));
	}
	return first;
}

function* following(
	first: readonly LedgerRow[],
	rest: Iterator<LedgerRow>,
): Generator<LedgerRow> {
	yield* first;
	for (let next = rest.next(); !next.done; next = rest.next()) yield next.value;
}

/**
 * The lines of a ledger, one by one.
 * @throws ProblemError for one that lies beside the page
 */
export function* linesOf(ledger: LedgerPart): Generator<LedgerRow> {
	if (!isPacked(ledger)) {
		yield* ledger;
		return;
	}
	if (ledger.rows.inside.length === 0)
		throwProblems([
			problem(
				"ledger-beside",
				{ file: ledger.rows.name },
				"a notebook whose ledger lies in a file beside it",
				"a notebook that holds its ledger",
				"Read the ledger from that file, or run the notebook again.",
			),
		]);
	for (const piece of piecesOf(ledger.rows))
		for (const line of piece.split("\n"))
			if (line !== "") yield JSON.parse(line) as LedgerRow;
}

/**
 * Some lines with those that they were made from, operands before results. A long ledger is gone through once, from its end, and never held as a whole; of one that lies beside there are none.
 * @param alone lines that are wanted without what they were made from
 */
export function linesBehind(
	ledger: LedgerPart,
	ids: readonly string[],
	alone: readonly string[] = [],
): readonly LedgerRow[] {
	const wanted = new Set([...ids, ...alone]);
	const withoutParts = new Set(alone);
	const found: LedgerRow[] = [];
	const take = (row: LedgerRow): void => {
		if (!wanted.has(row.id)) return;
		found.push(row);
		if (!withoutParts.has(row.id)) for (const id of row.inputs) wanted.add(id);
	};
	if (!isPacked(ledger)) [...ledger].reverse().forEach(take);
	else if (wanted.size > 0)
		for (const piece of piecesFromTheEnd(ledger.rows))
			for (const line of piece.split("\n").reverse())
				if (line !== "") take(JSON.parse(line) as LedgerRow);
	return found.reverse();
}

/** The files that a ledger leads back to, one or several times. */
export function inputsOfLedger(
	ledger: LedgerPart,
): readonly { readonly file: string; readonly hash: string }[] {
	return isPacked(ledger) ? ledger.inputs : ledger;
}
