import { meanOf, minus, type Quantity } from "../quantity";
import { unitsAtLimit } from "./contrasts";
import type { Observation } from "./observations";
import type { Pair } from "./pairs";
import type { UnitLevel } from "./units";

/** Mean residual concentrations of a pair, mg/L. */
export interface ResiduesOfPair {
	readonly treated: number;
	readonly control: number;
	/** Expanded uncertainty (k = 2) of their difference, shared errors cancelling. */
	readonly expandedUncertainty: number;
	/** Mean liquid in the treated flasks, L. */
	readonly liquid: number;
}

/** Mean residual concentration of a treatment: mean of its units, of each unit's flasks; residues that could not be measured at their limit. */
export function meanResidue(
	list: readonly Observation[],
	treatment: string,
	level: UnitLevel,
): Quantity<"massConcentration"> {
	return meanOf(
		unitsAtLimit(list, treatment, level).map((u) =>
			meanOf(u.members.map((i) => list[i].flask.residue.quantity.to("mg/L"))),
		),
	);
}

export function residuesOfPair(
	list: readonly Observation[],
	pair: Pair,
	level: UnitLevel,
): ResiduesOfPair {
	const treated = meanResidue(list, pair.treatment, level);
	const control = meanResidue(list, pair.control, level);
	const liquids = list
		.filter((o) => o.treatment === pair.treatment)
		.map((o) => o.flask.liquid.in("L"));
	return {
		treated: treated.value,
		control: control.value,
		expandedUncertainty: 2 * minus(treated, control).standardUncertainty,
		liquid: liquids.reduce((s, v) => s + v, 0) / liquids.length,
	};
}

/** Change of the treated flasks' dose that would bring their residue to the control's, mg a flask; first order: as if the uptake did not shift with it. */
export function doseChange(r: ResiduesOfPair): number {
	return (r.control - r.treated) * r.liquid;
}
