// @ts-check
/**
 * What may be made of a treatment in which some flasks ran dry, by the rule that counts them: how often the interval of the difference holds the truth, and how often its word is false. Soaks of two flasks on a curve
 * q = a C^s with dose, balance, titre and detection limit; nothing of the library but Student's quantile (build it first: npm run build). `node data/simulation/bounds-rules.mjs` prints the first table of bounds-rules.md
 * (least coverage, largest share of false words, share of a true +40 called higher, of a true 0 called no difference), with ONLY=bounds the second.
 */
import { createRequire } from "node:module";
import { generator } from "./generator.mjs";
import { draw } from "./heavy-tails.mjs";

const stats = createRequire(import.meta.url)(
	"../../kernel-lib/dist/stats/index.js",
);

const trials = Number(process.env.TRIALS ?? 4000);
/** "bounds": only trials in which some soak stands on a bound, and of neither treatment more than half. */
const counted = process.env.ONLY ?? "";
const at = 60; // mg/L, the residue of the comparison
const unseen = 12.7; // mg/L: 0.05 mL of 0.05 N on an aliquot of 25 mL
const volume = 0.1; // L for one gram of char
const margin = 25;
const mean = 240; // mg/g at that residue, control
const soakSpread = 12;
const flaskSpread = 5;
const titreError = 8; // mg/L

/** @typedef {{ soaks: number, slope: number, difference: number, dry: number }} Design */
/** @typedef {{ q: number, c: number, dry: boolean }} Flask */
/** @typedef {{ value: number, bound: boolean }} Unit */
/** @typedef {{ n: number, seen: number, mean: number, variance: number, information: number, own: number }} Group */

/** Residue of a gram of char of such an uptake at the stated residue: the curve meets the line of the dose. @param {number} uptake @param {number} slope @param {number} dose mg */
function residueOf(uptake, slope, dose) {
	let [low, high] = [0, dose / volume];
	for (let i = 0; i < 60; i++) {
		const c = (low + high) / 2;
		if (uptake * (c / at) ** slope + volume * c > dose) high = c;
		else low = c;
	}
	return (low + high) / 2;
}

/** @param {Design} design @param {any} random @param {number} difference @param {number} dose @returns {Flask[][]} */
const soaksOf = (design, random, difference, dose) =>
	Array.from({ length: design.soaks }, () => {
		const soak = mean + difference + draw(random, "normal", soakSpread);
		return [0, 1].map(() => {
			const uptake = soak + draw(random, "normal", flaskSpread);
			const c =
				residueOf(uptake, design.slope, dose) +
				draw(random, "normal", titreError);
			const dry = c < 4 * titreError;
			// A residue that is hardly more than its error is a bound too: its uptake less two uncertainties.
			const shown = c < unseen ? unseen : dry ? c + 2 * titreError : c;
			return { c: shown, q: dose - volume * shown, dry };
		});
	});

/** @param {Flask[][]} soaks @param {number} slope @param {"as it stands" | "carried" | "left out"} bounds @returns {Unit[]} */
const unitsOf = (soaks, slope, bounds) =>
	soaks.flatMap((flasks) => {
		const counted =
			bounds === "left out" ? flasks.filter((f) => !f.dry) : flasks;
		if (counted.length === 0) return [];
		const values = counted.map((f) =>
			f.dry && bounds === "as it stands" ? f.q : f.q * (at / f.c) ** slope,
		);
		return [
			{
				value: values.reduce((a, b) => a + b, 0) / values.length,
				bound: counted.some((f) => f.dry),
			},
		];
	});

/** Hazard of the normal distribution, by its asymptote far out. */
const hazard = (/** @type {number} */ z) =>
	z > 8 ? z + 1 / z : stats.normalDensity(z) / stats.normalCdf(-z);

/**
 * Means and variances by the likelihood of values and of bounds "at least", each variance drawn to the pooled one by one degree of freedom; by expectation and maximisation.
 * @param {readonly (readonly Unit[])[]} sides @returns {Group[]}
 */
function fitted(sides) {
	let groups = sides.map((units) => {
		const m = units.reduce((s, u) => s + u.value, 0) / units.length;
		return { mean: m, variance: 200 };
	});
	const seen = sides.map((units) => units.filter((u) => !u.bound).length);
	/** @type {number[]} */
	let own = [];
	for (let step = 0; step < 300; step++) {
		const squares = sides.map((units, g) => {
			const { mean: m, variance: v } = groups[g];
			const s = Math.sqrt(v);
			let [sum, second] = [0, 0];
			for (const u of units) {
				const z = (u.value - m) / s;
				const h = u.bound ? hazard(z) : 0;
				sum += u.bound ? m + s * h : u.value;
				second += u.bound
					? v * (1 + z * h) + 2 * m * s * h + m * m
					: u.value ** 2;
			}
			const centre = sum / units.length;
			return { centre, squares: second - units.length * centre ** 2 };
		});
		const freedom = sides.map((units) => units.length - 1);
		const pooled =
			squares.reduce((s, q) => s + q.squares, 0) /
			freedom.reduce((a, b) => a + b, 0);
		own = squares.map((q, g) => (freedom[g] > 0 ? q.squares / freedom[g] : 0));
		const next = squares.map((q, g) => ({
			mean: q.centre,
			variance: (pooled + freedom[g] * own[g]) / (1 + freedom[g]),
		}));
		const moved = next.some((n, g) => Math.abs(n.mean - groups[g].mean) > 1e-6);
		groups = next;
		if (!moved && step > 5) break;
	}
	return groups.map(({ mean: m, variance }, g) => {
		let information = 0;
		for (const u of sides[g]) {
			const z = (u.value - m) / Math.sqrt(variance);
			const h = u.bound ? hazard(z) : 0;
			information += (u.bound ? h * (h - z) : 1) / variance;
		}
		return {
			n: sides[g].length,
			seen: seen[g],
			mean: m,
			variance,
			information,
			own: own[g],
		};
	});
}

/** @param {readonly (readonly Unit[])[]} sides */
function intervalOf(sides) {
	if (sides.some((units) => units.filter((u) => !u.bound).length < 2))
		return null;
	const [control, treated] = fitted(sides);
	const variance = 1 / control.information + 1 / treated.information;
	// Satterthwaite's formula of the moderated spread, with the degrees of freedom of the units that were seen.
	const all = control.seen + treated.seen - 2;
	const share = (/** @type {Group} */ g) => 1 / g.seen;
	const common =
		share(control) / control.information / control.variance +
		share(treated) / treated.information / treated.variance;
	let denominator = 0;
	for (const g of [control, treated]) {
		const ownPart = (1 - share(g)) / g.information / g.variance;
		const part = ((common * (g.seen - 1)) / all + ownPart) * g.own;
		denominator += part ** 2 / (g.seen - 1);
	}
	const df = Math.max(1, Math.min(all, variance ** 2 / denominator));
	const middle = treated.mean - control.mean;
	const u = Math.sqrt(variance);
	const two = stats.studentTQuantile(0.975, df) * u;
	const one = stats.studentTQuantile(0.95, df) * u;
	return {
		low: middle - two,
		high: middle + two,
		least: middle - one,
		most: middle + one,
	};
}

/** @typedef {NonNullable<ReturnType<typeof intervalOf>>} Limits */
/** @param {Limits | null} a @param {Limits | null} b */
const union = (a, b) =>
	a &&
	b && {
		low: Math.min(a.low, b.low),
		high: Math.max(a.high, b.high),
		least: Math.min(a.least, b.least),
		most: Math.max(a.most, b.most),
	};

/** @param {Limits} l */
const wordOf = (l) =>
	l.least >= -margin && l.most <= margin
		? "same"
		: l.low > 0
			? "higher"
			: l.high < 0
				? "lower"
				: "cannot tell";

/**
 * One end is all that is said: the lower of the intervals without the flasks that gave bounds and with them at their limit.
 * @param {Flask[][][]} sides @param {number} slope @returns {Limits | null}
 */
function oneSided(sides, slope) {
	const without = sides.map((x) => unitsOf(x, slope, "left out"));
	const limits = intervalOf(without);
	if (limits === null) return null;
	const half = (limits.high - limits.low) / 2;
	const mean = (/** @type {Unit[]} */ units) =>
		units.reduce((s, u) => s + u.value, 0) / units.length;
	const [c, t] = sides.map((x) => mean(unitsOf(x, slope, "as it stands")));
	const bounds = sides.map((x) => x.some((f) => f.some((g) => g.dry)));
	// Bounds on both sides leave nothing.
	if (bounds[0] && bounds[1]) return nothing;
	const low = Math.min(limits.low, t - c - half);
	const high = Math.max(limits.high, t - c + half);
	if (!bounds[0] && !bounds[1]) return limits;
	return bounds[1]
		? { low, high: Infinity, least: low, most: Infinity }
		: { low: -Infinity, high, least: -Infinity, most: high };
}

/** @param {Flask[][][]} sides @param {number} slope */
const censored = (sides, slope) =>
	union(
		intervalOf(sides.map((x) => unitsOf(x, slope, "as it stands"))),
		intervalOf(sides.map((x) => unitsOf(x, slope, "carried"))),
	);

/** Where so little is left the library allows for any slope up to this. */
const steepest = 1;

/** Nothing is said. */
const nothing = {
	low: -Infinity,
	high: Infinity,
	least: -Infinity,
	most: Infinity,
};

/** @typedef {(sides: Flask[][][], slope: number) => Limits | null} Rule */

/** Both ends of what slopes are allowed for. @param {Rule} rule @returns {Rule} */
const overSlopes = (rule) => (sides) =>
	union(rule(sides, 0), rule(sides, steepest));

/** @param {"as it stands" | "carried" | "left out"} bounds @returns {Rule} */
const withBounds = (bounds) => (sides, slope) =>
	intervalOf(sides.map((x) => unitsOf(x, slope, bounds)));

/** Each with what it says where more than half of a treatment's soaks stand on bounds: one end. @type {Record<string, { rule: Rule, most: Rule }>} */
const rules = {
	"one end": { rule: oneSided, most: oneSided },
	"left out": { rule: withBounds("left out"), most: oneSided },
	"likelihood, as it stands": {
		rule: withBounds("as it stands"),
		most: oneSided,
	},
	"likelihood, both": { rule: censored, most: oneSided },
	"likelihood, on the true curve": {
		rule: withBounds("carried"),
		most: oneSided,
	},
	"one end, slopes 0 to 1": {
		rule: overSlopes(oneSided),
		most: overSlopes(oneSided),
	},
	"likelihood, as it stands, slopes 0 to 1": {
		rule: overSlopes(withBounds("as it stands")),
		most: overSlopes(oneSided),
	},
	"likelihood, both, slopes 0 to 1": {
		rule: overSlopes(censored),
		most: overSlopes(oneSided),
	},
};

/** The dose at which such a share of the treated flasks is a bound: where a char of the quantile leaves what is read just well enough. @param {Design} design */
function doseOf({ slope, difference, dry }) {
	const edge =
		mean +
		difference +
		stats.normalQuantile(1 - dry) * Math.hypot(soakSpread, flaskSpread);
	return edge * ((4 * titreError) / at) ** slope + volume * 4 * titreError;
}

/** How often a rule held the truth and what it said, over the trials of one design that it is for. @param {Design} design */
function countsOf(design) {
	const { soaks, slope, difference, dry } = design;
	const random = generator(
		`bounds rules ${[soaks, slope, difference, dry].join(" ")}`,
	);
	const dose = doseOf(design);
	const counts = Object.values(rules).map(() => ({
		difference,
		of: 0,
		held: 0,
		wrong: 0,
		higher: 0,
		same: 0,
	}));
	for (let run = 0; run < trials; run++) {
		const sides = [0, difference].map((d) => soaksOf(design, random, d, dose));
		const bounded = sides.map(
			(s) => s.filter((f) => f.some((x) => x.dry)).length,
		);
		const most = bounded.some((b) => 2 * b > soaks);
		const some = bounded.some((b) => b > 0) && !most;
		if (counted === "bounds" && !some) continue;
		Object.values(rules).forEach((r, i) => {
			const limits = (most ? r.most : r.rule)(sides, slope) ?? nothing;
			const word = wordOf(limits);
			const c = counts[i];
			c.of += 1;
			if (limits.low <= difference && difference <= limits.high) c.held += 1;
			if (
				(difference <= 0 && word === "higher") ||
				(difference >= 0 && word === "lower") ||
				(Math.abs(difference) > margin && word === "same")
			)
				c.wrong += 1;
			if (word === "higher") c.higher += 1;
			if (word === "same") c.same += 1;
		});
	}
	return counts;
}

/** Fewer trials than this say nothing of a rate. */
const enough = trials / 20;

/** @typedef {ReturnType<typeof countsOf>[number]} Counts */
/** @param {readonly Counts[]} list */
function cellOf(list) {
	const known = list.filter((c) => c.of >= enough);
	const percent = (/** @type {number} */ share) => (100 * share).toFixed(1);
	const share = (
		/** @type {number} */ difference,
		/** @type {"higher" | "same"} */ word,
	) => {
		const own = list.filter((c) => c.difference === difference);
		return percent(
			own.reduce((s, c) => s + c[word], 0) / own.reduce((s, c) => s + c.of, 0),
		);
	};
	return [
		percent(Math.min(...known.map((c) => c.held / c.of))),
		percent(Math.max(...known.map((c) => c.wrong / c.of))),
		share(40, "higher"),
		share(0, "same"),
	].join(", ");
}

const heads = Object.keys(rules);
console.log(`| soaks; 1/n | ${heads.join(" | ")} |`);
console.log(`|${"---|".repeat(1 + heads.length)}`);
for (const soaks of [3, 4, 5, 6])
	for (const slope of [0.1, 0.25, 0.5]) {
		const designs = [0, 15, 40].flatMap((difference) =>
			[0.1, 0.25, 0.4].map((dry) =>
				countsOf({ soaks, slope, difference, dry }),
			),
		);
		console.log(
			`| ${soaks}; ${slope} | ${heads.map((_, r) => cellOf(designs.map((d) => d[r]))).join(" | ")} |`,
		);
	}
