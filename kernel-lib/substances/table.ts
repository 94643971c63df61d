import { listed, type Table, table } from "../quantity";
import { dangers } from "./dangers";
import { substances } from "./list";
import { meetings } from "./meetings";
import type { IodineEffect, Substance } from "./substance";

function molesText(effect: IodineEffect): string {
	if (!("molesIodinePerMole" in effect)) return "";
	const moles = effect.molesIodinePerMole;
	return typeof moles === "number" ? `at most ${moles}` : "not known";
}

/** The signal word, the kinds and their GHS classes; where there is none, why. */
function dangerText({ dangers: kinds, harmless }: Substance): string {
	if (kinds.length === 0)
		return harmless === "" ? "not known: see its safety data sheet" : harmless;
	const signal = kinds.some((k) => dangers[k].signal === "danger")
		? "danger"
		: "warning";
	return `${signal}: ${kinds.map((k) => `${k} (${dangers[k].classes})`).join("; ")}`;
}

/** The kinds, and what is done, that a substance must not meet. */
function apartFrom({ dangers: kinds }: Substance): string {
	const has = (sides: readonly string[]): boolean =>
		kinds.some((k) => sides.includes(k));
	return listed([
		...new Set(
			meetings.flatMap(({ one, other }) => [
				...(has(one) ? other : []),
				...(has(other) ? one : []),
			]),
		),
	]);
}

/**
 * The whole list of substances: names, formulas, what each that is left in a char does to iodine, with the source, and (from memory) how it hurts and what it must not meet.
 * @example
 * substances.substanceTable().title // => "Substances"
 */
export function substanceTable(): Table {
	return table(
		"Substances",
		[
			"name",
			"also called",
			"formula",
			"iodine",
			"I2 per mole",
			"because",
			"source",
			"hazards (from memory)",
			"keep apart from",
		],
		substances.map((s) => [
			s.name,
			s.synonyms.join(", "),
			s.formula,
			s.iodine.is,
			molesText(s.iodine),
			s.iodine.because,
			s.iodine.source,
			dangerText(s),
			apartFrom(s),
		]),
	);
}
