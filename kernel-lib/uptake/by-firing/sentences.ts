import { type FiringYields, yieldSentence } from "../../activation";
import { firingKey } from "../../bench";
import { expandedText, grouped, meanOf, type Quantity } from "../../quantity";
import type { FiringUptake } from "./link";
import { firingName } from "./tables";
import { unlinkedSentences } from "./unlinked";

/** Flasks whose residues lie further apart than this, highest over lowest, are not averaged: uptake changes with the residue (a choice of this library, no source). */
const residuesAlike = 1.2;

function rangeOf(values: readonly number[]): string {
	const [low, high] = [Math.min(...values), Math.max(...values)].map((v) =>
		String(Number(v.toPrecision(3))),
	);
	return low === high ? low : `${low} to ${high}`;
}

/** Mean of flasks with its 95 % interval; the range where one of them is a limit, or where they stand at unlike residues. */
function meanText(
	measured: readonly {
		readonly is: string;
		readonly quantity: Quantity<"uptake">;
	}[],
	alike: boolean,
): string {
	const bounded = measured.filter((m) => m.is !== "value");
	if (bounded.length === 0 && alike)
		return expandedText(meanOf(measured.map((m) => m.quantity.to("mg/g"))));
	const range = `${rangeOf(measured.map((m) => m.quantity.in("mg/g")))} mg/g`;
	if (bounded.length === 0)
		return `${range}, not averaged at residues so unlike`;
	const limits = [...grouped(bounded, (m) => m.is)].map(
		([is, own]) => `${own.length} of ${measured.length} only ${is}`,
	);
	return `${range} (${limits.join(", ")})`;
}

/** What the flasks of one firing, treatment and soak took up. */
function groupWords(own: readonly FiringUptake[]): string {
	const [{ firing, flask, probe }] = own;
	const residues = own.map((u) => u.residue.quantity.in("mg/L"));
	const alike = Math.max(...residues) <= residuesAlike * Math.min(...residues);
	const capacities = own.flatMap(({ perFeedstock }) =>
		perFeedstock.is === "not known" ? [] : [perFeedstock],
	);
	const unbalanced = firing.is === "linked" ? firing.unbalanced : [];
	const feedstock =
		capacities.length < own.length
			? ""
			: `; per gram of dry feedstock ${meanText(capacities, alike)}${unbalanced.length === 0 ? "" : `, on a balance that does not close${unbalanced.join() === firingName(own[0]) ? "" : ` (${unbalanced.join(", ")})`}`}`;
	const soak =
		firing.is === "linked" &&
		firing.linkedBy === "char batch" &&
		flask.soak !== ""
			? `, firing taken from the char batch, as the soak "${flask.soak}" is no firing`
			: "";
	return `${own.length} flask${own.length === 1 ? "" : "s"}${soak}: ${meanText(
		own.map((u) => u.uptake),
		alike,
	)} of ${probe} at a residue of ${rangeOf(residues)} mg/L${feedstock}`;
}

/** What the flasks of a firing took up, a text for each treatment and soak: these are never averaged with one another. */
function firingWords(own: readonly FiringUptake[]): string[] {
	const groups = grouped(own, ({ flask }) =>
		JSON.stringify([flask.treatment, firingKey(flask.soak)]),
	);
	return [...groups.values()].map((group) =>
		groups.size === 1
			? groupWords(group)
			: `"${group[0].flask.treatment}", ${groupWords(group)}`,
	);
}

/**
 * One sentence for each firing, treatment and soak: what the flasks took up, at which residue, and what that is per gram of dry feedstock, with half of a 95 % interval after the ±. Means carry the
 * measuring uncertainty, correlations included; how much another firing would differ they do not show. Flasks at unlike residues are not averaged. Flasks without a firing come last, with the reason.
 */
export function uptakeSentences(uptakes: readonly FiringUptake[]): string[] {
	const byFiring = grouped(
		uptakes.filter((u) => u.firing.is === "linked"),
		firingName,
	);
	return [
		...[...byFiring].flatMap(([name, own]) =>
			firingWords(own).map((words) => `${name}: ${words}.`),
		),
		...unlinkedSentences(uptakes),
	];
}

/** The whole answer, a line a firing: yield and burn-off, then what its flasks took up; then flasks without a firing, and what the ± is. */
export function answerOf(
	yields: readonly FiringYields[],
	uptakes: readonly FiringUptake[],
): string[] {
	return [
		...yields.map((own) =>
			[
				yieldSentence(own),
				...firingWords(
					uptakes.filter((u) => firingName(u) === own.firing.name),
				).map((words) => `${words}.`),
			].join(" "),
		),
		...unlinkedSentences(uptakes),
		"After each ± stands half of the 95 % interval of the measuring error; another firing may differ by more.",
	];
}
