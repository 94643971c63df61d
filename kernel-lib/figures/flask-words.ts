import { measuredText, withWord } from "../quantity";
import type { FlaskUptake } from "../uptake";

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
