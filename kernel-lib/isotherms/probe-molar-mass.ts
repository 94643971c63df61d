import { type Problem, problem } from "../quantity";
import { molarMass, substanceNamed } from "../substances";
import type { IsothermPoints } from "./points";
import { inDigits } from "./words";

type WithProbe = Pick<IsothermPoints, "probe">;

/** A molar mass that differs by more from that of the probe is that of something else. Our decision. */
const sameSubstance = 0.01;

/** Of what was taken up, g/mol: as given, else that of the probe where it is a substance that the library knows; 0 where it is not known. */
export function molarMassOf(points: WithProbe, given = 0): number {
	return given > 0 ? given : ofProbe(points);
}

function ofProbe({ probe }: WithProbe): number {
	const found = substanceNamed(probe);
	return found.is === "known" && found.substance.formula !== ""
		? molarMass(found.substance.formula).in("g/mol")
		: 0;
}

/** Problems with a molar mass that is given for a probe whose own is known. */
export function molarMassProblems(points: WithProbe, given = 0): Problem[] {
	const own = ofProbe(points);
	return given === 0 || own === 0 || Math.abs(given / own - 1) <= sameSubstance
		? []
		: [
				problem(
					"molar-mass-of-another",
					{},
					`a molar mass of ${given} g/mol for ${points.probe}, which has ${inDigits(own, 5)} g/mol`,
					`the molar mass of ${points.probe}`,
					"Give { molarMass: 0 } to take it from the list of substances.",
				),
			];
}
