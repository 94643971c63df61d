import { quoted } from "../quantity";
import {
	chemicalIn,
	type DangerKind,
	dangerKinds,
	dangers,
	dangersNamedIn,
	labelled,
	meetings,
	meetingsAmong,
	type NamedDanger,
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
	readonly kills: boolean;
	readonly text: string;
}

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

/** A row with what it names. */
interface Read extends RowWords {
	readonly substances: readonly Substance[];
	readonly named: readonly NamedDanger[];
	/** By its fields alone: what was done, not what a note tells of. */
	readonly done: readonly NamedDanger[];
	readonly hot: boolean;
}

const kilnGas: NamedDanger = { name: "kiln gas", dangers: ["gas of a kiln"] };

/** Said of heat, and not that there was none. */
const saysHeat = new RegExp(
	`(?<!(?:not|never|no|without|before)[\\s-]{1,3})(?<![a-z0-9])(?:${heated.join("|")})(?![a-z0-9])`,
	"i",
);

function read({ words, texts }: RowWords): Read {
	const all = [...words, ...texts];
	const done = words.flatMap((text) => dangersNamedIn(text));
	return {
		words,
		texts,
		substances: [
			...new Set(
				all
					.flatMap((text) => substancesIn(text))
					.flatMap((s) => (s.is === "known" ? [s.substance] : [])),
			),
		],
		named: [
			...done,
			...texts.flatMap((text) => dangersNamedIn(text)),
			...(anyOf(words, saysHeat) ? [kilnGas] : []),
		],
		done,
		hot: anyOf(all, saysHeat),
	};
}

/** What a caution is about, before its colon, under the word that says how grave it is: the head of a page lists these. */
function headOf(
	{ signal, kills }: Pick<Caution, "signal" | "kills">,
	about: string,
): string {
	const how = signal === "danger" ? "Danger" : "Warning";
	return `${kills ? "Danger to life" : how}, ${about}: `;
}

/** What calls for the caution on a kind. */
const calledBy = (kind: DangerKind, rows: readonly Read[]): string[] => [
	...new Set(
		rows
			.flatMap((r) => r.named)
			.filter((n) => n.dangers.includes(kind))
			.map((n) => n.name),
	),
];

function ofKind(kind: DangerKind, rows: readonly Read[]): Caution[] {
	// In the kiln alone, where it stands among what must not be done.
	if (kind === "alkali metal") return [];
	const names = calledBy(kind, rows);
	if (names.length === 0) return [];
	const { signal, kills, says, inKiln, spilt, waste } = dangers[kind];
	const hot = rows.some(
		(r) => r.hot && r.named.some((n) => n.dangers.includes(kind)),
	);
	return [
		{
			what: kind,
			signal,
			kills,
			text: `${headOf({ signal, kills }, names.join(", "))}${says}${hot ? labelled("In the kiln", inKiln) : ""}${labelled("Spilt", spilt)}${labelled("Waste", waste)}`,
		},
	];
}

function ofSteps(rows: readonly Read[]): Caution[] {
	return steps
		.filter(({ words, inNotes }) => {
			const named = words === heated ? saysHeat : pattern(words);
			return rows.some((r) =>
				anyOf(inNotes ? [...r.words, ...r.texts] : r.words, named),
			);
		})
		.map(({ what, signal, caution }) => ({
			what,
			signal,
			kills: false,
			text: `${headOf({ signal, kills: false }, what)}${caution}`,
		}));
}

function cautionsOf(rows: readonly Read[]): readonly Caution[] {
	const found = [
		...dangerKinds.flatMap((kind) => ofKind(kind, rows)),
		...ofSteps(rows),
	];
	return [
		...found.filter((c) => c.kills),
		...found.filter((c) => !c.kills && c.signal === "danger"),
		...found.filter((c) => !c.kills && c.signal === "warning"),
	];
}

/** Flasks of a treatment say the same again and again. */
const readAll = (rows: readonly RowWords[]): readonly Read[] =>
	[...new Map(rows.map((row) => [JSON.stringify(row), row])).values()].map(
		read,
	);

/** The cautions that rows of a sheet call for: what kills, then danger, then warning. */
export function cautionsIn(rows: readonly RowWords[]): readonly Caution[] {
	return cautionsOf(readAll(rows));
}

const partsOf = ({ named }: Read): Part[] => named.map((n) => n.dangers);

/** What is done in a row. */
function doneIn({ words, hot }: Read): Part[] {
	return [
		...(anyOf(words, char) ? [["char"] as const] : []),
		...(hot ? [["heat with char"] as const] : []),
		...(words.includes("drying oven") ? [["drying oven"] as const] : []),
	];
}

/** What a sheet brings together that must not be done. Substances of one sheet may meet on its bench; what happens in the kiln, or to char, happens to one row. */
function forbiddenIn(rows: readonly Read[]): string[] {
	const onBench = meetingsAmong([...new Set(rows.flatMap(partsOf))]).filter(
		(m) => m.where === "one bench",
	);
	// Two substances of a row meet, also in a note; what a note tells of ("silver nitrate test of the rinse") is not therefore in the char.
	const inRows = rows.flatMap((row) => [
		...meetingsAmong(partsOf(row)),
		...meetingsAmong([...row.done.map((n) => n.dangers), ...doneIn(row)]),
	]);
	const found = new Set([...onBench, ...inRows]);
	return meetings
		.filter((m) => found.has(m))
		.map(({ says }) => `${mustNot}${says}`);
}

const lookUp = (name: string): string =>
	`${quoted(name)} is not on this program's list of substances: look it up in its safety data sheet before you handle it, and ask what it does with iodine, acid, alkali and heat.`;

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

/** Words of any field or note that look like chemicals and are on no list. */
function chemicalsOnNoList(rows: readonly Read[]): string[] {
	return rows
		.flatMap((r) => [...r.words, ...r.texts])
		.flatMap((text) => substancesIn(text))
		.flatMap((s) => (s.is === "known" ? [] : [chemicalIn(s.written)]))
		.filter((name) => name !== "");
}

/** As sentences for a page: first what must not be done, then what kills, danger, what is not known, warnings; the last line defers to local codes and licensed practice. */
export function cautionTexts({ rows, unknown }: SheetWords): string[] {
	const all = readAll(rows);
	const cautions = cautionsOf(all);
	const grave = cautions.filter((c) => c.kills || c.signal === "danger");
	const slight = cautions.filter((c) => !grave.includes(c));
	const toLookUp = new Set([...unknown, ...chemicalsOnNoList(all)]);
	return [
		...forbiddenIn(all),
		...grave.map((c) => c.text),
		...[...toLookUp].map(lookUp),
		...withoutHazards(all).map(seeDataSheet),
		...slight.map((c) => c.text),
		local,
	];
}
