import { fixed, quoted, roundedPair, type Table, table } from "../quantity";
import type { IsothermPoints } from "./points";
import { inDigits } from "./words";

/** The points as a table, with the correlation that the common titre gives concentration and uptake of a flask. */
export function pointTable(points: IsothermPoints): Table {
	return table(
		`Points of the isotherm, ${quoted(points.name)}`,
		[
			"flask",
			"residue (mg/L)",
			"own error of the residue (mg/L)",
			"uptake (mg/g)",
			"own error of the uptake (mg/g)",
			"correlation of the two errors",
			"remark",
		],
		points.points.map((p) => {
			const u = Math.sqrt(p.own.concentration);
			const v = Math.sqrt(p.own.uptake);
			const bound = p.is === "below detection";
			const [residue, ownOfResidue] = roundedPair(p.concentration, u);
			const [uptake, ownOfUptake] = roundedPair(p.uptake, v);
			return [
				p.flask,
				bound ? `at most ${inDigits(p.concentration, 4)}` : residue,
				ownOfResidue,
				bound ? `at least ${inDigits(p.uptake, 4)}` : uptake,
				ownOfUptake,
				u > 0 && v > 0 ? fixed(p.own.covariance / (u * v), 2) : "",
				bound ? "ran dry: enters as a bound" : "",
			];
		}),
		points.leftOut.map((l) => `Flask ${l.flask} is left out: ${l.because}.`),
	);
}
