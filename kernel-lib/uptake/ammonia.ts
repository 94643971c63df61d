import type { Flask, Trial } from "../bench";
import { type AmmoniaNamed, ammoniaNamedIn } from "../substances";
import type { FlaskUptake } from "./flask-uptake";
import { soakNames, soakTexts } from "./soak";

/** Whether a flask's char may hold ammonia, by all that the sheet names of its treatment. */
export function ammoniaOf(trial: Trial, flask: Flask): AmmoniaNamed {
	const texts = soakTexts(trial, flask);
	if (texts.some((text) => ammoniaNamedIn(text) === "named")) return "named";
	return soakNames(trial, flask).some((s) => s.is === "not known")
		? "not known"
		: "none named";
}

/** Why iodine is kept away from ammonia, and what comes first. */
export const ammoniaFirst =
	"do not dose; rinse out and drive off the ammonia first: with iodine it forms a solid that explodes when touched";

/** The condition on which a char is dosed where it is not known what it was soaked in. */
export const unlessAmmonia =
	"Do so only if the char surely holds no ammonia, for what it was soaked in is not on the list of substances: with iodine ammonia forms a solid that explodes when touched.";

type Dosed = Pick<FlaskUptake, "probe" | "ammonia">;

/** Whether iodine may meet ammonia in one of these flasks. */
export function ammoniaInAny(flasks: readonly Dosed[]): AmmoniaNamed {
	return jointAmmonia(
		flasks.filter((u) => u.probe === "iodine").map((u) => u.ammonia),
	);
}

/** The most that has to be reckoned with. */
export function jointAmmonia(list: readonly AmmoniaNamed[]): AmmoniaNamed {
	if (list.includes("named")) return "named";
	return list.includes("not known") ? "not known" : "none named";
}

/**
 * Advice to dose flasks, or the word to keep iodine away from them where their char may hold ammonia. The advice stands with a condition where it is not known what the char was soaked in.
 *
 * @param advice full sentences; "" stays ""
 */
export function safeToDose(ammonia: AmmoniaNamed, advice: string): string {
	if (advice === "" || ammonia === "none named") return advice;
	return ammonia === "named"
		? `The char may hold ammonia: ${ammoniaFirst}.`
		: `${advice} ${unlessAmmonia}`;
}
