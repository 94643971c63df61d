import {
	jupyterDisplay,
	plainNumber,
	type Quantity,
	type ResultKind,
	requireResults,
	type Table,
	table,
	tableHtml,
	tableText,
} from "../quantity";

/** One thing to weigh or measure out. */
export interface Portion {
	readonly what: string;
	readonly amount: Quantity<"mass"> | Quantity<"volume">;
}

/** How to make a solution: what to weigh and measure, in which order, and what to beware of. */
export interface Preparation {
	readonly solution: string;
	readonly portions: readonly Portion[];
	/** How much there is of it in the end: the volume that is filled to the mark, or the mass of all of it. */
	readonly total: Quantity<"mass"> | Quantity<"volume">;
	readonly steps: readonly string[];
	readonly cautions: readonly string[];
	/** What to weigh and measure, as one sentence for the head of a page. */
	readonly sentence: string;
}

/** An amount as one weighs or measures it: four digits. How well the recipe knows the molar mass is no matter for a balance. */
export function toMeasure({ value, unit }: Portion["amount"]): string {
	return `${plainNumber(Number(value.toPrecision(4)))} ${unit}`;
}

/** How much there is of it: "made up to 1000 mL"; "500 g in all". */
export function totalText(total: Preparation["total"]): string {
	return total.kind === "volume"
		? `made up to ${toMeasure(total)}`
		: `${toMeasure(total)} in all`;
}

function sentenceOf({
	solution,
	portions,
	total,
}: Omit<Preparation, "sentence">): string {
	return `${solution}: ${portions.map(({ what, amount }) => `${toMeasure(amount)} of ${what}`).join(", ")}, ${totalText(total)}.`;
}

/** A preparation that a notebook shows as its weighing list. */
export function preparation(parts: Omit<Preparation, "sentence">): Preparation {
	const complete = {
		...parts,
		sentence: sentenceOf(parts),
	};
	const shown = weighingList([complete]);
	return Object.assign(complete, {
		[jupyterDisplay]: () => ({
			"text/html": tableHtml(shown),
			"text/plain": tableText(shown),
		}),
		[Symbol.for("nodejs.util.inspect.custom")]: () => tableText(shown),
	});
}

export const preparationKind: ResultKind = {
	parts: ["solution", "portions", "total", "steps", "cautions"],
	expected: "a preparation, such as solutions.makeUp(...) returns",
};

/**
 * Everything to weigh and measure for a list of solutions, with steps and cautions as notes; each caution stands once.
 * @example
 * const volume = quantity.input("volume", 500, "mL", quantity.exact, {});
 * const strength = quantity.input("massConcentration", 100, "g/L", quantity.exact, {});
 * solutions.weighingList([solutions.makeUp("NaCl", strength, volume)]).rows // => [["100 g/L NaCl", "NaCl", "50 g", "made up to 500 mL"]]
 */
export function weighingList(preparations: readonly Preparation[]): Table {
	requireResults(preparations, preparationKind, "weighingList");
	const cautions = [...new Set(preparations.flatMap((p) => p.cautions))];
	return table(
		"Weighing list",
		["solution", "weigh or measure", "amount", "how much of it"],
		preparations.flatMap((p) =>
			p.portions.map(({ what, amount }, i) => [
				i === 0 ? p.solution : "",
				what,
				toMeasure(amount),
				i === 0 ? totalText(p.total) : "",
			]),
		),
		[
			...preparations.map((p) => `${p.solution}: ${p.steps.join(" ")}`),
			...cautions,
		],
	);
}
