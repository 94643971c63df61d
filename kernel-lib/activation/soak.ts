/** What is known of the liquids that char is soaked in, as far as it touches an iodine titration. */
export interface SoakAgent {
	/** Words by which people name it, lower case, matched as whole words. */
	readonly words: readonly string[];
	readonly name: string;
	readonly alkaline: boolean;
	/** Why what is left of it in the char may consume iodine; "" where it is not known to. */
	readonly consumesIodine: string;
}

const alkali = (name: string, words: readonly string[]): SoakAgent => ({
	words,
	name,
	alkaline: true,
	consumesIodine: `${name} left in the char makes the liquid alkaline, and iodine disproportionates in alkali`,
});

const reducing = (
	name: string,
	words: readonly string[],
	what: string,
): SoakAgent => ({
	words,
	name,
	alkaline: false,
	consumesIodine: `${name} left in the char holds ${what}, which react with iodine`,
});

/** Common practice, no source, except the chemistry of iodine itself (disproportionation in alkali; reduction by phenols, aldehydes, ascorbic acid and sulfite). */
export const soakAgents: readonly SoakAgent[] = [
	alkali("potash", ["potash", "k2co3", "potassium carbonate"]),
	alkali("washing soda", [
		"washing soda",
		"soda ash",
		"soda",
		"na2co3",
		"sodium carbonate",
	]),
	alkali("baking soda", ["baking soda", "nahco3", "sodium bicarbonate"]),
	alkali("potassium hydroxide", [
		"koh",
		"potassium hydroxide",
		"caustic potash",
	]),
	alkali("sodium hydroxide", [
		"naoh",
		"sodium hydroxide",
		"caustic soda",
		"lye",
	]),
	alkali("lime", ["lime", "slaked lime", "ca(oh)2", "calcium hydroxide"]),
	alkali("wood ash", ["wood ash", "ash liquor"]),
	alkali("ammonia", ["ammonia", "nh3"]),
	reducing(
		"wood vinegar",
		["wood vinegar", "pyroligneous acid", "pyroligneous"],
		"phenols and aldehydes",
	),
	reducing("ascorbic acid", ["ascorbic acid", "vitamin c"], "ascorbic acid"),
	reducing(
		"sulfite",
		["sulfite", "sulphite", "na2so3", "metabisulfite"],
		"sulfite",
	),
	reducing("tea or tannin", ["tannin", "tea", "tannic acid"], "phenols"),
];

/** Whether a text in lower case has the word (or formula, or words) as a whole. */
export function mentions(text: string, word: string): boolean {
	const escaped = word.replace(/[()[\]{}.*+?^$|\\]/g, "\\$&");
	return new RegExp(`(^|[^a-z0-9])${escaped}($|[^a-z0-9])`).test(text);
}

/** The agents that a soak's own words name, the longest names first ("washing soda" is not "soda"). Empty where none is recognised. */
export function agentsIn(description: string): SoakAgent[] {
	const text = description.toLowerCase();
	return soakAgents.filter((agent) =>
		agent.words.some((word) => mentions(text, word)),
	);
}
