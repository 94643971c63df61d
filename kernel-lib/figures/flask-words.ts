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

/** Axis label of uptakes: per gram of what, and whether losses are still in them. */
export function uptakeLabel(uptakes: readonly FlaskUptake[]): string {
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
	return `Uptake of ${probeWord(uptakes)}${basis}${losses}`;
}

/** What was taken up, in a word. */
export function probeWord(uptakes: readonly FlaskUptake[]): string {
	return [...new Set(uptakes.map((u) => u.probe))].join(", ") || "iodine";
}

/** The same on an axis of amounts, with what the number counts where that is not plain. */
export function countedProbe(uptakes: readonly FlaskUptake[]): string {
	const probe = probeWord(uptakes);
	return probe === "iodine" ? "iodine, as I₂" : probe;
}
