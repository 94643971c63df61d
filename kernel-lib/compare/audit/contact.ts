import { plainNumber } from "../../quantity";
import { mean } from "../../stats";
import type { Observation } from "../observations";
import { acting, type Looked, type Sides, unrecorded } from "./sides";

/** Mean contact times of treated and control may differ by this part. Our decision. */
export const contactAllowance = 0.1;

/** A plateau is shown by flasks at so many times the shortest contact of their side, whose mean uptake differs by less than this part of the margin. Our decision. */
const longer = 2;
const partOfMargin = 1 / 3;

interface Timed {
	readonly hours: number;
	readonly observation: Observation;
}

const timedOf = (side: readonly Observation[]): Timed[] =>
	side.flatMap((o) => {
		const { contactTime } = o.flask.flask;
		return contactTime.recorded
			? [{ hours: contactTime.value.in("h"), observation: o }]
			: [];
	});

function plateauShown(side: readonly Timed[], margin: number): boolean {
	const flasks = side.filter((f) => f.observation.side === "value");
	const shortest = Math.min(...flasks.map((f) => f.hours));
	const early = flasks.filter((f) => f.hours < longer * shortest);
	const late = flasks.filter((f) => f.hours >= longer * shortest);
	if (early.length === 0 || late.length === 0) return false;
	const uptake = (own: readonly Timed[]): number =>
		mean(own.map((f) => f.observation.value));
	const change = uptake(late) - uptake(early);
	return Math.abs(change) < partOfMargin * margin;
}

const timeText = (hours: number): string =>
	hours < 1
		? `${plainNumber(Number((60 * hours).toPrecision(2)))} min`
		: `${plainNumber(Number(hours.toPrecision(3)))} h`;

/** Contact times of the two sides: the longer one takes up more, unless the other shows that it had done so already. */
export function contact({ treated, untreated, margin }: Sides): Looked {
	const [one, other] = [treated, untreated].map(timedOf);
	if (one.length === 0 || other.length === 0) return unrecorded;
	const [a, b] = [one, other].map((side) => mean(side.map((f) => f.hours)));
	const apart = Math.max(a, b) / Math.min(a, b) > 1 + contactAllowance;
	const harmless = plateauShown(a < b ? one : other, margin);
	return {
		is: apart ? "beyond" : "within",
		feigns:
			apart && !harmless
				? acting(a > b ? "treated" : "control", "more uptake")
				: "nothing",
		treated: timeText(a),
		untreated: `${timeText(b)}${apart && harmless ? ", a plateau shown" : ""}`,
	};
}
