/** Whatever draws chance writes its seed down. */
import { expect, test } from "vitest";
import { bootstrap, fit as fitted } from "../../kernel-lib/fit";
import {
	adaptiveMonteCarlo,
	input,
	monteCarlo,
	monteCarloTrials,
	normal,
} from "../../kernel-lib/quantity";
import { boxProbability, drawnSeeds } from "../../kernel-lib/stats";
import { line } from "../fit/fixtures";

const seedsOf = (purpose: string): string[] =>
	drawnSeeds()
		.filter((s) => s.for === purpose)
		.map((s) => s.seed);

const mass = input("mass", 3, "g", normal(0.1), {});

test("nothing is written down before something is drawn", () => {
	expect(seedsOf("Monte Carlo")).toEqual([]);
});

test("Monte Carlo, the adaptive one too, each seed once", () => {
	monteCarlo(mass, { trials: 1000 });
	monteCarlo(mass, { trials: 1000, seed: 7 });
	monteCarloTrials([mass], { trials: 1000, seed: "mine" });
	monteCarlo(mass, { trials: 2000, seed: 7 });
	adaptiveMonteCarlo(mass, { digits: 1, seed: 9 });
	expect(seedsOf("Monte Carlo")).toEqual(["1", "7", "mine", "9"]);
});

test("a bootstrap", () => {
	const found = fitted(line, { x: [0, 1, 2, 3], y: [1, 3, 3, 5] });
	expect(seedsOf("bootstrap")).toEqual([]);
	bootstrap(found, { resamples: 200, seed: 5 });
	expect(seedsOf("bootstrap")).toEqual(["5"]);
});

test("points in which a probability of many correlated limits is taken", () => {
	const correlation = [
		[1, 0.5, 0.1],
		[0.5, 1, 0.7],
		[0.1, 0.7, 1],
	];
	boxProbability(correlation, 6, [-2, -2, -2], [2, 2, 2]);
	expect(seedsOf("limits of comparisons")).toEqual(["multivariate t"]);
});
