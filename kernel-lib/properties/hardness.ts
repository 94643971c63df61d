import {
	type Checked,
	minus,
	named,
	per,
	problem,
	type Quantity,
	valueOrThrow,
} from "../quantity";
import { asRead, surelyAboveZero } from "./weighings";

/** Char put into the pan, and what stayed on the hardness test sieve afterwards. */
export interface PanTest {
	readonly loaded: Quantity<"mass">;
	readonly retained: Quantity<"mass">;
}

export function checkBallPanHardness(t: PanTest): Checked<Quantity<"ratio">> {
	if (surelyAboveZero(minus(t.retained, t.loaded)))
		return {
			ok: false,
			problems: [
				problem(
					"mass-gained",
					{ column: "retained" },
					`${asRead(t.retained)} on the sieve of ${asRead(t.loaded)} in the pan`,
					"no more on the sieve than was in the pan",
					"Look whether the two masses were swapped.",
				),
			],
		};
	return {
		ok: true,
		value: named(
			per(t.retained, t.loaded).to("%"),
			"H",
			"ball-pan hardness number",
		),
	};
}

/**
 * Ball-pan hardness number, %: mass that stays on the hardness test sieve per mass in the pan (ASTM D3802; from memory). It is hardness and not abrasion: it compares lots of one kind of
 * char and foretells no wear in use.
 * @throws ProblemError where more stayed than was loaded
 */
export function ballPanHardness(readings: PanTest): Quantity<"ratio"> {
	return valueOrThrow(checkBallPanHardness(readings));
}
