import {
	type DangerKind,
	dangerKinds,
	dangers,
	meetings,
	meetingsAmong,
	type Part,
	type Substance,
	substancesIn,
} from "../substances";
import { heated, steps } from "./steps";

/** One row of a sheet, or what goes together. */
export interface RowWords {
	/** Of its fields: what was done, dosed, soaked and fired. */
	readonly words: readonly string[];
	/** Free texts (notes, samples, what happened), which are searched for substances and feedstock only. */
	readonly texts: readonly string[];
}

/** What a sheet says that a caution may hang on. */
export interface SheetWords {
	readonly rows: readonly RowWords[];
	/** Names of what it works with that are on no list. */
	readonly unknown: readonly string[];
}

/** A caution: for a kind of substance or for a step, with what called for it. */
export interface Caution {
	readonly what: string;
	readonly signal: "danger" | "warning";
	readonly text: string;
}

/** Words that name no entry of the list and yet a kind: metals and ions without their salt. */
const wordsOfKinds: Partial<Record<DangerKind, readonly string[]>> = {
	ammonia: ["ammonium"],
	poison: [
		"mercury",
		"quecksilber",
		"mercure",
		"mercurio",
		"arsenic",
		"arsen",
		"thallium",
		"cadmium",
	],
	brine: ["float liquid", "brine"],
	"gas of a kiln": ["wood gas", "syngas"],
};

/** Begins every sentence of a combination that must not be done; pages show these above everything. */
export const mustNot = "Must not be done: ";

const local =
	"These are the usual cautions only (signal words from memory). Labels, safety data sheets, local codes and the person responsible for the laboratory come first.";

/** Whole words, in any case. */
const pattern = (words: readonly string[]): RegExp =>
	new RegExp(`(?:^|[^a-z0-9])(?:${words.join("|")})(?:$|[^a-z0-9])`, "i");

const anyOf = (texts: readonly string[], words: RegExp): boolean =>
	texts.some((text) => words.test(text));

const char = pattern(["char", "charcoal", "biochar"]);
const heat = pattern(heated);
const ammonium = pattern(["ammonium"]);

/** A row with the listed substances that it names. */
interface Read extends RowWords {
	readonly substances: readonly Substance[];
	readonly hot: boolean;
}

function read({ words, texts }: RowWords): Read {
	const substances = [...words, ...texts]
		.flatMap((text) => substancesIn(text))
		.flatMap((s) => (s.is === "known" ? [s.substance] : []));
	return {
		words,
		texts,
		substances: [...new Set(substances)],
		hot: anyOf([...words, ...texts], heat),
	};
}

const sentence = (label: string, text: string): string =>
	text === "" ? "" : ` ${label}: ${text}.`;

/** What calls for the caution on a kind: listed substances, and words. */
function calledBy(kind: DangerKind, rows: readonly Read[]): string[] {
	const texts = rows.flatMap((r) => [...r.words, ...r.texts]);
	return [
		...new Set([
			...rows
				.flatMap((r) => r.substances)
				.filter((s) => s.dangers.includes(kind))
				.map((s) => s.name),
			...(wordsOfKinds[kind] ?? []).filter((word) =>
				anyOf(texts, pattern([word])),
			),
		]),
	];
}

function ofKind(kind: DangerKind, rows: readonly Read[]): Caution[] {
	// In the kiln alone, where it stands among what must not be done.
	if (kind === "alkali metal") return [];
	const names = calledBy(kind, rows);
	if (names.length === 0) return [];
	const { signal, says, inKiln, spilt, waste } = dangers[kind];
	const hot = rows.some(
		(r) => r.hot && r.substances.some((s) => s.dangers.includes(kind)),
	);
	const label = signal === "danger" ? "Danger" : "Warning";
	return [
		{
			what: kind,
			signal,
			text: `${says}${sentence(label, names.join(", "))}${hot ? sentence("In the kiln", inKiln) : ""}${sentence("Spilt", spilt)}${sentence("Waste", waste)}`,
		},
	];
}

function ofSteps(rows: readonly Read[]): Caution[] {
	return steps
		.filter(({ words, inNotes }) => {
			const named = pattern(words);
			return rows.some((r) =>
				anyOf(inNotes ? [...r.words, ...r.texts] : r.words, named),
			);
		})
		.map(({ what, signal, caution }) => ({ what, signal, text: caution }));
}

function cautionsOf(rows: readonly Read[]): readonly Caution[] {
	const found = [
		...dangerKinds.flatMap((kind) => ofKind(kind, rows)),
		...ofSteps(rows),
	];
	return [
		...found.filter((c) => c.signal === "danger"),
		...found.filter((c) => c.signal === "warning"),
	];
}

/** Flasks of a treatment say the same again and again. */
const readAll = (rows: readonly RowWords[]): readonly Read[] =>
	[...new Map(rows.map((row) => [JSON.stringify(row), row])).values()].map(
		read,
	);

/** The cautions that rows of a sheet call for, danger before warning. */
export function cautionsIn(rows: readonly RowWords[]): readonly Caution[] {
	return cautionsOf(readAll(rows));
}

/** What a row brings along: its substances, and ammonia in a word that the list does not have. */
function broughtBy({ substances, words, texts }: Read): Part[] {
	return [
		...substances.map((s) => s.dangers),
		...(anyOf([...words, ...texts], ammonium) ? [["ammonia"] as const] : []),
	];
}

/** What is done in a row. */
function doneIn({ words, hot }: Read): Part[] {
	return [
		...(anyOf(words, char) ? [["char"] as const] : []),
		...(hot ? [["heat with char"] as const] : []),
	];
}

/** What a sheet brings together that must not be done. Substances of one sheet may meet on its bench; what happens in the kiln, or to char, happens to one row. */
function forbiddenIn(rows: readonly Read[]): string[] {
	const onBench = meetingsAmong([...new Set(rows.flatMap(broughtBy))]).filter(
		(m) => m.where === "one bench",
	);
	const inRows = rows.flatMap((row) =>
		meetingsAmong([...broughtBy(row), ...doneIn(row)]),
	);
	const found = new Set([...onBench, ...inRows]);
	return meetings
		.filter((m) => found.has(m))
		.map(({ says }) => `${mustNot}${says}`);
}

const lookUp = (name: string): string =>
	`"${name}" is not on this program's list of substances: look it up in its safety data sheet before you handle it, and ask what it does with iodine, acid, alkali and heat.`;

const seeDataSheet = (name: string): string =>
	`Of the hazards of ${name} this program knows nothing: see its safety data sheet, or find out what is in it.`;

/** Listed substances whose hazards the list does not know. */
function withoutHazards(rows: readonly Read[]): string[] {
	return [
		...new Set(
			rows
				.flatMap((row) => row.substances)
				.filter((s) => s.dangers.length === 0 && s.harmless === "")
				.map((s) => s.name),
		),
	];
}

/** As sentences for a page: first what must not be done, then danger, what is not known, warnings; the last line defers to local codes and licensed practice. */
export function cautionTexts({ rows, unknown }: SheetWords): string[] {
	const all = readAll(rows);
	const cautions = cautionsOf(all);
	const of = (signal: Caution["signal"]): string[] =>
		cautions.filter((c) => c.signal === signal).map((c) => c.text);
	return [
		...forbiddenIn(all),
		...of("danger"),
		...unknown.map(lookUp),
		...withoutHazards(all).map(seeDataSheet),
		...of("warning"),
		local,
	];
}
