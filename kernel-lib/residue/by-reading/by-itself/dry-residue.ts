import type { Flask } from "../../../bench";
import {
	exact,
	idsOf,
	input,
	meanOfRepeats,
	minus,
	named,
	per,
	plus,
	type Quantity,
	stated,
} from "../../../quantity";
import type { ByItself } from "./by-itself";

function solids(flask: Flask): Quantity<"massConcentration"> {
	if (!flask.readings.recorded)
		throw new Error(`Flask ${flask.name} was not dried.`);
	const mass = meanOfRepeats(
		flask.readings.value.values as readonly Quantity<"mass">[],
		`weighings of the dry residue of flask ${flask.name}`,
	);
	return named(
		per(mass, flask.aliquot),
		"\\rho_{solids}",
		`dissolved solids of flask ${flask.name}`,
	);
}

/** One-sided 95 % of a normal error. */
const oneSided95 = 1.645;

/**
 * Dry residue: what an aliquot leaves behind when it is dried to constant mass, over its volume, less that of the blanks. It counts everything dissolved, salts of the char too: only a blank of char without
 * probe takes those off. Common practice, no source. A residue below 1.645 standard uncertainties is a bound.
 */
export const dryResidue: ByItself = {
	kind: "dry residue",
	concentration(flask, _readings, blanks) {
		const own = solids(flask);
		const found =
			blanks.length === 0
				? own
				: minus(
						own,
						meanOfRepeats(blanks.map(solids), "dry residues of blanks"),
					);
		const u = found.standardUncertainty;
		if (found.value >= oneSided95 * u) return { is: "value", quantity: found };
		const unit = found.unit as "g/L";
		const room = input(
			"massConcentration",
			oneSided95 * u + Math.max(0, -found.value),
			unit,
			exact,
			{
				symbol: "1.645 u",
				meaning: "what the error of weighing could hide (one-sided 95 %)",
				source: stated("1.645 standard uncertainties of the residue itself"),
				component: flask.name,
				computedFrom: idsOf([found])[0],
			},
		);
		return {
			is: "at most",
			quantity: plus(found, room),
			because: "its dry residue cannot be distinguished from zero",
		};
	},
};
