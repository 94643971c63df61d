/** How many trials a simulation runs, and what its rates are held against: all that was asked for in `npm run simulate`, few in `npm test`. */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";
import { highestShare, lowestShare } from "./limits";

const all = process.env.TRIALS === "all";

/** `asked` with `npm run simulate`, `few` in the ordinary tests, the number in TRIALS for a look at something. */
export function trialsOf(asked: number, few: number): number {
	if (all) return asked;
	return process.env.TRIALS === undefined ? few : Number(process.env.TRIALS);
}

/** The first seed: 1 unless FROM names another, for trials that nobody has looked at. */
export const firstSeed = Number(process.env.FROM ?? 1);

/** Seeds of so many trials. */
export const seedsOf = (trials: number): number[] =>
	Array.from({ length: trials }, (_, i) => firstSeed + i);

/** One rate that was asked for, and what came out. */
export interface Finding {
	readonly simulation: string;
	readonly design: string;
	readonly what: string;
	readonly hits: number;
	readonly trials: number;
	/** Trials that the design asks for. */
	readonly asked: number;
	/** Smallest and largest true share; shares of 1. */
	readonly least?: number;
	readonly most?: number;
}

/**
 * Holds how often something happened against what was asked: over all trials the share itself, over fewer the share that chance still allows. With `npm run simulate` it is noted for the table.
 */
export function hold(finding: Finding): void {
	note("findings", finding);
	const { hits, trials, asked, least, most } = finding;
	const what = `${finding.simulation}, design ${finding.design}: ${finding.what} in ${hits} of ${trials}`;
	const short = trials < asked;
	expect(trials, what).toBeGreaterThan(0);
	if (most !== undefined)
		expect(hits / trials, what).toBeLessThanOrEqual(
			short ? highestShare(most, trials) : most,
		);
	if (least !== undefined)
		expect(hits / trials, what).toBeGreaterThanOrEqual(
			short ? lowestShare(least, trials) : least,
		);
}

/** What `npm run simulate` puts into its table and its pages when all files have run. */
export const notes = join(
	import.meta.dirname,
	"../../results/simulation/notes.jsonl",
);

export interface Note {
	/** "findings" for the printed table, else the page of data/simulation/ that the row belongs to. */
	readonly of: string;
	readonly row: Readonly<Record<string, string | number>>;
}

/** Notes a row for the printed table or for a page of data/simulation/. */
export function note(of: string, row: object): void {
	if (!all) return;
	mkdirSync(join(notes, ".."), { recursive: true });
	writeFileSync(notes, `${JSON.stringify({ of, row })}\n`, { flag: "a" });
}

export function notesTaken(): Note[] {
	if (!existsSync(notes)) return [];
	return readFileSync(notes, "utf8")
		.split("\n")
		.filter((line) => line !== "")
		.map((line) => JSON.parse(line) as Note);
}
