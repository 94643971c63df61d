import { isUsable, whyLeftOut } from "../bench";
import { listed, measuredText, withWord } from "../quantity";
import type { FlaskUptake } from "../uptake";

/** What a deviation did to a flask, in the words of the sheet; "" for none. */
function deviationWords({ flask }: FlaskUptake): string {
	const why = whyLeftOut(flask);
	if (why !== "") return `left out: ${why}`;
	const happened = [...new Set(flask.marks.map((m) => m.whatHappened))];
	return happened.length === 0 ? "" : `deviation: ${happened.join("; ")}`;
}

/** Which flasks are left out, and why, for an alt text; "" for none. */
export function leftOutText(uptakes: readonly FlaskUptake[]): string {
	const out = uptakes.filter((u) => !isUsable(u.flask));
	return out.length === 0
		? ""
		: ` Left out for a deviation: ${listed(out.map(({ flask }) => `flask ${flask.name} (${whyLeftOut(flask)})`))}.`;
}

/** The same as a note under a figure that draws these flasks as outlines. */
export function leftOutNotes(uptakes: readonly FlaskUptake[]): string[] {
	const text = leftOutText(uptakes);
	return text === "" ? [] : [text.replace(" Left out", "Outlined, left out")];
}

/** What a reader sees on pointing at a flask: sample, flask, where it belongs, and its numbers with uncertainty. */
export function flaskWords(uptake: FlaskUptake): string {
	const { flask } = uptake;
	const belongs = [
		flask.treatment,
		flask.soak && withWord("soak", flask.soak),
		flask.day && withWord("day", flask.day),
	].filter((text) => text !== "");
	return [
		flask.sample === "" ? "" : `sample ${flask.sample}`,
		`flask ${flask.name}`,
		belongs.join(", "),
		`uptake ${measuredText(uptake.uptake)} per gram of ${uptake.perGram === "dry char" ? "dry char" : "char as weighed"}`,
		`residue ${measuredText(uptake.residue)}`,
		uptake.lossesTakenOff ? "" : "losses not taken off",
		deviationWords(uptake),
	]
		.filter((text) => text !== "")
		.join("\n");
}

/** Axis label of uptakes: of what, per gram of what, and whether losses are still in them. */
export function uptakeLabel(
	uptakes: readonly FlaskUptake[],
	probe: string,
): string {
	const dry = uptakes.filter((u) => u.perGram === "dry char").length;
	const basis =
		dry === uptakes.length
			? " per gram of dry char"
			: dry === 0
				? " per gram of char as weighed"
				: " per gram of char";
	const losses =
		uptakes.length > 0 && uptakes.every((u) => !u.lossesTakenOff)
			? ", losses included"
			: "";
	return `Uptake${ofProbe(probe)}${basis}${losses}`;
}

/** " of iodine"; "" for numbers that were typed in without the name of their solute. */
export function ofProbe(probe: string): string {
	return probe === "" ? "" : ` of ${probe}`;
}

/** The probe on an axis of amounts, with what the number counts where that is not plain. */
export function countedProbe(probe: string): string {
	return probe === "iodine" ? "iodine, as I₂" : probe;
}

/** Axis label of residues in solution; without a probe for numbers that were typed in without its name. */
export function residueLabel(probe: string): string {
	return `Residual concentration${ofProbe(countedProbe(probe))}`;
}
