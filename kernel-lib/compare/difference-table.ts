import { decimalsFor, fixed, quoted, type Table, table } from "../quantity";
import type { Observation } from "./observations";
import {
	firstReckoning,
	type Reckoning,
	reachOf,
	standardErrorOf,
	weighedFlasks,
} from "./reckoning";
import type { TreatmentVerdict } from "./verdict";

type Row = readonly [
	what: string,
	treatment: string,
	weight: string,
	mgPerG: string,
];

const weightText = (weight: number): string => fixed(weight, 4);

function weighedRows(
	r: Reckoning,
	{ treatment, control }: Pick<TreatmentVerdict, "treatment" | "control">,
	list: readonly Observation[],
	text: (x: number) => string,
): Row[] {
	if (r.weighed.is === "isotherms")
		return [
			["isotherm", treatment, weightText(1), text(r.weighed.treated.uptake)],
			["isotherm", control, weightText(-1), text(r.weighed.control.uptake)],
		];
	return weighedFlasks(r, list).map(({ observation: o, weight, value }) => [
		`flask ${o.name}`,
		o.treatment,
		weightText(weight),
		text(value),
	]);
}

/** An end, and what it was reckoned from. */
function endRows(
	name: string,
	sign: 1 | -1,
	r: Reckoning,
	room: number,
	text: (x: number) => string,
): Row[] {
	return [
		[`difference where the ${name} end lies`, "", "", text(r.estimate)],
		["its standard error", "", "", text(standardErrorOf(r))],
		["critical value", "", weightText(r.criticalValue), ""],
		...(r.ofLimits > 0
			? [
					[
						"room for limits in the sum (k = 2)",
						"",
						"",
						text(r.ofLimits),
					] as Row,
				]
			: []),
		...(room > 0 ? [["room for soak remains", "", "", text(room)] as Row] : []),
		[`${name} end`, "", "", text(r.estimate + sign * (reachOf(r) + room))],
	];
}

/** How the difference of a verdict was had: what was weighed, and what its ends are made of. No rows where there is no difference. */
export function differenceTable(
	verdict: Pick<
		TreatmentVerdict,
		"treatment" | "control" | "reckoned" | "soakAllowance"
	>,
	list: readonly Observation[],
): Table {
	const { reckoned, soakAllowance: room } = verdict;
	const title = `How the difference of ${quoted(verdict.treatment)} from ${quoted(verdict.control)} was had`;
	const columns = ["what", "treatment", "weight", "uptake (mg/g)"];
	if (reckoned.is === "nothing") return table(title, columns, []);
	const first = firstReckoning(reckoned);
	const places = Math.max(1, decimalsFor(standardErrorOf(first)));
	const text = (x: number): string => fixed(x, places);
	const lower = (r: Reckoning): Row[] =>
		endRows("lower", -1, r, room.low, text);
	const upper = (r: Reckoning): Row[] =>
		endRows("upper", 1, r, room.high, text);
	const ends =
		reckoned.is === "interval"
			? [...lower(reckoned.low), ...upper(reckoned.high)]
			: reckoned.is === "at least"
				? lower(reckoned.limit)
				: upper(reckoned.limit);
	return table(
		title,
		columns,
		[
			...weighedRows(first, verdict, list, text),
			["difference", "", "", text(first.estimate)],
			...ends,
		],
		[
			"The difference is the sum of weight times uptake at the residue of the comparison.",
		],
	);
}
