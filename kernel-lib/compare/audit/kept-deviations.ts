import type { Trial } from "../../bench";
import { listed, quoted } from "../../quantity";
import type { Observation } from "../observations";
import type { Looked, Sides } from "./sides";

/** As the sheet says that they are handled, also where a comparison tries the other way. */
function keptMarks(
	side: readonly Observation[],
	{ flasks }: Trial,
): readonly string[][] {
	const marks = new Map(flasks.map((f) => [f.name, f.marks]));
	return side.map((o) =>
		(marks.get(o.name) ?? [])
			.filter((m) => m.handling === "keep")
			.map((m) => m.whatHappened),
	);
}

function textOf(marks: readonly string[][]): string {
	const touched = marks.filter((m) => m.length > 0);
	return touched.length === 0
		? "none"
		: `${listed([...new Set(touched.flat())].map(quoted))} in ${touched.length} of ${marks.length}`;
}

/** Deviations that the main result keeps. Where some flasks of a side have none, the words with and without those touched tell what they do; where all have one, nothing is left to hold them against. */
export function keptDeviations({ treated, untreated, trial }: Sides): Looked {
	const sides = [treated, untreated].map((side) => keptMarks(side, trial));
	const all = sides.map((s) => s.length > 0 && s.every((m) => m.length > 0));
	return {
		is: sides.flat(2).length > 0 ? "beyond" : "within",
		feigns: all[0] !== all[1] ? "either" : "nothing",
		treated: textOf(sides[0]),
		untreated: textOf(sides[1]),
	};
}
