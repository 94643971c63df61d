import type { Isotherm } from "../isotherms";
import type { FlaskUptake } from "../uptake";
import {
	type CurveEstimate,
	type CurveOrNot,
	carriesCurve,
	curveEstimate,
	type Fitter,
} from "./curve-estimate";
import {
	chooseIsotherm,
	type IsothermChoice,
	withOtherIsotherms,
} from "./isotherm-choice";
import type { Obstacle } from "./obstacle";
import type { SpreadRule } from "./settings";
import { overSoaks, soakSpreadOf } from "./soak-estimates";
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
}

type Read =
	| { readonly ok: true; readonly estimates: readonly CurveEstimate[] }
	| { readonly ok: false; readonly obstacle: Obstacle };

function readGroups(
	groups: readonly CurveGroup[],
	choice: IsothermChoice,
	residue: number,
	fitOf: Fitter,
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

/** Every flask with a soak of its own: then the scatter about the curve holds what differs from soak to soak. */
function everyFlaskItsOwnSoak(flasks: readonly FlaskUptake[]): boolean {
	return new Set(flasks.map((u) => u.flask.soak)).size === flasks.length;
}

/** Uptakes at the stated residue: of one curve a treatment, or as the mean over the curves of its soaks. */
export function treatmentCurves(
	treatments: readonly string[],
	uptakes: readonly FlaskUptake[],
	isotherms: readonly Isotherm[],
	{ residue, spread: rule }: { residue: number; spread: SpreadRule },
	fitOf: Fitter,
): TreatmentCurves {
	const flasksOf = (treatment: string): FlaskUptake[] =>
		uptakes.filter((u) => u.flask.treatment === treatment);
	const groups = new Map(
		treatments.map((t) => [t, curveGroupsOf(t, flasksOf(t))]),
	);
	const choice = chooseIsotherm(
		isotherms,
		[...groups.values()]
			.flat()
			.filter((group) => carriesCurve(group, residue).ok),
		fitOf,
	);
	const found = new Map(
		[...groups].map(([t, own]) => [t, readGroups(own, choice, residue, fitOf)]),
	);
	const soakSpread = soakSpreadOf(
		new Map([...found].flatMap(([t, r]) => (r.ok ? [[t, r.estimates]] : []))),
		rule,
	);
	const bySoak = soakSpread.degreesOfFreedom > 0;
	const carrying = treatments.filter((t) => found.get(t)?.ok === true);
	const ownSoaks = (t: string): boolean => everyFlaskItsOwnSoak(flasksOf(t));
	const curves = new Map(
		[...found].map(([treatment, r]): [string, CurveOrNot] => {
			if (!r.ok) return [treatment, { is: "none", obstacle: r.obstacle }];
			const alone =
				r.estimates.length === 1 && (!bySoak || ownSoaks(treatment));
			return [
				treatment,
				{
					is: "estimate",
					estimate: alone
						? r.estimates[0]
						: overSoaks(treatment, r.estimates, soakSpread),
				},
			];
		}),
	);
	return {
		choice,
		curves,
		bySoak,
		soakSpread,
		scope:
			carrying.length > 0 && (bySoak || carrying.every(ownSoaks))
				? "treatment"
				: "these lots",
	};
}
