import type * as properties from "../properties";
import { propertyKind } from "../properties";
import { quoted, requireResults } from "../quantity";
import { claimedUse } from "./claimed-use";
import { neverConcluded } from "./limits";

/** Words of a table of property readings that may call for a caution: hot crucibles, float liquids, hot extracts. */
export function wordsOfProperties(sheet: properties.PropertySheet): string[] {
	return [
		...sheet.determinations.map((d) => d.property),
		...sheet.splits.flatMap(({ split }) => ["float liquid", split.liquid]),
	];
}

/**
 * What may not be concluded from properties of chars: what single determinations and disagreeing replicates leave open, what the figures are about, and what none of them can show.
 * @example
 * cautions.notConcludedFromProperties([]).at(-1) // => "No property in this table shows that a char is fit for any use."
 */
export function notConcludedFromProperties(
	found: readonly properties.CharProperty[],
): string[] {
	requireResults(found, propertyKind, "notConcludedFromProperties");
	const beyond = found.filter((p) => p.agreement.is === "beyond the limit");
	const single = found.filter(
		(p) =>
			p.agreement.is === "one determination" && p.property !== "fixed carbon",
	);
	const about = (list: readonly properties.CharProperty[]): string =>
		[
			...new Set(
				list.map(
					(p) =>
						`${p.property}${p.at === "" ? "" : ` at ${p.at}`} of ${quoted(p.sample)}`,
				),
			),
		].join(", ");
	return [
		...claimedUse(found),
		...(beyond.length > 0
			? [
					`Nothing should lean on the mean of determinations that disagree: ${about(beyond)}.`,
				]
			: []),
		...(single.length > 0
			? [`Determined once, so that a slip would not show: ${about(single)}.`]
			: []),
		"These are properties of the chars that the portions were taken from; another soak or firing may come out differently.",
		"A result by the formula of a standard is not a result by the standard unless all of its procedure was followed.",
		"Hardness, density and particle size do not foretell how a char wears or flows in use; ash does not say what it is made of, nor whether it comes out in water.",
		...neverConcluded.slice(0, -1),
		"No property in this table shows that a char is fit for any use.",
	];
}
