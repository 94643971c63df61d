import type { FlaskUptake } from "../uptake";
import { readWell } from "./carriable";

const middle = (values: readonly number[]): number =>
	Math.exp(values.reduce((sum, v) => sum + Math.log(v), 0) / values.length);

/**
 * The residue at which treatments are compared where none was stated, mg/L, in two digits: the middle, on the logarithmic scale, of what the treatments left, each counting once. The uptakes play no part in it.
 */
export function commonResidue(uptakes: readonly FlaskUptake[]): number {
	const residues = new Map<string, number[]>();
	for (const u of uptakes) {
		if (!readWell(u)) continue;
		const { treatment } = u.flask;
		residues.set(treatment, [
			...(residues.get(treatment) ?? []),
			u.residue.quantity.in("mg/L"),
		]);
	}
	const means = [...residues.values()].map(middle);
	// Where no residue was read, bounds are all there is: they hold at the largest limit.
	const limit = Math.max(
		0,
		...uptakes.map((u) => u.residue.quantity.in("mg/L")),
	);
	const found = means.length > 0 ? middle(means) : limit > 0 ? limit : 1;
	return Number(found.toPrecision(2));
}
