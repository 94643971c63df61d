import { mean } from "../stats";
import { byTreatment, type FlaskUptake } from "../uptake";
import { readWell } from "./carriable";

const middle = (values: readonly number[]): number =>
	Math.exp(mean(values.map(Math.log)));

/**
 * The residue at which treatments are compared where none was stated, mg/L, in two digits: the middle, on the logarithmic scale, of what the treatments left, each counting once. The uptakes play no part in it.
 */
export function commonResidue(uptakes: readonly FlaskUptake[]): number {
	const residueOf = (u: FlaskUptake): number => u.residue.quantity.in("mg/L");
	const means = [...byTreatment(uptakes.filter(readWell)).values()].map((own) =>
		middle(own.map(residueOf)),
	);
	// Where no residue was read, bounds are all there is: they hold at the largest limit.
	const limit = Math.max(0, ...uptakes.map(residueOf));
	const found = means.length > 0 ? middle(means) : limit > 0 ? limit : 1;
	return Number(found.toPrecision(2));
}
