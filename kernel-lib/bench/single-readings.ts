import {
	fromBase,
	type Quantity,
	type Table,
	type TableCell,
	table,
	toBase,
	type UnitOf,
} from "../quantity";
import { isLeftOut } from "./deviations";
import type { Flask, TitrationReading, Trial } from "./trial";

const mL = (q: Quantity<"volume">): number =>
	Number(
		fromBase("volume", toBase("volume", q.value, q.unit), "mL").toPrecision(12),
	);

/** What the burette delivered, mL: end less start, refills included. */
function delivered(t: TitrationReading): number {
	if (t.is === "titre") return mL(t.titre);
	const [first] = t.refills;
	const sum =
		first === undefined
			? mL(t.end) - mL(t.start)
			: mL(first.from) - mL(t.start) + mL(t.end) - mL(first.to);
	return Number(sum.toPrecision(12));
}

function rowsOf(flask: Flask): TableCell[][] {
	const about = [flask.name, flask.contents, flask.treatment, flask.day];
	const out = (left: boolean): string =>
		left || isLeftOut(flask) ? "yes" : "no";
	const titres = flask.titrations.map((t): TableCell[] => [
		...about,
		"titre",
		t.number,
		delivered(t),
		"mL",
		out(isLeftOut(t)),
	]);
	if (!flask.readings.recorded) return titres;
	const { kind, values, marks } = flask.readings.value;
	return values.map((v, i): TableCell[] => [
		...about,
		kind,
		i + 1,
		v.in(v.unit as UnitOf<typeof v.kind>),
		v.unit === "1" || v.unit === "absorbance" ? "" : v.unit,
		out(marks.some((m) => m.number === i + 1 && m.handling === "leave out")),
	]);
}

/** Every single reading of a trial, a row a reading. */
export function singleReadings(trial: Trial): Table {
	return table(
		`Single readings of ${trial.file}`,
		[
			"flask",
			"contents",
			"treatment",
			"day",
			"reading",
			"number",
			"value",
			"unit",
			"left out",
		],
		trial.flasks.flatMap(rowsOf),
	);
}
