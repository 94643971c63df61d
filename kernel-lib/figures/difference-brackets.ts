import {
	type Comparison,
	differencePlaces,
	type TreatmentVerdict,
} from "../compare";
import { type IsothermFit, uptakeAt } from "../isotherms";
import { fixed, quoted } from "../quantity";
import type { Layer } from "./description";
import { signed } from "./words";

/** More differences than this would hide one another at one residue. Our decision. */
const mostBrackets = 3;

/** Brackets stand so far apart, as a share of the residues that are drawn. */
const apart = 0.02;

/** The residue at which treatments were compared, mg/L. */
export function comparedResidue({ at }: Comparison): number {
	return at.residue.in("mg/L");
}

/** "+57 mg/g", with the digits of the verdict; "" where there is no difference. */
function differenceText(verdict: TreatmentVerdict): string {
	const { difference } = verdict;
	const text = (value: number): string =>
		`${signed(fixed(value, differencePlaces(verdict)))} mg/g`;
	switch (difference.is) {
		case "estimate":
			return text(difference.estimate);
		case "at least":
		case "at most":
			return `${difference.is} ${text(difference.limit)}`;
		case "not available":
			return "";
	}
}

/** "+40 to +73", for the words alone: in the picture it would cover curves. */
function intervalText(verdict: TreatmentVerdict): string {
	const { difference } = verdict;
	const text = (value: number): string =>
		signed(fixed(value, differencePlaces(verdict)));
	return difference.is === "estimate"
		? ` (${text(difference.low)} to ${text(difference.high)})`
		: "";
}

/** Verdicts whose two curves are both drawn, with what the curves say at the residue. */
function drawable(
	{ verdicts }: Comparison,
	fits: readonly IsothermFit[],
	residue: number,
): { verdict: TreatmentVerdict; control: number; treatment: number }[] {
	const at = (name: string): number[] =>
		fits
			.filter((f) => f.points.name === name)
			.slice(0, 1)
			.map((f) => uptakeAt(f.isotherm, f.theta, residue));
	return verdicts.flatMap((verdict) =>
		at(verdict.control).flatMap((control) =>
			at(verdict.treatment).flatMap((treatment) =>
				differenceText(verdict) === "" ? [] : [{ verdict, control, treatment }],
			),
		),
	);
}

/** From the control's curve to that of each treatment, where they were compared, with the difference of the verdict beside it. */
export function bracketLayers(
	comparison: Comparison,
	fits: readonly IsothermFit[],
	widest: number,
): Layer[] {
	const residue = comparedResidue(comparison);
	const shown = drawable(comparison, fits, residue);
	if (shown.length === 0 || shown.length > mostBrackets) return [];
	const cap = (apart / 3) * widest;
	const placed = shown.map((s, i) => ({
		...s,
		x: residue + i * apart * widest,
	}));
	return [
		...placed.map(
			({ x, control, treatment }): Layer => ({
				is: "line",
				name: "",
				ink: "text",
				dash: "solid",
				points: [
					{ x: x - cap, y: control },
					{ x: x + cap, y: control },
					{ x, y: control },
					{ x, y: treatment },
					{ x: x - cap, y: treatment },
					{ x: x + cap, y: treatment },
				],
			}),
		),
		{
			is: "labels",
			labels: placed.map(({ verdict, x, control, treatment }) => ({
				x: x + cap,
				y: (control + treatment) / 2,
				text:
					placed.length === 1
						? differenceText(verdict)
						: `${verdict.treatment} ${differenceText(verdict)}`,
			})),
		},
	];
}

/** The differences in a sentence each, for those who do not see them. */
export function differencesInWords({ verdicts }: Comparison): string {
	return verdicts
		.map((v) => {
			const text = differenceText(v);
			return ` ${quoted(v.treatment)} against ${quoted(v.control)}: ${text === "" ? "no difference can be given" : `${text}${intervalText(v)}`}.`;
		})
		.join("");
}
