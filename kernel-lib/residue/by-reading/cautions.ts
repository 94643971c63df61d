import { isUsable, requireTrial, type Trial } from "../../bench";
import { isSubstance } from "../../substances";

/**
 * What to bear in mind about the way that the flasks in use were read, as full sentences; none where all were titrated. Common practice, no source.
 * @example
 * residue.readingCautions(trial) // => []
 */
export function readingCautions(trial: Trial): string[] {
	requireTrial(trial);
	const usable = trial.flasks.filter(isUsable);
	const read = usable.flatMap((f) =>
		f.readings.recorded ? [f.readings.value] : [],
	);
	const kinds = new Set(read.map((r) => r.kind));
	const colour =
		kinds.has("absorbance") ||
		kinds.has("transmittance") ||
		kinds.has("intensity");
	const dosed = new Set(
		usable.flatMap((f) =>
			f.readings.recorded
				? f.events.flatMap((e) => (e.is === "dose" ? [e.solution] : []))
				: [],
		),
	);
	const substances = trial.solutions
		.filter((s) => dosed.has(s.name))
		.map((s) => s.substance);
	const lines = new Set(trial.standards.map((s) => s.line.toLowerCase()));
	const starch = [...lines].some((l) => l.includes("starch"));
	const iodine = substances.includes("iodine");
	const blue = substances.some((s) => isSubstance(s, "methylene blue"));
	return [
		kinds.has("intensity")
			? "A camera is no photometer: fix exposure, focus and white balance, take blank, standards and samples in one picture under even light without reflections, and keep every channel between about 20 and 235. Its band of colour is wide, so that the line may bend."
			: "",
		colour && read.some((r) => !r.second.recorded)
			? "Fines and colour that the char itself gives off look like what was dosed, and make the uptake seem too small: filter well, read a second wavelength, and keep a flask of char without a dose."
			: "",
		iodine && colour && !starch
			? "The colour of iodine is mostly that of triiodide: a line holds for the iodide concentration of its standards only, and other things that char gives off are yellow too."
			: "",
		iodine && starch
			? "The blue of iodine and starch depends on temperature, iodide, the starch itself and the order of mixing; its line bends and holds for one batch of starch on one day."
			: "",
		blue
			? "Methylene blue clings to glass and filters (a flask without char shows how much), forms dimers from a few mg/L on, and loses its colour to reducing agents and, in alkali, to light."
			: "",
		kinds.has("conductivity")
			? "Conductivity counts every ion, those that the char gives off too, and changes by about 2 % a degree: read standards and samples at one temperature."
			: "",
		kinds.has("pH")
			? "A pH is read on a line only over a short range of one acid or base; buffers, carbonate of the ash and carbon dioxide of the air shift it."
			: "",
		kinds.has("dry residue")
			? "A dry residue counts everything dissolved, and loses what evaporates with the water."
			: "",
	].filter((text) => text !== "");
}
