import { known, type MaybeKnown, notKnown, plainNumber } from "../../quantity";
import { mean } from "../../stats";
import type { Observation } from "../observations";
import { slopeRange } from "../slope-range";
import { acting, type Looked, type Sides, unrecorded } from "./sides";

/** Mean contact times of treated and control may differ by this part. Our decision. */
export const contactAllowance = 0.1;

/** A plateau is shown by flasks (or withdrawals from one) at so many times the shortest contact of their side, whose mean uptake differs by less than this part of the margin. Our decision. */
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

/** How far the uptake of single flasks changed from a withdrawal to an end at twice its time and more, mg/g: on the mean, and as seen along the steepest curve that is allowed for, since a residue that falls hides a part of it. */
function changesWithin(side: readonly Timed[]): number[] {
	const steps = side.flatMap(({ hours, observation: { flask } }) => {
		const early = flask.atWithdrawals.filter(
			({ after, uptake, residue, undisturbed }) =>
				undisturbed &&
				uptake.is === "value" &&
				residue.is === "value" &&
				after.recorded &&
				after.value.in("h") > 0 &&
				hours >= longer * after.value.in("h"),
		);
		const last = early.at(-1);
		if (last === undefined || flask.uptake.is !== "value") return [];
		const fall =
			flask.residue.quantity.in("mg/L") / last.residue.quantity.in("mg/L");
		const then = last.uptake.quantity.in("mg/g");
		const now = flask.uptake.quantity.in("mg/g");
		return fall > 0
			? [[0, slopeRange([{ flask }]).high].map((s) => now - then * fall ** s)]
			: [];
	});
	return steps.length === 0
		? []
		: [0, 1].map((end) => Math.abs(mean(steps.map((s) => s[end]))));
}

/** How far the uptake changed from the shortest contact to twice that and more, mg/g, by flasks that stood unlike times or by withdrawals, whichever shows more; not known where neither does. */
function changeWithTime(side: readonly Timed[]): MaybeKnown<number> {
	const flasks = side.filter((f) => f.observation.side === "value");
	const shortest = Math.min(...flasks.map((f) => f.hours));
	const early = flasks.filter((f) => f.hours < longer * shortest);
	const late = flasks.filter((f) => f.hours >= longer * shortest);
	const uptake = (own: readonly Timed[]): number =>
		mean(own.map((f) => f.observation.value));
	const changes = [
		...(early.length > 0 && late.length > 0
			? [Math.abs(uptake(late) - uptake(early))]
			: []),
		...changesWithin(flasks),
	];
	return changes.length > 0
		? known(Math.max(...changes))
		: notKnown("no flasks at double time, and no withdrawals");
}

const meanHours = (side: readonly Timed[]): number =>
	mean(side.map((f) => f.hours));

const timeText = (hours: number): string =>
	hours < 1
		? `${plainNumber(Number((60 * hours).toPrecision(2)))} min`
		: `${plainNumber(Number(hours.toPrecision(3)))} h`;

/** Contact times of the two sides: the longer one takes up more, unless the other shows that it had done so already. */
export function contact({ treated, untreated }: Sides): Looked {
	const [one, other] = [treated, untreated].map(timedOf);
	if (one.length === 0 || other.length === 0) return unrecorded;
	const [a, b] = [one, other].map(meanHours);
	const told = { treated: timeText(a), untreated: timeText(b) };
	if (Math.max(a, b) / Math.min(a, b) <= 1 + contactAllowance)
		return { is: "within", feigns: "nothing", ...told };
	const change = changeWithTime(a < b ? one : other);
	return {
		is: "beyond",
		feigns: acting(a > b ? "treated" : "control", "more uptake"),
		...told,
		...(change.is === "value"
			? {
					harmless: {
						above: change.value / partOfMargin,
						by: "a plateau shown",
					},
				}
			: {}),
	};
}
