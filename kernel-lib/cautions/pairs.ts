/** Combinations that must not be done, one row each: what meets what, and why not. From memory of general chemistry; safety data sheets come first. */
import {
	acids,
	alkaliMetals,
	ammonias,
	bleaches,
	cyanides,
	oxidisers,
	sulfides,
	sulfites,
} from "./groups";

/** Words of a sheet that say that something was heated. */
const heated = [
	"kiln",
	"firing",
	"fired",
	"retort",
	"furnace",
	"charring",
	"calcined",
] as const;

/** Substances by their usual names; one of each side makes the combination. */
interface Pair {
	readonly one: readonly string[];
	readonly other: readonly string[];
	/** Whether `other` are words of the same row, and no substances. */
	readonly byWords: boolean;
	readonly says: string;
}

/** Begins every sentence of a combination that must not be done; pages show these above everything. */
export const mustNot = "Must not be done: ";

const pairs: readonly Pair[] = [
	{
		one: ["iodine", "iodine preparation"],
		other: ammonias,
		byWords: false,
		says: "iodine and ammonia. They form a solid that explodes when it is dry and touched. Do not dose a char that may hold ammonia or an ammonium salt: rinse it out and drive off the ammonia first.",
	},
	{
		one: bleaches,
		other: acids,
		byWords: false,
		says: "bleach and acid. They give off chlorine, which kills. Keep them in different rooms; rinse the one out before the other comes.",
	},
	{
		one: bleaches,
		other: ammonias,
		byWords: false,
		says: "bleach and ammonia. They give off chloramines, which burn the lungs.",
	},
	{
		one: cyanides,
		other: acids,
		byWords: false,
		says: "cyanide and acid. They give off hydrogen cyanide, which kills within minutes.",
	},
	{
		one: sulfides,
		other: acids,
		byWords: false,
		says: "sulfide and acid. They give off hydrogen sulfide, which kills, and dulls the nose first.",
	},
	{
		one: sulfites,
		other: acids,
		byWords: false,
		says: "sulfite and acid. They give off sulfur dioxide, which chokes; only in a fume hood.",
	},
	{
		one: oxidisers,
		other: heated,
		byWords: true,
		says: "an oxidiser (nitrate, chlorate, perchlorate, permanganate, peroxide) and char in the heat. Together they are a gunpowder: they burn at once or explode, also when they are only dried or ground.",
	},
	{
		one: ["perchloric acid", "potassium perchlorate", "sodium perchlorate"],
		other: ["char", "charcoal", "biochar"],
		byWords: true,
		says: "perchloric acid or a perchlorate and char. They may explode, wet or dry.",
	},
	{
		one: alkaliMetals,
		other: heated,
		byWords: true,
		says: "water on alkali and char while they are hot. At red heat potassium, sodium and carbon monoxide are given off, which catch fire in air and in water: cool it closed, under nitrogen or its own gas, and wet it only when it is cold. Hydroxides eat steel and glass there.",
	},
	{
		one: ["zinc chloride"],
		other: heated,
		byWords: true,
		says: "zinc chloride heated outside a working fume hood. Its fume destroys the lungs, hours later.",
	},
];

const mentioned = (texts: readonly string[], word: string): boolean =>
	texts.some((text) =>
		new RegExp(`(^|[^a-z0-9])${word}($|[^a-z0-9])`).test(text.toLowerCase()),
	);

/** What a row of a sheet names: usual names of substances, and its words. */
export interface NamedInRow {
	readonly named: ReadonlySet<string>;
	readonly texts: readonly string[];
}

/** Substances of one sheet may meet on its bench; what happens in the kiln, or to char, happens to one row. */
function isThere(
	{ one, other, byWords }: Pair,
	rows: readonly NamedInRow[],
): boolean {
	if (byWords)
		return rows.some(
			({ named, texts }) =>
				one.some((name) => named.has(name)) &&
				other.some((word) => mentioned(texts, word)),
		);
	const all = new Set(rows.flatMap(({ named }) => [...named]));
	return (
		one.some((name) => all.has(name)) &&
		other.some((name) => all.has(name) && !one.includes(name))
	);
}

/** What a sheet brings together that must not be done, as sentences. */
export function forbiddenIn(rows: readonly NamedInRow[]): string[] {
	return pairs
		.filter((pair) => isThere(pair, rows))
		.map(({ says }) => `${mustNot}${says}`);
}
