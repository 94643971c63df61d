import {
	fixed,
	listed,
	ProblemError,
	problem,
	quoted,
	type ResultKind,
	requireResults,
	type Table,
	table,
	throwProblems,
} from "../quantity";
import { normalQuantile } from "../stats";
import { requireAlike } from "./alike";
import type { Isotherm } from "./catalogue/index";
import { commonConfidence, confidenceText, twoSided } from "./intervals";
import { probeOf } from "./probe-words";
import {
	type IsothermRanking,
	leastWeight,
	type RankedIsotherm,
} from "./ranking";
import { type UptakeAtResidue, uptakeAtResidue } from "./uptake-at-residue";

/** Uptake averaged over the ranked isotherms. */
export interface AveragedUptake {
	/** mg/L. */
	readonly residue: number;
	/** mg/g; the values below likewise. */
	readonly uptake: number;
	/** Scatter, and that the isotherms disagree. */
	readonly scatter: number;
	/** Errors that all flasks share. */
	readonly shared: number;
	/** Both together: unconditional, for it does not take the best isotherm for the true one. */
	readonly standardError: number;
	readonly low: number;
	readonly high: number;
	readonly confidence: number;
	readonly extrapolating: boolean;
	/** Where the residue lies against the measured range, in words. */
	readonly place: string;
	/** What each isotherm gives there, with its weight among those that enter. */
	readonly from: readonly {
		readonly isotherm: Isotherm;
		readonly weight: number;
		readonly uptake: number;
	}[];
}

/**
 * The uptake at a residual concentration (mg/L), averaged over the isotherms with their Akaike weights, so that the choice of the form is in its error: q = sum w_i q_i and
 * s = sum w_i sqrt(s_i^2 + (q_i - q)^2); the limits take (t_i/z)^2 s_i^2 in place of s_i^2, for each fit has its own degrees of freedom. Shared errors move all isotherms alike and are added once.
 *
 * Sources: Burnham and Anderson 2002, section 4.3, equations 4.1 and 4.9 and the adjusted error that follows them; from memory.
 *
 * @throws ProblemError for a ranking without ranked isotherms, a residue at which one of them is not defined, or a fit without standard errors that carries weight
 */
export function averagedUptake(
	ranking: IsothermRanking,
	residue: number,
): AveragedUptake {
	const entering = ranking.ranked.filter((p) => p.weight >= leastWeight);
	throwProblems(
		entering.length > 0
			? []
			: [
					problem(
						"nothing-ranked",
						{ call: quoted(ranking.points.name) },
						"a ranking without ranked isotherms",
						"one isotherm or more that could be ranked",
						"Read ranking.notRanked for the reasons.",
					),
				],
	);
	const total = entering.reduce((s, p) => s + p.weight, 0);
	const parts = entering.map((p) => {
		const [at] = uptakeAtResidue(p.fit, residue);
		return { ...p, weight: p.weight / total, at, error: scatterOf(p, at) };
	});
	const mean = (f: (p: (typeof parts)[number]) => number): number =>
		parts.reduce((s, p) => s + p.weight * f(p), 0);
	const uptake = mean((p) => p.at.uptake);
	const confidence = parts[0].fit.confidence;
	const z = normalQuantile(0.5 + confidence / 2);
	const scatterWith = (factor: (p: (typeof parts)[number]) => number): number =>
		mean((p) => Math.hypot(factor(p) * p.error, p.at.uptake - uptake));
	const scatter = scatterWith(() => 1);
	const adjusted = scatterWith(
		(p) => twoSided(confidence, p.fit.degreesOfFreedom) / z,
	);
	const keys = new Set(parts.flatMap((p) => [...p.at.sharedEffects.keys()]));
	const shared = Math.hypot(
		...[...keys].map((key) =>
			mean((p) => p.at.sharedEffects.get(key)?.effect ?? 0),
		),
		0,
	);
	const half = z * Math.hypot(adjusted, shared);
	const { extrapolating, place } = parts[0].at;
	return {
		residue,
		uptake,
		scatter,
		shared,
		standardError: Math.hypot(scatter, shared),
		low: uptake - half,
		high: uptake + half,
		confidence,
		extrapolating,
		place,
		from: parts.map(({ isotherm, weight, at }) => ({
			isotherm,
			weight,
			uptake: at.uptake,
		})),
	};
}

function scatterOf(p: RankedIsotherm, at: UptakeAtResidue): number {
	if (at.scatter.is === "value") return at.scatter.value;
	throw new ProblemError([
		problem(
			"no-standard-error",
			{ call: `${quoted(p.fit.points.name)}, ${p.isotherm.name}` },
			at.scatter.because,
			"a fit with standard errors, for it carries weight in the average",
			"Leave this isotherm out of the candidates, or measure more points.",
		),
	]);
}

const rankingKind: ResultKind = {
	parts: ["ranked", "points", "notRanked"],
	expected: "a ranking, as isotherms.rankIsotherms(points) returns it",
};

/**
 * What the ranked isotherms say together of the uptake at a residual concentration, a row for each ranking.
 *
 * @param residue mg/L
 * @throws ProblemError as `uptakeAtResidue`, for a ranking without ranked isotherms, and for rankings of different confidence, of two probes or of two trials
 * @example
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190, 390], [51, 74.5, 90.4, 94.6, 97.6]);
 * const ranking = isotherms.rankIsotherms(points, { isotherms: [isotherms.henry, isotherms.langmuir] });
 * isotherms.averagedTable([ranking], 100).columns[3] // => "95 % interval (mg/g)"
 */
export function averagedTable(
	rankings: readonly IsothermRanking[],
	residue: number,
): Table {
	requireResults(rankings, rankingKind, "averagedTable");
	requireAlike(
		rankings.map((r) => r.points),
		"averagedTable",
	);
	const averaged = rankings.map((r) => averagedUptake(r, residue));
	// All rankings are of one probe.
	const probes = new Set(rankings.map((r) => probeOf(r.points)));
	const title = `Uptake of ${listed([...probes])} averaged over the isotherms`;
	const confidence = confidenceText(commonConfidence(averaged, title));
	return table(
		title,
		[
			"treatment",
			"residue (mg/L)",
			"uptake (mg/g)",
			`${confidence} interval (mg/g)`,
			"from",
			"the residue lies",
		],
		averaged.map((a, i) => [
			rankings[i].points.name,
			residue,
			fixed(a.uptake, 1),
			`${fixed(a.low, 1)} to ${fixed(a.high, 1)}`,
			a.from
				.map(
					(f) =>
						`${f.isotherm.name} ${f.uptake.toFixed(1)} (weight ${f.weight.toFixed(3)})`,
				)
				.join(", "),
			a.place,
		]),
	);
}
