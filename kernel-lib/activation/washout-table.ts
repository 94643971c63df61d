import type { Firing } from "../bench";
import { quoted, type Table, table } from "../quantity";
import { leftOutOf } from "./table-notes";
import type { FittedWashout, Washout } from "./washout";

/** The liquor retained and the floor that the model has. */
function modelText(washed: FittedWashout): string {
	const { low, high } = washed.retainedInterval;
	return `Liquor retained between rinses: ${digits(washed.retained)} mL (95 %: ${digits(low)} to ${high.is === "value" ? digits(high.value) : "no limit"} mL). Floor ${digits(washed.floor)}${washed.unit === "pH" ? "" : " µS/cm"} (${washed.floorIs}).`;
}

const digits = (x: number): number => Number(x.toPrecision(3));

/**
 * Readings of the rinses beside the washout model.
 */
export function washoutTable({
	firing,
	washout,
}: {
	readonly firing: Firing;
	readonly washout: Washout;
}): Table {
	const fitted = washout.is === "fitted" ? Array.from(washout.fit.fitted) : [];
	const back = washout.reading === "pH" ? (y: number): number => y : Math.exp;
	return table(
		`Washing of ${quoted(firing.name)}, by ${washout.reading}`,
		[
			"rinse",
			"water poured on so far (mL)",
			washout.reading === "pH" ? "pH" : "conductivity (µS/cm)",
			"by the model",
		],
		washout.points.map((p, i) => [
			String(p.rinse),
			digits(p.poured),
			digits(p.value),
			i < fitted.length ? digits(back(fitted[i])) : "",
		]),
		[
			...(washout.is === "fitted"
				? [modelText(washout), ...washout.cautions]
				: [`No model: ${washout.because}.`]),
			...leftOutOf(firing.rinses, "what was read on rinse"),
		],
	);
}
