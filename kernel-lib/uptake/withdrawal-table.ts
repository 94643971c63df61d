import { isUsable, type Trial } from "../bench";
import { type Table, type TableCell, table } from "../quantity";
import { everyUptake } from "./every-uptake";
import type { FlaskUptake, UptakeAtWithdrawal } from "./flask-uptake";

const timeCell = (time: UptakeAtWithdrawal["after"]): TableCell =>
	time.recorded ? time.value.to("h") : "";

type Row = Pick<UptakeAtWithdrawal, "after" | "uptake" | "residue" | "balance">;

function rowOf({ flask }: FlaskUptake, when: string, then: Row): TableCell[] {
	const { balance } = then;
	return [
		flask.name,
		flask.treatment,
		when,
		timeCell(then.after),
		then.uptake,
		then.residue,
		balance.added,
		balance.takenUp,
		balance.left,
		balance.withdrawn,
		balance.lost,
		isUsable(flask) ? "" : "left out",
	];
}

/** What each flask that was withdrawn from had taken up at each withdrawal, and at its end. */
export function withdrawalTable(trial: Trial): Table {
	const list = everyUptake(trial).filter((u) => u.atWithdrawals.length > 0);
	const probe = trial.probe.name;
	const perGram = new Set(list.map((u) => u.perGram));
	return table(
		`Uptake of ${probe} at each withdrawal`,
		[
			"flask",
			"treatment",
			"withdrawal",
			"after (h)",
			"uptake (mg/g)",
			`at residual ${probe} (mg/L)`,
			"added (mg)",
			"taken up (mg)",
			"left (mg)",
			"withdrawn before (mg)",
			"lost (mg)",
			"remark",
		],
		list.flatMap((u) => [
			...u.atWithdrawals.map((w) => rowOf(u, String(w.number), w)),
			rowOf(u, "end", { ...u, after: u.flask.contactTime }),
		]),
		list.length === 0
			? ["Nothing was withdrawn from a flask with char."]
			: [
					"Added so far = taken up + left + withdrawn before + lost by then.",
					"Nothing shows when the losses came: by a withdrawal they are taken in proportion to the time, give or take, where the times are not recorded as anything from none to all of them; a decision of ours.",
					...(list.some((u) => u.demand.is === "measured")
						? [
								"What soak remains consumed is taken off in full at every withdrawal.",
							]
						: []),
					...(perGram.has("char as weighed")
						? ["Per gram as weighed: the char's moisture is not recorded."]
						: []),
				],
	);
}
