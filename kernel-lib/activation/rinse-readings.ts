import { type Firing, isLeftOut, type Recorded, type Rinse } from "../bench";

/** What was read on the rinses. */
export type WashReading = "conductivity" | "pH";

/** One reading of a rinse, as it ran off. */
export interface WashPoint {
	readonly rinse: number;
	/** Volume of rinse water up to and with this rinse, mL. */
	readonly poured: number;
	/** µS/cm before any dilution, or pH. */
	readonly value: number;
	/** Standard uncertainty of the reading, in the same unit. */
	readonly uncertainty: number;
	/** What the meter showed, diluted or not. */
	readonly asRead: number;
}

function readingOf(
	rinse: Rinse,
	reading: WashReading,
	water: number,
): Recorded<Pick<WashPoint, "value" | "uncertainty" | "asRead">> {
	// A rinse that is left out still dilutes; what was read on it does not count.
	if (isLeftOut(rinse)) return { recorded: false };
	if (reading === "pH")
		return rinse.pH.recorded
			? {
					recorded: true,
					value: {
						value: rinse.pH.value.value,
						uncertainty: rinse.pH.value.standardUncertainty,
						asRead: rinse.pH.value.value,
					},
				}
			: { recorded: false };
	if (!rinse.conductivity.recorded) return { recorded: false };
	const read = rinse.conductivity.value.to("µS/cm");
	return {
		recorded: true,
		value: {
			// Diluted with the rinse water: what the water brought along is taken off first.
			value: water + rinse.diluted * (read.value - water),
			uncertainty: rinse.diluted * read.standardUncertainty,
			asRead: read.value,
		},
	};
}

/** The rinses that were read, in their order. */
export function pointsOf(
	firing: Firing,
	reading: WashReading,
	volumes: readonly number[],
): WashPoint[] {
	const water = firing.rinseWater.conductivity.recorded
		? firing.rinseWater.conductivity.value.in("µS/cm")
		: 0;
	let poured = 0;
	return firing.rinses.flatMap((rinse, i): WashPoint[] => {
		poured += volumes[i];
		const read = readingOf(rinse, reading, water);
		return read.recorded ? [{ rinse: i + 1, poured, ...read.value }] : [];
	});
}

/** What the rinses tend to: the conductivity or pH of the water itself. */
export interface Floor {
	readonly value: number;
	readonly is: "measured" | "fitted" | "assumed";
}

/** Readings from which a floor that was not read is fitted (a choice of this library, no source): with fewer there are too few left to show the scatter. */
const readingsForFloor = 5;

export function floorOf(
	firing: Firing,
	reading: WashReading,
	points: readonly WashPoint[],
): Floor {
	if (reading === "pH")
		return firing.rinseWater.pH.recorded
			? { value: firing.rinseWater.pH.value.value, is: "measured" }
			: { value: 7, is: "assumed" };
	if (firing.rinseWater.conductivity.recorded)
		return {
			value: firing.rinseWater.conductivity.value.in("µS/cm"),
			is: "measured",
		};
	return points.length >= readingsForFloor
		? { value: 0.5 * Math.min(...points.map((p) => p.value)), is: "fitted" }
		: { value: 0, is: "assumed" };
}

/** Why readings cannot carry the model; "" where they can. */
export function refusalOf(
	points: readonly WashPoint[],
	reading: WashReading,
	floor: Floor,
): string {
	if (points.length < 3)
		return `${points.length === 0 ? "no" : points.length === 1 ? "one" : "two"} reading${points.length === 1 ? "" : "s"} of the ${reading}: the model has two unknowns, so at least three rinses must be read before anything shows how good it is`;
	const none =
		reading === "conductivity" ? points.filter((p) => !(p.value > 0)) : [];
	if (none.length > 0)
		return `rinse ${none.map((p) => p.rinse).join(", ")} comes out at no conductivity at all once its dilution is taken off: look at the reading, the dilution and the water's own conductivity`;
	const [first, last] = [points[0], points[points.length - 1]];
	const distance = (p: WashPoint): number => Math.abs(p.value - floor.value);
	const noise = Math.hypot(first.uncertainty, last.uncertainty);
	return distance(first) - distance(last) <= 2 * noise
		? `the ${reading} did not come nearer to the water's own between rinse ${first.rinse} and rinse ${last.rinse} by more than its reading error: nothing can be foretold from it`
		: "";
}
