import { step, type Trial } from "../bench";
import { listed, quoted, type Table, table } from "../quantity";
import type { AmmoniaNamed } from "../substances";
import {
	ammoniaInAny,
	type FlaskUptake,
	jointAmmonia,
	safeToDose,
	uptakes,
} from "../uptake";
import { type Pair, pairsOf } from "./pairs";
import { curveGroupsOf } from "./soak-groups";
import { residueText } from "./stated-residue";

/** Residues count as different from this ratio on, and only beyond the measuring uncertainty (k = 2) of their difference. Our decision. */
const apart = 1.25;
/** Clearly different residues that an isotherm needs: two parameters and two more, which show how far points lie off it. Our decision. */
const fewestLevels = 4;
/** Ratio of the largest residue to the smallest that an isotherm needs. Our decision. */
const leastSpan = 3;

/** What the flasks of one treatment offer to an isotherm. */
export interface DosesOfTreatment {
	readonly treatment: string;
	readonly flasks: number;
	/** Flasks whose residue could be read; the others ran dry and are bounds. */
	readonly read: number;
	/** How many clearly different residues they show. */
	readonly levels: number;
	/** Smallest and largest residue that was read, mg/L; 0 where none was. */
	readonly low: number;
	readonly high: number;
	readonly enough: boolean;
	/** Whether iodine would meet ammonia in its flasks: then nothing advises to dose them. */
	readonly ammonia: AmmoniaNamed;
	/** Why, in words. */
	readonly because: string;
}

/** Whether a run can be compared at a stated residue, and why or why not. */
export interface SeveralDoses {
	/** At least one treatment and its control carry an isotherm over a common range of residues. */
	readonly holds: boolean;
	readonly because: string;
	readonly treatments: readonly DosesOfTreatment[];
	/** Residues that every treatment with an isotherm reached, mg/L, and their middle on the logarithmic scale, in two digits; all 0 where there are none. The uptakes play no part in it. */
	readonly common: {
		readonly low: number;
		readonly high: number;
		readonly middle: number;
	};
	readonly table: Table;
}

interface Reading {
	readonly value: number;
	readonly uncertainty: number;
}

/** What the flasks of a treatment offer: where soaks have curves of their own, what the poorest of them does, over the residues that all of them reached. */
export function dosesOfTreatment(
	treatment: string,
	flasks: readonly FlaskUptake[],
): DosesOfTreatment {
	const groups = curveGroupsOf(treatment, flasks).map((g) => ({
		...g,
		doses: dosesOfCurve(g.name, g.flasks),
	}));
	if (groups.length === 1) return groups[0].doses;
	const poorest = groups.reduce((a, b) =>
		(a.doses.enough && !b.doses.enough) || b.doses.levels < a.doses.levels
			? b
			: a,
	);
	const low = Math.max(...groups.map((g) => g.doses.low));
	const high = Math.min(...groups.map((g) => g.doses.high));
	const all = groups.every((g) => g.doses.enough);
	return {
		...poorest.doses,
		treatment,
		flasks: flasks.length,
		ammonia: ammoniaInAny(flasks),
		read: groups.reduce((sum, g) => sum + g.doses.read, 0),
		low,
		high,
		enough: all && high > low,
		because: all
			? high > low
				? `${groups.length} soaks with a curve each, ${poorest.doses.because}`
				: "the residues of its soaks do not overlap"
			: `${quoted(poorest.name)}: ${poorest.doses.because}; where soaks have several flasks, each soak takes a curve of its own`,
	};
}

/** Flasks of one curve at clearly different residues. */
export function dosesOfCurve(
	treatment: string,
	flasks: readonly FlaskUptake[],
): DosesOfTreatment {
	const readings = flasks
		.filter((u) => u.residue.is === "value")
		.map((u): Reading => {
			const c = u.residue.quantity.to("mg/L");
			return { value: c.value, uncertainty: c.standardUncertainty };
		})
		.sort((a, b) => a.value - b.value);
	const levels = levelsOf(readings);
	const low = readings[0]?.value ?? 0;
	const high = readings.at(-1)?.value ?? 0;
	const frame = {
		treatment,
		flasks: flasks.length,
		read: readings.length,
		levels,
		low,
		high,
		ammonia: ammoniaInAny(flasks),
	};
	const no = (because: string): DosesOfTreatment => ({
		...frame,
		enough: false,
		because,
	});
	if (levels < fewestLevels)
		return no(
			`${levels} clearly different ${levels === 1 ? "residue" : "residues"}; an isotherm takes ${fewestLevels} or more, each at least ${apart} times the next`,
		);
	if (high < leastSpan * Math.max(low, 0))
		return no(
			`the residues span a factor of ${Number((high / low).toPrecision(2))} only; an isotherm takes ${leastSpan} or more`,
		);
	return {
		...frame,
		enough: true,
		because: `${levels} clearly different residues from ${residueText(low)} to ${residueText(high)}`,
	};
}

function levelsOf(sorted: readonly Reading[]): number {
	let levels = 0;
	let last: Reading = { value: Number.NEGATIVE_INFINITY, uncertainty: 0 };
	for (const r of sorted) {
		const seen = 2 * Math.hypot(r.uncertainty, last.uncertainty);
		if (
			levels > 0 &&
			(r.value < apart * last.value || r.value - last.value <= seen)
		)
			continue;
		levels += 1;
		last = r;
	}
	return levels;
}

/**
 * Says whether a trial has several doses, so that treatments can be compared at a stated residue: flasks of a treatment and of its control at four or more clearly different residues each,
 * which overlap. A trial with one dose, repeated, has not. Flasks that a deviation leaves out do not count. Residues in mg/L.
 *
 * @throws ProblemError as `uptake.uptakes` does
 * @example
 * compare.severalDoses(trial).holds // => false
 */
export const severalDoses: (trial: Trial) => SeveralDoses = step((trial) =>
	dosesOf(uptakes(trial)),
);

/** The same for a list of uptakes. */
export function dosesOf(uptakes: readonly FlaskUptake[]): SeveralDoses {
	const { treatments, pairs } = pairsOf(uptakes);
	const doses = treatments.map((t) =>
		dosesOfTreatment(
			t,
			uptakes.filter((u) => u.flask.treatment === t),
		),
	);
	const carries = new Set(
		doses.filter((d) => d.enough).map((d) => d.treatment),
	);
	const usable = pairs.filter(
		(p) => carries.has(p.treatment) && carries.has(p.control),
	);
	const members = new Set(usable.flatMap((p) => [p.treatment, p.control]));
	const taking = doses.filter((d) => members.has(d.treatment));
	const low = Math.max(0, ...taking.map((d) => d.low));
	const high = Math.min(...taking.map((d) => d.high));
	const overlap = usable.length > 0 && high > low;
	return {
		holds: overlap,
		because: reason(usable, pairs, doses, overlap),
		treatments: doses,
		common: overlap
			? { low, high, middle: middleOf(low, high) }
			: { low: 0, high: 0, middle: 0 },
		table: table(
			"Doses and residues of each treatment",
			[
				"treatment",
				"flasks",
				"residues read",
				"clearly different",
				"from (mg/L)",
				"to (mg/L)",
				"enough for an isotherm",
			],
			doses.map((d) => [
				d.treatment,
				d.flasks,
				d.read,
				d.levels,
				d.read === 0 ? "" : Number(d.low.toPrecision(3)),
				d.read === 0 ? "" : Number(d.high.toPrecision(3)),
				d.enough ? "yes" : `no: ${d.because}`,
			]),
			[reason(usable, pairs, doses, overlap)],
		),
	};
}

/** The geometric middle, rounded to two digits where that stays inside. */
function middleOf(low: number, high: number): number {
	const middle = Math.sqrt(Math.max(low, high / 100) * high);
	const rounded = Number(middle.toPrecision(2));
	return rounded > low && rounded < high ? rounded : middle;
}

function reason(
	usable: readonly Pair[],
	pairs: readonly Pair[],
	doses: readonly DosesOfTreatment[],
	overlap: boolean,
): string {
	if (pairs.length === 0 || pairs.every((p) => p.control === ""))
		return "There is no treatment with a control, so that there is nothing to compare: name the control in the sheet.";
	if (usable.length === 0) {
		const short = doses.filter((d) => !d.enough);
		return `The run has not enough doses for isotherms, which take ${fewestLevels} or more clearly different residues a treatment, each at least ${apart} times the next, over a factor of ${leastSpan} (${short.map((d) => `${quoted(d.treatment)} ${d.levels}`).join(", ")}): they are compared at one residue, each flask carried there.`;
	}
	if (!overlap)
		return `The residues of the treatments do not overlap (${doses.map((d) => `${quoted(d.treatment)} ${residueText(d.low)} to ${residueText(d.high)}`).join(", ")}), so that there is none at which all could be compared. ${safeToDose(jointAmmonia(doses.map((d) => d.ammonia)), "Dose the flasks of one with more or less until they do.")}`;
	const out = pairs.filter((p) => !usable.includes(p));
	return `The run has several doses: treatments can be compared at a stated residue, on an isotherm each.${
		out.length === 0
			? ""
			: ` Not ${listed(out.map((p) => quoted(p.treatment)))}: ${out.length === 1 ? "it or its control has" : "they or their controls have"} too few doses.`
	}`;
}
