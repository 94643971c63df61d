import { beforeAll, describe, expect, test } from "vitest";
import {
	answerOf,
	cellsOf,
	type Executed,
	executed,
	statementsOf,
} from "./executed";

let run: Executed;
beforeAll(() => {
	run = executed("why-not-straight-lines");
}, 120_000);

interface Way {
	readonly median: number;
	readonly width: number;
	readonly held: number;
}

function ways(name: string): Map<string, Way> {
	return new Map(
		cellsOf(run, name).map(([way, median, , middle, held]) => {
			const [low, high] = middle.split(" to ").map(Number);
			return [
				way,
				{
					median: Number(median),
					width: high - low,
					held: Number.parseFloat(held),
				},
			];
		}),
	);
}

const real = "fitted curve";
const truth = 380;

function wayOf(name: string, way: string): Way {
	const found = ways(name).get(way);
	if (!found) throw new Error(`No row "${way}" in "${name}".`);
	return found;
}

describe("what the page tells", () => {
	test("the real fit is right on average, and its interval holds the truth as often as it says", () => {
		for (const name of ["repeats of the trial", "weak solutions only"]) {
			const fitted = wayOf(name, real);
			expect(Math.abs(fitted.median / truth - 1)).toBeLessThan(0.01);
			// 500 trials: 95 % give or take three standard errors of such a count.
			expect(fitted.held).toBeGreaterThanOrEqual(92);
			expect(fitted.held).toBeLessThanOrEqual(98);
		}
	});

	test("one form is too sure of itself, others waste most of what was measured", () => {
		const name = "repeats of the trial";
		expect(wayOf(name, "C/q against C").held).toBeLessThan(90);
		expect(wayOf(name, "1/q against 1/C").width).toBeGreaterThan(
			5 * wayOf(name, real).width,
		);
	});

	test("more weak flasks leave the bias of two forms, and their intervals miss the truth too often", () => {
		for (const form of ["1/q against 1/C", "q against q/C"]) {
			const way = wayOf("weak solutions only", form);
			expect(way.median / truth).toBeLessThan(0.96);
			expect(way.held).toBeLessThan(92);
		}
	});

	test("the head answers, the limits are named, the figures are there", () => {
		const { finding, tables, figure, statements } = answerOf(run);
		expect(finding).toMatch(
			/^A 95 % interval should hold the true value in 95 of 100 repeats: the fitted curve's did, but those of all 3 straight-line forms did not \(\d\d to \d\d at worst\)\.$/,
		);
		expect(tables[0].columns).toHaveLength(3);
		expect(tables[0].title).toContain("500 repeats with all flasks");
		expect(figure).toContain("The true value is 380 mg/g");
		expect(statements.join(" ")).toContain("as widely spread");
		expect(run.page.indexOf('id="answer"')).toBeGreaterThan(0);
		expect(statementsOf(run, "not concluded").join(" ")).toContain(
			"errors of reading a flask",
		);
		for (const figure of [
			"isotherms",
			"Langmuir where the data live",
			"Freundlich where the data live",
			"one repeat with weak solutions",
			"repeats of the trial, drawn",
			"weak solutions only, drawn",
		])
			expect(run.results.get(figure)?.kind, figure).toBe("figure");
		expect(run.page).toContain("What to take away");
	});

	test("another seed gives other numbers, and the same lesson", () => {
		const other = executed("why-not-straight-lines", {
			seed: "another",
			trials: 100,
		});
		const rows = cellsOf(other, "repeats of the trial");
		expect(rows).not.toEqual(cellsOf(run, "repeats of the trial"));
		expect(Number.parseFloat(rows[0][4])).toBeGreaterThan(87);
	}, 60_000);
});
