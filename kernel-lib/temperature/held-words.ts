import { confidenceText, inDigits, usualConfidence } from "../isotherms";
import { decimalsFor, fixed, type Table, table } from "../quantity";
import type { HeldWhenWarmer } from "./held-when-warmer";

/** "35 °C". */
function celsius(kelvin: number): string {
	return `${fixed(kelvin - 273.15, 1).replace(/\.0$/, "")} °C`;
}

/** Per cent by which the warmest holds more than the coldest, without the sign: whole, or tens where no more is known. */
function percentOf(low: number, high: number): (ratio: number) => string {
	const places =
		high > low ? Math.min(0, decimalsFor((100 * (high - low)) / 4) - 1) : 0;
	return (ratio) => `${fixed(100 * Math.abs(ratio - 1), places)}`;
}

/** Whether the char holds less where it is warmer, in one plain sentence for the title of a page. */
export function heldFinding(held: HeldWhenWarmer): string {
	if (held.is === "not compared")
		return `Cannot tell whether the char holds less where it is warmer: ${held.because}.`;
	const { at, ratio, residue, probe } = held;
	const of = probe === "" ? "" : ` ${probe}`;
	const { low, high } = ratio;
	if (low.is === "not known")
		return `Cannot tell whether the char holds more or less${of} where it is warmer: ${low.because}.`;
	if (high.is === "not known")
		return `Cannot tell whether the char holds more or less${of} where it is warmer: ${high.because}.`;
	const warm = celsius(at[at.length - 1].kelvin);
	const cold = celsius(at[0].kelvin);
	const left = `with ${inDigits(residue, 2)} mg/L left in the water`;
	const percent = percentOf(low.value, high.value);
	const sure =
		ratio.confidence === usualConfidence
			? ""
			: `${confidenceText(ratio.confidence)} interval `;
	if (low.value <= 1 && high.value >= 1)
		return `Cannot tell whether the char holds more or less${of} where it is warmer: ${left}, at ${warm} it held between ${percent(low.value)} % less and ${percent(high.value)} % more than at ${cold}${sure === "" ? "" : ` (${sure.trim()})`}.`;
	const size = percent(ratio.value);
	return high.value < 1
		? `Yes: ${left}, the char held ${size} % less${of} at ${warm} than at ${cold} (${sure}${percent(high.value)} to ${percent(low.value)} %).`
		: `No: ${left}, the char held ${size} % more${of} at ${warm} than at ${cold} (${sure}${percent(low.value)} to ${percent(high.value)} %).`;
}

/** The uptakes at one residue, a row a temperature. */
export function heldTable(held: HeldWhenWarmer): Table {
	if (held.is === "not compared")
		return table(
			"Uptake at each temperature",
			["temperature", "uptake (mg/g)", "from", "to"],
			[],
			[`Not compared: ${held.because}.`],
		);
	return table(
		`Uptake with ${inDigits(held.residue, 2)} mg/L left`,
		["temperature", "uptake (mg/g)", "from", "to"],
		held.at.map(({ kelvin, uptake: { uptake, low, high } }) => {
			const known = low.is === "value" && high.is === "value";
			const places = known ? decimalsFor((high.value - low.value) / 4) - 1 : 0;
			const text = (v: number): string =>
				known ? fixed(v, places) : inDigits(v, 3);
			return [
				celsius(kelvin),
				text(uptake),
				low.is === "value" ? text(low.value) : "not known",
				high.is === "value" ? text(high.value) : "not known",
			];
		}),
		[
			`From and to: ${confidenceText(held.ratio.confidence)} interval of the curve. What all temperatures share is in it and moves them together.`,
		],
	);
}
