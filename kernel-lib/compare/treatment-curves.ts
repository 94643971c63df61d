import type { Isotherm, IsothermFit } from "../isotherms";
import type { FlaskUptake } from "../uptake";
import {
	type CurveEstimate,
	type CurveOrNot,
	carriesCurve,
	curveEstimate,
	type FactorOf,
	type Fitter,
} from "./curve-estimate";
import {
	type DayFactor,
	divisorFor,
	type Estimates,
	freedOfDays,
} from "./day-effects";
import {
	chooseIsotherm,
	type IsothermChoice,
	withOtherIsotherms,
} from "./isotherm-choice";
import type { Obstacle } from "./obstacle";
import { undeterminedObstacle } from "./residue-obstacles";
import type { SpreadRule } from "./settings";
import { overSoaks } from "./soak-estimates";
import { type CurveGroup, curveGroupsOf } from "./soak-groups";
import type { Spread } from "./spread";
import type { VerdictScope } from "./verdict";

/** What the curves of all treatments give at the stated residue, and what that is about. */
export interface TreatmentCurves {
	readonly choice: IsothermChoice;
	readonly curves: ReadonlyMap<string, CurveOrNot>;
	readonly scope: Extract<VerdictScope, "treatment" | "these lots">;
	/** Whether soaks with curves of their own are what counts. */
	readonly bySoak: boolean;
	/** How far such soaks lie apart. */
	readonly soakSpread: Spread;
	/** What the days multiplied all uptakes by; empty where no treatment stood on several days, or none is recorded. */
	readonly days: readonly DayFactor[];
}

type Read =
	| { readonly ok: true; readonly estimates: readonly CurveEstimate[] }
	| { readonly ok: false; readonly obstacle: Obstacle };

interface ReadAll {
	readonly choice: IsothermChoice;
	readonly found: ReadonlyMap<string, Read>;
}

type Groups = ReadonlyMap<string, readonly CurveGroup[]>;

function readGroups(
	groups: readonly CurveGroup[],
	choice: IsothermChoice,
	residue: number,
	fitOf: (isotherm: Isotherm, group: CurveGroup) => IsothermFit,
): Read {
	const estimates: CurveEstimate[] = [];
	for (const group of groups) {
		const carries = carriesCurve(group, residue);
		if (!carries.ok) return carries;
		const curve = curveEstimate(fitOf(choice.isotherm, group), residue);
		if (curve.is === "none") return { ok: false, obstacle: curve.obstacle };
		estimates.push(
			withOtherIsotherms(curve.estimate, choice, group, residue, fitOf),
		);
	}
	return { ok: true, estimates };
}

/** The curves of all treatments, of flasks whose uptakes are freed of a factor each. */
function readAll(
	groups: Groups,
	isotherms: readonly Isotherm[],
	residue: number,
	fitter: Fitter,
	factorOf: FactorOf,
): ReadAll {
	const fitOf = (isotherm: Isotherm, group: CurveGroup): IsothermFit =>
		fitter(isotherm, group, factorOf);
	const choice = chooseIsotherm(
		isotherms,
		[...groups.values()]
			.flat()
			.filter((group) => carriesCurve(group, residue).ok),
		fitOf,
	);
	return {
		choice,
		found: new Map(
			[...groups].map(([t, own]) => [
				t,
				readGroups(own, choice, residue, fitOf),
			]),
		),
	};
}

const estimatesOf = ({ found }: ReadAll): Estimates =>
	new Map([...found].flatMap(([t, r]) => (r.ok ? [[t, r.estimates]] : [])));

/** Every flask with a soak of its own: then the scatter about the curve holds what differs from soak to soak. */
function everyFlaskItsOwnSoak(flasks: readonly FlaskUptake[]): boolean {
	return new Set(flasks.map((u) => u.flask.soak)).size === flasks.length;
}

/**
 * The curves freed of their days. The factors are found to first order: the curves are fitted as the flasks stand, then again to the uptakes without what the first fit said of the days, and what is left of the factors is so small that
 * its square does not count.
 */
function readFreeOfDays(
	groups: Groups,
	isotherms: readonly Isotherm[],
	{ residue, spread: rule }: { residue: number; spread: SpreadRule },
	fitter: Fitter,
) {
	const asMeasured = readAll(groups, isotherms, residue, fitter, () => 1);
	const first = freedOfDays(estimatesOf(asMeasured), residue, rule);
	if (first.factors.length === 0)
		return { ...asMeasured, ...first, days: first.factors };
	const divisors = new Map(
		first.factors.map((f) => [f.day, divisorFor(f.factor)]),
	);
	const factorOf: FactorOf = (u) => divisors.get(u.flask.day) ?? 1;
	const again = readAll(groups, isotherms, residue, fitter, factorOf);
	const second = freedOfDays(estimatesOf(again), residue, rule);
	return {
		...again,
		...second,
		days: second.factors.map(({ day, factor }) => ({
			day,
			factor: factor * (divisors.get(day) ?? 1),
		})),
	};
}

/** Uptakes at the stated residue: of one curve a treatment, or as the mean over the curves of its soaks. */
export function treatmentCurves(
	treatments: readonly string[],
	uptakes: readonly FlaskUptake[],
	isotherms: readonly Isotherm[],
	settings: { residue: number; spread: SpreadRule },
	fitter: Fitter,
): TreatmentCurves {
	const flasksOf = (treatment: string): FlaskUptake[] =>
		uptakes.filter((u) => u.flask.treatment === treatment);
	const groups = new Map(
		treatments.map((t) => [t, curveGroupsOf(t, flasksOf(t))]),
	);
	const { choice, found, estimates, soakSpread, days } = readFreeOfDays(
		groups,
		isotherms,
		settings,
		fitter,
	);
	const bySoak = soakSpread.degreesOfFreedom > 0;
	const carrying = treatments.filter((t) => found.get(t)?.ok === true);
	const ownSoaks = (t: string): boolean => everyFlaskItsOwnSoak(flasksOf(t));
	const curves = new Map(
		[...found].map(([treatment, r]): [string, CurveOrNot] => [
			treatment,
			r.ok
				? overCurves(
						treatment,
						estimates.get(treatment) ?? [],
						soakSpread,
						!bySoak || ownSoaks(treatment),
					)
				: { is: "none", obstacle: r.obstacle },
		]),
	);
	return {
		choice,
		curves,
		bySoak,
		soakSpread,
		days,
		scope:
			carrying.length > 0 && (bySoak || carrying.every(ownSoaks))
				? "treatment"
				: "these lots",
	};
}

/** @param alone whether a single curve stands for its treatment by the scatter about it */
function overCurves(
	treatment: string,
	estimates: readonly CurveEstimate[],
	soakSpread: Spread,
	alone: boolean,
): CurveOrNot {
	if (estimates.length === 1 && alone)
		return { is: "estimate", estimate: estimates[0] };
	return soakSpread.degreesOfFreedom > 0
		? {
				is: "estimate",
				estimate: overSoaks(treatment, estimates, soakSpread),
			}
		: {
				is: "none",
				obstacle: undeterminedObstacle(
					estimates[0].fits[0],
					"its soaks differ by their days, and what these leave is too little to judge by how far soaks lie apart",
				),
			};
}
