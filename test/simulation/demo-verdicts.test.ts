import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import * as bench from "../../kernel-lib/bench/index";
import * as compare from "../../kernel-lib/compare/index";
import * as uptake from "../../kernel-lib/uptake/index";
import { verdictReasons } from "../../kernel-lib/words/index";

const folder = "data/demo-run";

interface DemoTruth {
	readonly margin: number;
	readonly treatments: readonly {
		readonly treatment: string;
		readonly differenceAsDosed?: number;
		readonly right?: readonly string[];
	}[];
	readonly flasks: readonly {
		readonly flask: string;
		/** Dry char, g. */
		readonly char: number;
		/** mg/g of dry char. */
		readonly uptake: number;
		readonly demand: number;
		/** mg */
		readonly lost: number;
	}[];
}

const truthIn = (name: string) =>
	JSON.parse(readFileSync(`${folder}/${name}`, "utf8"));

function analysed(sheet: string, margin: number) {
	const trial = bench.readTrial(`${folder}/${sheet}.csv`);
	const comparison = compare.compareTreatments(trial, {
		margin: compare.marginOf(margin),
	});
	return { uptakes: uptake.uptakes(trial), comparison };
}

const smallTruths = truthIn("small-trials.truth.json");
const cases: readonly (readonly [string, DemoTruth])[] = [
	["hazelnut", truthIn("truth.json")],
	["small-trial", smallTruths["small-trial"]],
	["small-trial-zero", smallTruths["small-trial-zero"]],
];

describe.each(cases)("%s", (sheet, truth) => {
	const { uptakes, comparison } = analysed(sheet, truth.margin);

	test("says a word that is right of every treatment", () => {
		const judged = truth.treatments.filter((t) => t.right !== undefined);
		expect(comparison.verdicts.map((v) => v.treatment)).toEqual(
			judged.map((t) => t.treatment),
		);
		for (const { treatment, right } of judged)
			expect(right).toContain(
				comparison.verdicts.find((v) => v.treatment === treatment)?.word,
			);
	});

	test("finds what every flask took up, to within four standard uncertainties", () => {
		const whole = uptakes.filter((u) => u.flask.name !== "S1b");
		for (const u of whole.filter((u) => u.uptake.is === "value")) {
			const error = u.computedUptake.in("mg/g") - tellable(u, truth);
			expect(Math.abs(error)).toBeLessThan(
				4 * u.computedUptake.to("mg/g").standardUncertainty,
			);
		}
		expect(whole.length).toBeGreaterThan(2);
	});

	test("gives a flask that left nothing as at least what it can have taken up", () => {
		for (const { uptake: found, ...u } of uptakes) {
			if (found.is !== "at least") continue;
			const least = found.quantity.to("mg/g");
			expect(least.value - 2 * least.standardUncertainty).toBeLessThan(
				tellable({ ...u, uptake: found }, truth),
			);
		}
	});
});

/**
 * What the sheet can tell of a flask, from its truth: what the char took up and, where nothing measures them, what the soak's residue consumed and what escaped; per gram of the mass that the
 * library divides by. mg/g
 */
function tellable(u: uptake.FlaskUptake, truth: DemoTruth): number {
	const flask = truth.flasks.find((f) => f.flask === u.flask.name);
	if (flask === undefined) throw new Error(`no truth of ${u.flask.name}`);
	const { char, uptake: own, demand, lost } = flask;
	const consumed = u.demand.is === "suspected" ? demand : 0;
	const escaped = u.lossesTakenOff ? 0 : lost;
	const mass = u.perGram === "dry char" ? char : u.charMass.in("g");
	return ((own + consumed) * char + escaped) / mass;
}

test("what would mislead somebody in a hurry does not mislead", () => {
	const { comparison, uptakes } = analysed("hazelnut", 25);
	const words = new Map(comparison.verdicts.map((v) => [v.treatment, v]));
	for (const { treatment, word } of truthIn("truth.json").naive)
		if (treatment !== "fired twice" && word === "higher")
			expect(words.get(treatment)?.word).not.toBe("higher");
	expect(words.get("potash")?.word).toBe("cannot tell");
	const reasons = (treatment: string): string =>
		comparison.verdicts
			.filter((v) => v.treatment === treatment)
			.flatMap((v) => verdictReasons(comparison, v))
			.join(" ");
	expect(reasons("potash")).toMatch(/consume/);
	expect(reasons("washing soda")).toContain("S1b");
	const named = (name: string) => uptakes.find((u) => u.flask.name === name);
	expect(named("P2b")?.uptake.is).toBe("at least");
	expect(named("P2b")?.nextDose).not.toBe("");
	expect(named("F2b")?.uptake.is).toBe("value");
});
