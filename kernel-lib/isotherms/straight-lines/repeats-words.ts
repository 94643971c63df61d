import { fixed, type Table, table } from "../../quantity";
import { confidenceText } from "../intervals";
import type { RepeatedWay, Repeats } from "./repeated-ways";

/** One row for each way: what it is off by on average, how widely it scatters, and how often its interval held the truth. */
export function repeatsTable(repeats: Repeats): Table {
	const { truth, trials, flasks, ways } = repeats;
	const confidence = confidenceText(repeats.confidence);
	return table(
		`${trials} repeats ${flasks}; true q_max ${truth.plateau} mg/g`,
		[
			"way",
			"median q_max (mg/g)",
			"off the truth",
			`middle ${confidence} of the trials (mg/g)`,
			`its ${confidence} interval held the truth in`,
		],
		ways.map((w) => [
			w.name,
			fixed(w.median, 1),
			offText(w, truth.plateau),
			`${fixed(w.low, 0)} to ${fixed(w.high, 0)}`,
			heldText(w),
		]),
	);
}

function heldText({ covered }: RepeatedWay): string {
	return `${Math.round(100 * covered)} %`;
}

function offText({ median }: RepeatedWay, truth: number): string {
	const share = median / truth - 1;
	const text = Math.abs(100 * share).toFixed(1);
	return text === "0.0" ? "0.0 %" : `${share < 0 ? "−" : "+"}${text} %`;
}
