import {
	type ComparedAt,
	type Comparison,
	type ComparisonMethod,
	residueText,
	type Slope,
	significanceLevel,
	soaksRecorded,
} from "../compare";
import {
	effectiveDegreesOfFreedom,
	fixed,
	listed,
	plainNumber,
	quoted,
} from "../quantity";
import {
	allowanceSentences,
	demandSentences,
	deviationSentences,
	intervalSentences,
	orderSentence,
	takenSentences,
} from "./method-of-both";
import { probeCounted } from "./probe-words";
import { capital, counted, flasksNamed, roughly } from "./wording";

type Carried = Extract<ComparisonMethod, { readonly is: "carried" }>;
type At = Extract<ComparedAt, { readonly is: "carried" }>;

function unitSentence({ scope, compared }: Comparison): string {
	switch (scope) {
		case "treatment":
			return "Unit: the soak (or firing). Titrations are averaged within the flask and flasks within the soak; each soak counts once, however many flasks it has.";
		case "these lots":
			return `Unit: the flask, because ${soaksRecorded(compared) ? "too few soaks were made to see how one differs from the next" : "soaks are not recorded"}. The verdicts are about these lots of char, not about the treatments.`;
		case "measuring error only":
			return "Unit: the flask. No group is repeated, so that there is no scatter to judge by: only the measuring errors, carried through from the readings, are covered.";
	}
}

/** What the sheet leaves open of its soaks. */
function soakSentences({ scope, compared }: Comparison): string[] {
	if (scope !== "treatment") return [];
	const missing = compared.filter((o) => o.flask.flask.soak === "");
	const batches = new Map<string, Set<string>>();
	for (const { treatment, flask } of compared)
		if (flask.flask.soak !== "") {
			const key = `${flask.flask.soak} of ${quoted(treatment)}`;
			batches.set(
				key,
				(batches.get(key) ?? new Set()).add(flask.flask.charBatch),
			);
		}
	return [
		...(missing.length > 0
			? [
					`No soak is recorded for ${flasksNamed(missing.map((o) => o.name))}: within a treatment they are taken as one soak.`,
				]
			: []),
		...[...batches]
			.filter(([, found]) => found.size > 1)
			.map(
				([soak, found]) =>
					`Soak ${soak} holds char of several batches (${listed([...found].map((b) => (b === "" ? "not recorded" : quoted(b))))}) and is taken as one soak: if they were several, give them names of their own.`,
			),
	];
}

function blockSentence({ compared }: Comparison, { days }: Carried): string {
	if (days.length > 1)
		return `Days are blocks: uptake = treatment + day + scatter, by least squares (${days.map((d) => d || "day not recorded").join(", ")}); a soak whose flasks lie on several days takes the mean of theirs. Differences are adjusted for days, group means are not.`;
	return compared.some((o) => o.flask.flask.day !== "")
		? "All flasks that gave values were measured on one day, so that there are no blocks."
		: "Days are not recorded, so that a difference between days cannot be taken out.";
}

function scatterSentences({ spread, days }: Carried): string[] {
	if (spread.degreesOfFreedom === 0) return [];
	const own = [...spread.groups]
		.filter(([, g]) => g.degreesOfFreedom > 0)
		.map(
			([treatment, g]) =>
				`${quoted(treatment)} ${roughly(Math.sqrt(g.ownVariance))}, taken as ${roughly(Math.sqrt(g.variance))}`,
		);
	const pooled = [...spread.groups.values()].every((g) => g.pooledShare === 1);
	return [
		`Scatter: standard deviations between units, in mg/g. Pooled over all treatments ${roughly(spread.deviation)}, with ${counted(Number(spread.degreesOfFreedom.toPrecision(3)), "degree")} of freedom${days.length > 1 ? " (units less treatments less days, plus one)" : ""}. ${pooled ? "All treatments are taken to scatter alike, as was asked." : `Treatments need not scatter alike: each has its own, drawn to the pooled one as if that had one degree of freedom (${own.join("; ")}); the degrees of freedom of a difference follow by Satterthwaite's formula. With two soaks in a treatment that scatters more than the others no rule protects, with three not fully: simulated trials of identical chars gave a false word in up to 13 % with two soaks, and in some 5 % with three or more. These are decisions of this program.`}`,
		...(spread.fromReadings
			? [
					"The units agree better than their reading errors allow, so that the reading errors were taken for the spread.",
				]
			: []),
		"The scatter holds the independent reading errors already. Only errors that several flasks share (standardisation, blanks, calibrations) are added, with their signs: what moves treated and control alike cancels.",
	];
}

/** Said where any error of the flasks is known from few readings. */
function fewReadingsSentences({ compared }: Comparison): string[] {
	const few = compared.some(({ flask: { uptake } }) =>
		Number.isFinite(effectiveDegreesOfFreedom(uptake.quantity)),
	);
	return few
		? [
				"An error that is known from few readings (titres of one flask, blanks, standardisations that scatter more than reading them explains) counts t(0.975; n − 1)/1.96 times: 6.5 times with two readings, 2.2 times with three. So its few degrees of freedom are in every interval (a decision of this program). The scatter of iodine blanks counts twice over: in the recovery that all flasks share, and, where nothing is repeated, in what each jar lost.",
			]
		: [];
}

/** C(n, k) for small numbers. */
function combinations(n: number, k: number): number {
	let c = 1;
	for (let i = 1; i <= k; i++) c = (c * (n - k + i)) / i;
	return c;
}

function rankSentences(
	c: Comparison,
	{ units, simultaneous }: Carried,
): string[] {
	if (c.scope === "measuring error only") return [];
	const count = (t: string): number => units.get(t) ?? 0;
	const pairs = simultaneous.pairs
		.map((pair) => [count(pair.treatment), count(pair.control)])
		.filter(([a, b]) => a > 0 && b > 0);
	if (pairs.length === 0) return [];
	const smallest = pairs.map(([a, b]) => 2 / combinations(a + b, a));
	const best = smallest.indexOf(Math.min(...smallest));
	const p = Math.min(1, smallest[best]);
	if (p * pairs.length <= significanceLevel(c.confidence)) return [];
	return [
		`No rank or permutation test is given: with ${pairs[best][0]} units against ${pairs[best][1]} the smallest p that one can reach is ${roughly(p)}, before adjusting for ${counted(pairs.length, "treatment")}.`,
	];
}

function slopeText([treatment, slope]: readonly [string, Slope]): string {
	return slope.is === "measured"
		? `${quoted(treatment)} ${fixed(slope.value, 2)} (standard uncertainty ${fixed(slope.standardUncertainty, 2)}, from doses that differ by design)`
		: `${quoted(treatment)} not measured, any value from ${plainNumber(slope.low)} to ${plainNumber(slope.high)}`;
}

function residueSentences(
	{ residue, statedBy, slopes }: At,
	probe: string,
): string[] {
	const ranged = [...slopes.values()].some((s) => s.is === "range");
	return [
		`All treatments are compared at one residue, ${residueText(residue.in("mg/L"))} of ${probeCounted(probe)} left in solution, ${statedBy === "nobody" ? "the middle of what they left, because none was stated before the trial" : "which was stated"}. No isotherm was used: the uptake q of each flask at its residue C is carried to the stated residue C* by q (C*/C)^(1/n). The error that its titre puts into q and C together goes with it. Only then are flasks and soaks averaged.`,
		`How steeply uptake grows with the residue, 1/n: ${[...slopes].map(slopeText).join("; ")}.${ranged ? " Where it was not measured, the intervals hold for every value in the range: one for both sides of a difference as far as a tenth beyond the residues that their flasks left, one for each side farther out, where curves may cross. Unless another was asked for, the range is typical of the probe (from memory; up to 1 where under 10 % of the dose is left). Without a measured slope flasks are carried no further than a factor of three. These are decisions of this program." : ""}`,
		'A flask whose residue is known no better than to a quarter of itself (standard uncertainty) is not carried: it says "at least" where it left less, "at most" where it left more.',
	];
}

function boundSentences({ compared }: Comparison): string[] {
	const bounds = compared.filter((o) => o.side !== "value");
	return bounds.length === 0
		? []
		: [
				`${capital(flasksNamed(bounds.map((o) => o.name)))} gave only a bound: bounds stay out of the spread. A verdict of their group is said only if it holds without them and with them at their limit, and only on the side that a bound can prove. A group of bounds alone is set at its limit, less the expanded uncertainty (k = 2) of that limit. It is held against its control with the spread borrowed from the other units.`,
			];
}

/** How treatments were compared at one residue, each flask carried there. */
export function carriedSentences(
	c: Comparison,
	method: Carried,
	at: At,
): string[] {
	return [
		...residueSentences(at, c.probe),
		unitSentence(c),
		...soakSentences(c),
		blockSentence(c, method),
		...scatterSentences(method),
		...intervalSentences(c),
		orderSentence(c),
		...boundSentences(c),
		...takenSentences(c),
		...fewReadingsSentences(c),
		...demandSentences(c),
		...allowanceSentences(c),
		...deviationSentences(c),
		...rankSentences(c, method),
		...(method.spread.degreesOfFreedom > 0
			? [
					"Numbers of replicates are reckoned with the upper 80 % confidence limit of the spread and the margin, never with the difference just observed. The critical value is taken as if the differences were uncorrelated, which can only ask for more.",
				]
			: []),
	];
}
