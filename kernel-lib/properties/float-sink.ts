import {
	type Checked,
	minus,
	type NotKnown,
	named,
	notKnown,
	type Problem,
	per,
	plus,
	problem,
	type Quantity,
	quoted,
	type Table,
	table,
	throwProblems,
	valueOrThrow,
} from "../quantity";
import { surelyAboveZero } from "./weighings";

/** What floated and what sank in one liquid, both rinsed and dried before weighing. */
export interface FloatSinkSplit {
	readonly liquid: string;
	readonly liquidDensity: Quantity<"density">;
	readonly floated: Quantity<"mass">;
	readonly sunk: Quantity<"mass">;
}

/** A part of the char and the limits that it sets on the density of its grains. */
export interface DensityWindow {
	readonly part: string;
	readonly share: Quantity<"ratio">;
	/** The grains are denser than this; not stated for what floated in the lightest liquid. */
	readonly above: DensityLimit;
	/** The grains are lighter than this; not stated for what sank in the heaviest liquid. */
	readonly below: DensityLimit;
}

export type DensityLimit =
	| { readonly is: "limit"; readonly density: Quantity<"density"> }
	| NotKnown;

export function checkFloatedShare(
	s: FloatSinkSplit,
): Checked<Quantity<"ratio">> {
	const both = plus(s.floated, s.sunk);
	if (!surelyAboveZero(both))
		return {
			ok: false,
			problems: [
				problem(
					"no-sample",
					{ column: "floated" },
					`${both} floated and sunk together`,
					"a mass above 0",
					"Dry and weigh both parts; write 0 for a part that was not there.",
				),
			],
		};
	return {
		ok: true,
		value: named(
			per(s.floated, both).to("%"),
			"F",
			`share that floats at ${s.liquidDensity.in("g/mL")} g/mL`,
		),
	};
}

/** Part by dry mass that floats. */
export function floatedShare(split: FloatSinkSplit): Quantity<"ratio"> {
	return valueOrThrow(checkFloatedShare(split));
}

/** Two splits of one char of which the one in the denser liquid floats surely less. */
function fallProblems(
	lighter: FloatSinkSplit,
	denser: FloatSinkSplit,
): Problem[] {
	const [less, more] = [floatedShare(lighter), floatedShare(denser)];
	return surelyAboveZero(minus(less, more))
		? [
				problem(
					"floats-less-in-denser",
					{},
					`${more} floating at ${denser.liquidDensity}, ${less} at ${lighter.liquidDensity}`,
					"no less floating in the denser liquid",
					"The portions differ, air left the grains between the two, or the liquids were mixed up. Split fresh portions that were soaked alike.",
				),
			]
		: [];
}

/**
 * Density windows of the grains from splits of the same char in liquids of known density, each split of a fresh portion. What floats in a liquid has an apparent grain density (pores
 * included, as far as the liquid did not fill them) below the liquid's; what sinks, above. Two liquids shut the grains between them into a window.
 *
 * @param splits in any order; at least one
 * @throws ProblemError for a split without mass, or where a denser liquid floats surely less than a lighter one
 */
export function densityWindows(
	splits: readonly FloatSinkSplit[],
): readonly DensityWindow[] {
	if (splits.length === 0)
		throw new Error("Density windows need at least one split.");
	const sorted = [...splits].sort(
		(a, b) => a.liquidDensity.in("g/mL") - b.liquidDensity.in("g/mL"),
	);
	const shares = sorted.map(floatedShare);
	throwProblems(sorted.slice(1).flatMap((s, i) => fallProblems(sorted[i], s)));
	const limit = (s: FloatSinkSplit): DensityLimit => ({
		is: "limit",
		density: s.liquidDensity,
	});
	const last = sorted.length - 1;
	return [
		{
			part: `floats in ${sorted[0].liquid}`,
			share: shares[0],
			above: notKnown("no lighter liquid was tried"),
			below: limit(sorted[0]),
		},
		...sorted.slice(1).map((s, i) => ({
			part: `sinks in ${sorted[i].liquid}, floats in ${s.liquid}`,
			share: named(
				minus(shares[i + 1], shares[i]),
				"f",
				`share between ${sorted[i].liquidDensity.in("g/mL")} and ${s.liquidDensity.in("g/mL")} g/mL`,
			),
			above: limit(sorted[i]),
			below: limit(s),
		})),
		{
			part: `sinks in ${sorted[last].liquid}`,
			share: named(
				per(
					sorted[last].sunk,
					plus(sorted[last].floated, sorted[last].sunk),
				).to("%"),
				"f",
				`share that sinks at ${sorted[last].liquidDensity.in("g/mL")} g/mL`,
			),
			above: limit(sorted[last]),
			below: notKnown("no denser liquid was tried"),
		},
	];
}

const text = (l: DensityLimit): string =>
	l.is === "not known" ? "" : `${l.density.in("g/mL")}`;

/** The density windows of one char, a row each. */
export function densityWindowTable(
	sample: string,
	windows: readonly DensityWindow[],
): Table {
	return table(
		`Density of the grains: ${quoted(sample)}`,
		["part", "share (%)", "denser than (g/mL)", "lighter than (g/mL)"],
		windows.map((w) => [w.part, w.share, text(w.above), text(w.below)]),
		[
			"Apparent density of the grains in that liquid, pores and caught air included; not the density of the bed, and not the same in a liquid that fills the pores better.",
		],
	);
}
