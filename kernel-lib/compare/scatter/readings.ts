import type { TitrationReading } from "../../bench";
import { derivativesBy, type Quantity } from "../../quantity";
import { titreVolume } from "../../solutions";
import type { Observation } from "../observations";
import type { Brought } from "./brought";

/** One titration as it acts on the uptake that is compared. */
export interface Single {
	readonly of: Observation;
	/** mg/g: the flask's uptake as this titration alone would have it. */
	readonly value: number;
	/** Standard uncertainty that reading the burette and seeing the end point put into it, mg/g; 0 for a flask that was not titrated. */
	readonly reading: number;
}

function levelsOf(t: TitrationReading): Quantity<"volume">[] {
	return t.is === "titre"
		? [t.titre]
		: [t.end, t.start, ...t.refills.flatMap((r) => [r.from, r.to])];
}

/** d(carried uptake)/d(titre), (mg/g)/mL, of each titration as if it were the only one. */
function effectsOf(
	{ of: { flask }, factor, slope }: Brought,
	titrations: readonly TitrationReading[],
): number[] {
	const residue = flask.residue.quantity.to("mg/L");
	const uptake = flask.uptake.quantity.to("mg/g");
	const read = titrations.map((t) => levelsOf(t)[0].to("mL"));
	const byResidue = derivativesBy(residue, read);
	return derivativesBy(uptake, read).map(
		(d, i) =>
			titrations.length *
			factor *
			(d - (slope * uptake.value * byResidue[i]) / residue.value),
	);
}

/** A flask's titrations one by one; the flask itself where it was read by an instrument. */
export function singlesOf(brought: Brought, endPoint: number): Single[] {
	const { of, value } = brought;
	const { titrations } = of.flask.flask;
	if (titrations.length === 0) return [{ of, value, reading: 0 }];
	const effects = effectsOf(brought, titrations);
	const titres = titrations.map((t) => titreVolume(t, endPoint).in("mL"));
	const mean = titres.reduce((a, b) => a + b, 0) / titres.length;
	return titrations.map((t, i) => ({
		of,
		value: value + effects[i] * (titres[i] - mean),
		reading:
			Math.abs(effects[i]) *
			Math.hypot(
				endPoint,
				...levelsOf(t).map((level) => level.to("mL").standardUncertainty),
			),
	}));
}
