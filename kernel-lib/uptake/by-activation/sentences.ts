import {
	activationSentence,
	type FiringYields,
	massBalance,
} from "../../activation";
import { runKey } from "../../bench";
import { expandedText, meanOf, type Quantity } from "../../quantity";
import { feedstockCapacity } from "./feedstock";
import type { ActivatedUptake } from "./link";

/** Flasks whose residues lie further apart than this, highest over lowest, are not averaged: uptake changes with the residue. Ours, no source. */
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
	return bounded.length === 0
		? `${range}, not averaged at residues so unlike`
		: `${range} (${bounded.length} of ${measured.length} only ${bounded[0].is})`;
}

/** Names of flasks, grouped by what is said of them. */
function grouped<T>(
	list: readonly T[],
	keyOf: (item: T) => string,
): Map<string, T[]> {
	const groups = new Map<string, T[]>();
	for (const item of list)
		groups.set(keyOf(item), [...(groups.get(keyOf(item)) ?? []), item]);
	return groups;
}

const flaskList = (own: readonly ActivatedUptake[]): string =>
	`${own.length === 1 ? "Flask" : "Flasks"} ${own.map((u) => u.flask.name).join(", ")}`;

/** Flasks without an activation run and why, one sentence a reason. */
export function unlinkedSentences(
	uptakes: readonly ActivatedUptake[],
): string[] {
	const reasons = grouped(
		uptakes.filter((u) => !u.activation.recorded),
		(u) => (u.activation.recorded ? "" : u.activation.because),
	);
	return [...reasons].map(
		([because, own]) =>
			`${flaskList(own)}: no activation run is known; ${because}.`,
	);
}

/** What the flasks of one run, treatment and soak took up. */
function groupWords(own: readonly ActivatedUptake[]): string {
	const [{ activation, flask, probe }] = own;
	const residues = own.map((u) => u.residue.quantity.in("mg/L"));
	const alike =
		own.length === 1 ||
		Math.max(...residues) <= residuesAlike * Math.min(...residues);
	const capacities = own.flatMap((u) => {
		const capacity = feedstockCapacity(u);
		return capacity.is === "not known" ? [] : [capacity];
	});
	const astray = activation.recorded ? activation.unbalanced : [];
	const feedstock =
		capacities.length < own.length
			? ""
			: `; per gram of dry feedstock ${meanText(capacities, alike)}${astray.length === 0 ? "" : `, on a balance that does not close${astray.join() === runOf(own[0]) ? "" : ` (${astray.join(", ")})`}`}`;
	const soak =
		activation.recorded &&
		activation.linkedBy === "char batch" &&
		flask.soak !== ""
			? `, run taken from the char batch, as the soak "${flask.soak}" is no activation run`
			: "";
	return `${own.length} flask${own.length === 1 ? "" : "s"}${soak}: ${meanText(
		own.map((u) => u.uptake),
		alike,
	)} of ${probe} at a residue of ${rangeOf(residues)} mg/L${feedstock}`;
}

/** What the flasks of a run took up, a text for each treatment and soak: these are never averaged with one another. */
function runWords(own: readonly ActivatedUptake[]): string[] {
	const groups = grouped(own, ({ flask }) =>
		JSON.stringify([flask.treatment, runKey(flask.soak)]),
	);
	return [...groups.values()].map((group) =>
		groups.size === 1
			? groupWords(group)
			: `"${group[0].flask.treatment}", ${groupWords(group)}`,
	);
}

const runOf = (u: ActivatedUptake): string =>
	u.activation.recorded ? u.activation.figures.firing.name : "";

/**
 * One sentence for each run, treatment and soak: what the flasks took up, at which residue, and what that is per gram of dry feedstock, with half of a 95 % interval after the ±. Means carry the
 * measuring uncertainty, correlations included; how much another firing would differ they do not show. Flasks at unlike residues are not averaged. Flasks without a run come last, with the reason.
 */
export function runUptakeSentences(
	uptakes: readonly ActivatedUptake[],
): string[] {
	const byRun = grouped(
		uptakes.filter((u) => u.activation.recorded),
		runOf,
	);
	return [
		...[...byRun].flatMap(([run, own]) =>
			runWords(own).map((words) => `${run}: ${words}.`),
		),
		...unlinkedSentences(uptakes),
	];
}

/** The whole answer, a line a run: yield and burn-off, then what its flasks took up; then flasks without a run, and what the ± is. */
export function activationAnswer(
	runs: readonly FiringYields[],
	uptakes: readonly ActivatedUptake[],
): string[] {
	return [
		...runs.map((figures) =>
			[
				activationSentence(figures, massBalance(figures.firing)),
				...runWords(
					uptakes.filter((u) => runOf(u) === figures.firing.name),
				).map((words) => `${words}.`),
			].join(" "),
		),
		...unlinkedSentences(uptakes),
		"After each ± stands half of the 95 % interval of the measuring error; another firing may differ by more.",
	];
}
