import { type Firing, firingDeviations, type Trial } from "../bench";
import {
	roundedPair,
	type Table,
	type TableCell,
	table,
	total,
} from "../quantity";
import type { NoBalance, StageBalance } from "./stage-balance";
import { standardUncertainties } from "./table-notes";

/** The sum, to the place that its uncertainty shows. */
function sumText(streams: StageBalance["into"]): number {
	const sum = total(streams.map((s) => s.mass)).to("g");
	return Number(roundedPair(sum.value, sum.standardUncertainty)[0]);
}

function stageRow(firing: string, s: StageBalance | NoBalance): TableCell[] {
	return s.is === "not known"
		? [firing, s.stage, "", "", "", "", `no balance: ${s.because}`]
		: [
				firing,
				s.stage,
				sumText(s.into),
				sumText(s.outOf),
				s.unaccounted.to("g"),
				Number(s.unaccountedShare.in("%").toPrecision(3)),
				s.verdict,
			];
}

/**
 * The mass balances of all firings, a row a stage; stages that a firing does not have are not there.
 */
export function massBalanceTable(
	list: readonly {
		readonly firing: Firing;
		readonly stages: readonly (StageBalance | NoBalance)[];
	}[],
	trial: Trial,
): Table {
	return table(
		"Mass balance",
		[
			"firing",
			"stage",
			"in (g)",
			"out (g)",
			"unaccounted (g)",
			"share",
			"verdict",
		],
		list.flatMap(({ firing, stages }) =>
			stages
				.filter((s) => s.is === "balance" || s.applies)
				.map((s) => stageRow(firing.name, s)),
		),
		[
			"In is out and unaccounted, exactly. Closes: every stream measured, and the unaccounted mass within its 95 % uncertainty.",
			...firingDeviations(trial),
			standardUncertainties,
		],
	);
}
