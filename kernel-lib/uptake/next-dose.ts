import {
	exact,
	fixed,
	input,
	per,
	plainNumber,
	type Quantity,
	quoted,
	scaled,
	times,
} from "../quantity";
import type { TitratedResidue } from "../residue";
import type { Titrants } from "../solutions";
import { molarMass } from "../substances";

/** A titre that can be read to better than 1 %. Common practice, no source. */
const goodTitre: Quantity<"volume"> = input("volume", 10, "mL", exact, {
	symbol: "V_{good}",
	meaning: "a titre that can be read well",
});

/**
 * What to add to a flask that ran dry: as much iodine as would titrate at a good 10 mL if nothing more were taken up. It is a least amount: the char may take up part of it, and then
 * the flask is dosed again; successive doses are normal.
 */
export function nextDoseAfterDry(
	found: TitratedResidue,
	titrants: Titrants,
): string {
	const { flask, account } = found;
	const thiosulfate = titrants.concentration(flask.titrations[0].titrant);
	const wanted = times(
		scaled(times(thiosulfate, goodTitre), 0.5),
		per(account.liquid, flask.aliquot),
	);
	const [dose] = flask.events.filter((e) => e.is === "dose");
	const volume = per(wanted, titrants.concentration(dose.solution));
	const mass = times(wanted, molarMass("I2")).to("mg");
	return `Add at least ${fixed(volume.in("mL"), 0)} mL more of ${quoted(dose.solution)} (${fixed(mass.value, 0)} mg iodine), wait as before and titrate again; if it runs dry once more, repeat.`;
}

/** What to change where no uptake could be distinguished from zero: less iodine or more char, by the factor that would bring the measuring error to a fifth of the most that could have been taken up. */
export function nextDoseAfterNone(
	takenUp: Quantity<"mass">,
	found: TitratedResidue,
): string {
	const u = takenUp.standardUncertainty;
	// From 2 to 5.
	const factor = Math.max(2, Math.ceil((5 * u) / Math.max(takenUp.value, u)));
	const dose = found.account.added;
	const mass = times(dose, molarMass("I2")).to("mg");
	return `Weigh about ${factor} times as much char, or dose about ${plainNumber(Number((mass.value / factor).toPrecision(2)))} mg iodine instead of ${fixed(mass.value, 0)} mg, so that the uptake stands clear of the measuring error.`;
}
