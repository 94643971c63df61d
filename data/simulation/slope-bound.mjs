// @ts-check
/**
 * How often "no difference that matters" can be said at most of a true +15 mg/g from one dose, where 5 % of false words are allowed. Of each simulated trial of the good designs only what the chars truly took up is
 * looked at, without any error of reading: no bench sees more. Of the library only `stats` (build it first: npm run build). `node data/simulation/slope-bound.mjs` prints the table of interval-width.md.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { faultDesignsOf, simulateFault } from "./fault-trial.mjs";

const { studentTQuantile } = createRequire(import.meta.url)(
	"../../kernel-lib/dist/stats/index.js",
);
/** @typedef {Parameters<typeof faultDesignsOf>[0]} File */
/** @type {File} */
const file = JSON.parse(
	readFileSync(new URL("fault-designs.json", import.meta.url), "utf8"),
);
const trials = Number(process.env.TRIALS ?? 4000);
const from = Number(process.env.FROM ?? 20001);
const falseWords = 0.05;
const margin = 25;
/** Points below two one-sided tests that were asked for at most. */
const asked = 0.15;

/** @param {readonly number[]} list */
const mean = (list) => list.reduce((a, b) => a + b, 0) / list.length;

/** Means of the soaks of a treatment, as dosed. @param {import("./fault-plan.mjs").FaultTruth["flasks"]} flasks @param {string} treatment */
function soaksOf(flasks, treatment) {
	const own = flasks.filter((f) => f.treatment === treatment);
	return [...new Set(own.map((f) => f.soak))].map((soak) =>
		mean(own.filter((f) => f.soak === soak).map((f) => f.uptake)),
	);
}

/** The difference of "slow steam" as dosed in each trial, and whether two one-sided 5 % tests put it within the margin; `difference` is true at the stated residue. @param {string} name @param {number} difference @param {number} exponent */
function trialsOf(name, difference, exponent) {
	const [design] = faultDesignsOf(file).filter((d) => d.name === name);
	const treatments = design.treatments.map((t) =>
		t.treatment === "slow steam" ? { ...t, difference } : t,
	);
	const names = treatments.map((t) => t.treatment);
	return Array.from({ length: trials }, (_, i) => {
		const bench = { ...design.bench, exponent };
		const { flasks } = simulateFault(
			{ ...design, bench, treatments },
			from + i,
		).truth;
		const groups = names.map((t) => soaksOf(flasks, t));
		const [control, treated] = ["water", "slow steam"].map(
			(t) => groups[names.indexOf(t)],
		);
		const degrees = groups.reduce((sum, g) => sum + g.length - 1, 0);
		const squares = groups.flatMap((g) => g.map((x) => (x - mean(g)) ** 2));
		const error = Math.sqrt(
			(squares.reduce((a, b) => a + b, 0) / degrees) *
				(1 / control.length + 1 / treated.length),
		);
		const found = mean(treated) - mean(control);
		return {
			found,
			same:
				Math.abs(found) + studentTQuantile(1 - falseWords, degrees) * error <
				margin,
		};
	}).sort((a, b) => a.found - b.found);
}

/** @typedef {ReturnType<typeof trialsOf>} Trials */
/** Share of trials with a difference below a limit, in percent. @param {Trials} list @param {number} limit */
const below = (list, limit) =>
	(100 * list.filter((t) => t.found < limit).length) / list.length;

/** The limit that so many of the trials stay below. @param {Trials} list @param {number} share */
const limitFor = (list, share) => list[Math.floor(share * list.length)].found;

const columns = [
	"design",
	"true +15, as dosed (mg/g)",
	"true +25, as dosed, 1/n 0.6",
	"true +25, as dosed, 1/n 0.18",
	"same of the +15 at most, 1/n from 0 to 0.6",
	"at most, 1/n known: 0.18",
	"one-sided tests as dosed: same of the +15",
	"their false same of a +25, 1/n 0.18",
	"false same of a +25, 1/n 0.6, for whoever comes within 15 points of them",
];
console.log(`| ${columns.join(" | ")} |\n|${" --- |".repeat(columns.length)}`);
for (const { name } of faultDesignsOf(file).filter((d) => d.benign)) {
	const small = trialsOf(name, 15, 0.18);
	const steep = trialsOf(name, margin, 0.6);
	const flat = trialsOf(name, margin, 0.18);
	const sameOf = (/** @type {Trials} */ list) => mean(list.map((t) => +t.same));
	const cells = [
		...[small, steep, flat].map((list) =>
			mean(list.map((t) => t.found)).toFixed(1),
		),
		...[
			below(small, limitFor(steep, falseWords)),
			below(small, limitFor(flat, falseWords)),
			100 * sameOf(small),
			100 * sameOf(flat),
			below(steep, limitFor(small, sameOf(small) - asked)),
		].map((percent) => percent.toFixed(0)),
	];
	console.log(`| ${[name, ...cells].join(" | ")} |`);
}
