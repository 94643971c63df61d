import type { TypedRow } from "../../kernel-lib/bench/index";
import type * as properties from "../../kernel-lib/properties/index";
import {
	exact,
	input,
	type Kind,
	type Measured,
	type NotKnown,
	type Problem,
	type Quantity,
	rectangular,
	type UnitOf,
} from "../../kernel-lib/quantity/index";

/** A number without error. */
export function known<K extends Kind>(
	kind: K,
	value: number,
	unit: UnitOf<K>,
): Quantity<K> {
	return input(kind, value, unit, exact, {});
}

/** A mass that may err by up to 0.1 mg. */
export function weighed(value: number): Quantity<"mass"> {
	return input("mass", value, "g", rectangular(0.0001), {});
}

export function weighings(
	dish: number,
	dishAndSample: number,
	dishAfter: number,
): properties.Weighings {
	return {
		dish: weighed(dish),
		dishAndSample: weighed(dishAndSample),
		dishAfter: weighed(dishAfter),
	};
}

/** Openings in mm and masses in g, in the order given. */
export function sieving(
	fractions: readonly (readonly [number, number])[],
	pan: number,
): properties.Sieving {
	return {
		sieves: fractions.map(([opening, mass]) => ({
			opening: known("length", opening, "mm"),
			retained: known("mass", mass, "g"),
		})),
		pan: known("mass", pan, "g"),
	};
}

export function percent(value: number): Quantity<"ratio"> {
	return known("ratio", value, "%");
}

/** A row of three weighings. */
export function dishRow(
	determination: string,
	property: string,
	[dish, full, after]: readonly (number | string)[],
	more: TypedRow = {},
): TypedRow {
	return {
		determination,
		sample: "shell char",
		property,
		"dish (g)": dish,
		"dish and sample (g)": full,
		"dish after (g)": after,
		...more,
	};
}

export function problemsOf(checked: {
	readonly ok: boolean;
	readonly problems?: readonly Problem[];
}): readonly Problem[] {
	return checked.problems ?? [];
}

/** The value of an outcome, NaN for a limit, so that a test which expects a number fails. */
export function told<K extends Kind>(
	outcome: Measured<K> | NotKnown,
	unit: UnitOf<K>,
): number {
	return outcome.is === "value" ? outcome.quantity.in(unit) : Number.NaN;
}
