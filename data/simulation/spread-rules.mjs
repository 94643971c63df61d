// @ts-check
/**
 * How often families of comparisons with one control speak falsely, and how often they see a true difference, by the
 * rule that gives each treatment its spread. Simulated means of soaks, nothing of the chemistry; of the library only
 * `stats` (build it first: npm run build). `node data/simulation/spread-rules.mjs` prints the table of spread-rules.md.
 */
import { createRequire } from "node:module";

const stats = createRequire(import.meta.url)(
	"../../kernel-lib/dist/stats/index.js",
);

const families = Number(process.env.FAMILIES ?? 20000);
const confidence = 0.95;

/** @typedef {{ n: number, variance: number }} Group */
/** @typedef {(groups: readonly Group[], treated: Group, control: Group) => { variance: number, df: number }} Rule */

/** @param {readonly Group[]} groups */
const pooledOf = (groups) => {
	const df = groups.reduce((sum, g) => sum + g.n - 1, 0);
	return {
		df,
		variance: groups.reduce((sum, g) => sum + (g.n - 1) * g.variance, 0) / df,
	};
};

/** @type {Rule} */
const pooled = (groups, a, b) => {
	const { df, variance } = pooledOf(groups);
	return { df, variance: variance * (1 / a.n + 1 / b.n) };
};

/** @type {Rule} */
const welch = (_, a, b) => {
	const [u, v] = [a.variance / a.n, b.variance / b.n];
	return {
		variance: u + v,
		df: (u + v) ** 2 / (u ** 2 / (a.n - 1) + v ** 2 / (b.n - 1)),
	};
};

/**
 * What each group adds to a variance that is drawn to the pooled one as if that had `prior` degrees of freedom.
 * @param {number} prior @param {readonly Group[]} groups @param {Group} a @param {Group} b
 */
function drawnParts(prior, groups, a, b) {
	const all = pooledOf(groups);
	const share = (/** @type {Group} */ g) => prior / (prior + g.n - 1);
	const common = share(a) / a.n + share(b) / b.n;
	const parts = groups.map((g) => {
		const own = g === a || g === b ? (1 - share(g)) / g.n : 0;
		return {
			df: g.n - 1,
			part: ((common * (g.n - 1)) / all.df + own) * g.variance,
		};
	});
	return { all, parts, variance: parts.reduce((sum, p) => sum + p.part, 0) };
}

/**
 * Each variance drawn to the pooled one; the sum is linear in the variances of all groups, which are independent, so that Satterthwaite's formula applies to it as it stands.
 * @param {number} prior @returns {Rule}
 */
const moderated = (prior) => (groups, a, b) => {
	const { parts, variance } = drawnParts(prior, groups, a, b);
	const denominator = parts.reduce((sum, p) => sum + p.part ** 2 / p.df, 0);
	return { variance, df: variance ** 2 / denominator };
};

/**
 * The same variance, its degrees of freedom by fourth powers of the standard deviations that are right on the average (Welch 1947, from memory: v + 2 in place of v, less 2), at most the pooled ones.
 * @param {number} prior @returns {Rule}
 */
const unbiased = (prior) => (groups, a, b) => {
	const { all, parts, variance } = drawnParts(prior, groups, a, b);
	const denominator = parts.reduce(
		(sum, p) => sum + p.part ** 2 / (p.df + 2),
		0,
	);
	return { variance, df: Math.min(all.df, variance ** 2 / denominator - 2) };
};

/** The same variance, with the degrees of freedom of the two groups and the prior, at most the pooled ones. @param {number} prior @returns {Rule} */
const capped = (prior) => (groups, a, b) => {
	const all = pooledOf(groups);
	const own = (/** @type {Group} */ g) =>
		(prior * all.variance + (g.n - 1) * g.variance) / (prior + g.n - 1);
	const [u, v] = [own(a) / a.n, own(b) / b.n];
	const df =
		(u + v) ** 2 / (u ** 2 / (a.n - 1 + prior) + v ** 2 / (b.n - 1 + prior));
	return { variance: u + v, df: Math.min(df, all.df) };
};

/** @type {Record<string, Rule>} */
const rules = {
	pooled,
	Welch: welch,
	"1, capped": capped(1),
	"1, Satterthwaite": moderated(1),
	"2, Satterthwaite": moderated(2),
	"4, Satterthwaite": moderated(4),
	"1, Welch 1947": unbiased(1),
};

/** Soaks, standard deviations (control first), whether tails are heavy (Student's t with 3 degrees of freedom, scaled to its standard deviation), and how far the first treatment lies off. */
const designs = [
	{ soaks: [3, 3, 3, 3], spread: [1, 1, 1, 1] },
	{ soaks: [3, 3, 3, 3], spread: [1, 1, 1, 1], heavy: true },
	{ soaks: [3, 3, 3, 3], spread: [1, 4, 1, 1] },
	{ soaks: [3, 3, 3, 3], spread: [2, 1, 1, 1] },
	{ soaks: [3, 3, 3, 3], spread: [4, 1, 1, 1] },
	{ soaks: [4, 4, 4, 4], spread: [1, 1, 1, 1] },
	{ soaks: [4, 4, 4, 4], spread: [1, 3, 1, 1] },
	{ soaks: [4, 4, 4, 4], spread: [4, 1, 1, 1] },
	{ soaks: [5, 3, 3, 3], spread: [4, 1, 1, 1] },
	{ soaks: [5, 3, 3, 3], spread: [1, 4, 1, 1] },
	{ soaks: [5, 5, 5, 5], spread: [4, 1, 1, 1] },
	{ soaks: [5, 5, 5, 5], spread: [1, 4, 1, 1], heavy: true },
	{ soaks: [5, 2, 5], spread: [1, 4, 1] },
	{ soaks: [2, 5, 5, 5], spread: [4, 1, 1, 1] },
	{ soaks: [2, 2, 2, 2], spread: [1, 1, 1, 1], off: 3 },
	{ soaks: [3, 3, 3, 3], spread: [1, 1, 1, 1], off: 3 },
	{ soaks: [4, 4, 4, 4], spread: [1, 1, 1, 1], off: 3 },
	{ soaks: [5, 5, 5, 5], spread: [1, 1, 1, 1], off: 3 },
];

/** @param {any} random @param {boolean} heavy */
const deviate = (random, heavy) => {
	if (!heavy) return random.normal();
	const square =
		random.normal() ** 2 + random.normal() ** 2 + random.normal() ** 2;
	return random.normal() / Math.sqrt(square);
};

/** @param {typeof designs[number]} design @param {any} random */
const family = (design, random) =>
	design.soaks.map((n, g) => {
		const values = Array.from(
			{ length: n },
			() =>
				(g === 1 ? (design.off ?? 0) : 0) +
				design.spread[g] * deviate(random, design.heavy ?? false),
		);
		const mean = values.reduce((a, b) => a + b, 0) / n;
		return {
			n,
			mean,
			variance: values.reduce((s, v) => s + (v - mean) ** 2, 0) / (n - 1),
		};
	});

console.log(
	`| design (soaks; spread, control first) | counted | ${Object.keys(rules).join(" | ")} |`,
);
console.log(
	`|---|---|${Object.keys(rules)
		.map(() => "---")
		.join("|")}|`,
);
for (const design of designs) {
	const random = stats.createRandom(`spread rules ${JSON.stringify(design)}`);
	const said = Object.keys(rules).map(() => 0);
	for (let run = 0; run < families; run++) {
		const groups = family(design, random);
		const [control, ...treated] = groups;
		Object.values(rules).forEach((rule, r) => {
			const looked = design.off === undefined ? treated : [treated[0]];
			const some = looked.some((t) => {
				const { variance, df } = rule(groups, t, control);
				const p =
					2 *
					stats.studentTUpperTail(
						Math.abs(t.mean - control.mean) / Math.sqrt(variance),
						df,
					);
				return p * treated.length < 1 - confidence;
			});
			if (some) said[r] += 1;
		});
	}
	console.log(
		`| ${design.soaks.join(", ")}; ${design.spread.join(", ")}${design.heavy ? "; heavy tails" : ""} | ${design.off === undefined ? "false" : "seen"} | ${said.map((s) => ((100 * s) / families).toFixed(1)).join(" | ")} |`,
	);
}
