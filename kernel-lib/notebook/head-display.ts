/** The head as the first output of a notebook: filled as results are reported, and told out of date as soon as a cell is run again. */
import { randomUUID } from "node:crypto";
import type { ResultInNotebook } from "./extract";
import { type HeadState, headBundle } from "./head-forms";
import { displayOfRunningKernel } from "./kernel/tslab";

/** A cell that the kernel runs. */
export interface RunningCell {
	/** Its number. */
	readonly count: number;
	/** As the front end knows it; "" where it does not say. */
	readonly id: string;
	readonly code: string;
}

/** A head on show. */
interface Shown {
	readonly display: string;
	readonly results: ResultInNotebook[];
	/** Cells that have run since, by id, or by code where there is none. */
	readonly ran: Set<string>;
	state: HeadState;
	/** What is shown is no longer what there is to show. */
	changed: boolean;
}

let shown: Shown | null = null;
let running: RunningCell | null = null;

function show(head: Shown, update: boolean): void {
	const write = displayOfRunningKernel();
	const data = headBundle(head.results, head.state);
	if (write === null) console.log(data["text/plain"]);
	else
		write(
			{ data, metadata: {}, transient: { display_id: head.display } },
			update,
		);
	head.changed = false;
}

function turn(head: Shown, state: HeadState): void {
	head.state = state;
	head.changed = true;
}

const keyOf = ({ id, code }: RunningCell): string => (id === "" ? code : id);

/** The kernel begins a cell: one that had run before makes what is shown a thing of the past. */
export function cellBegins(cell: RunningCell): void {
	running = cell;
	if (shown === null) return;
	if (shown.ran.has(keyOf(cell)) && shown.state.is !== "out of date")
		turn(shown, { is: "out of date", cell: cell.count });
	shown.ran.add(keyOf(cell));
}

/** The kernel has ended a cell. */
export function cellEnds(ok: boolean): void {
	if (shown !== null) {
		if (!ok && shown.state.is !== "out of date")
			turn(shown, { is: "failed", cell: running?.count ?? 0 });
		if (shown.changed) show(shown, true);
	}
	running = null;
}

/** A result was reported: it takes the place of an earlier one of its name. */
export function showAtHead(reported: () => ResultInNotebook): void {
	if (shown === null || running === null) return;
	const { results, state } = shown;
	const result = reported();
	const at = results.findIndex(({ name }) => name === result.name);
	results.splice(at < 0 ? results.length : at, at < 0 ? 0 : 1, result);
	turn(
		shown,
		state.is === "empty" || state.is === "filled"
			? { is: "filled", cell: running.count }
			: state,
	);
}

/**
 * The place of the answer at the top of a notebook: what was found, with its figure, what to know before it is quoted, what to do next and the cautions, filled while the cells below report them. It says so where a cell has
 * failed or was run again, so that no old answer looks like the present one. A page has its own head and leaves this one out.
 *
 * @example
 * notebook.head()
 */
export function head(): void {
	const cell = running;
	shown = {
		display: randomUUID(),
		results: [],
		ran: new Set(cell === null ? [] : [keyOf(cell)]),
		state: { is: cell === null ? "unknown" : "empty", cell: 0 },
		changed: false,
	};
	show(shown, false);
}
