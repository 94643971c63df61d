import { type DataFrame, frame, isUsable, ofTrial, type Trial } from "../bench";
import { table } from "../quantity";
import { everyUptake } from "./every-uptake";

/**
 * The result of every flask with char as a data frame, a row a flask: uptake (mg/g) and residue (mg/L) with their standard uncertainties and whether each is a value or a bound, what was added, left and lost (mg),
 * dry mass of char (g), and whether a deviation leaves the flask out ("yes", "no"). Filter it and go on with `bench.selectFlasks(trial, frame)`.
 * @throws ProblemError as `residue.residues` does
 * @example
 * uptake.uptakeFrame(trial).columns.slice(0, 4) // => ["flask", "treatment", "soak", "day"]
 */
export function uptakeFrame(trial: Trial): DataFrame {
	return ofTrial(
		trial,
		frame(
			table(
				"Uptakes",
				[
					"flask",
					"treatment",
					"soak",
					"day",
					"char (g)",
					"added (mg)",
					"left (mg)",
					"lost (mg)",
					"uptake (mg/g)",
					"residue (mg/L)",
					"left out",
				],
				everyUptake(trial).map((u) => [
					u.flask.name,
					u.flask.treatment,
					u.flask.soak,
					u.flask.day,
					u.charMass.to("g"),
					u.balance.added,
					u.balance.left,
					u.balance.lost,
					u.uptake,
					u.residue,
					isUsable(u.flask) ? "no" : "yes",
				]),
			),
		),
	);
}
