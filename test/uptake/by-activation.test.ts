import { describe, expect, test } from "vitest";
import type { Finding } from "../../kernel-lib/activation/index";
import { figuresTable, firingYields } from "../../kernel-lib/activation/index";
import { activationsFromRows } from "../../kernel-lib/bench/index";
import {
	covariance,
	type Kind,
	tableText,
} from "../../kernel-lib/quantity/index";
import type { ActivatedUptake } from "../../kernel-lib/uptake/index";
import {
	activatedUptakeTable,
	activationAnswer,
	conditionOfUptake,
	feedstockCapacity,
	feedstockTable,
	runUptakeSentences,
	uptakeCost,
	uptakeCostTable,
	withActivation,
} from "../../kernel-lib/uptake/index";
import { charRow, steps } from "./sheets";

const sheet = activationsFromRows({
	activation: [
		{
			"activation run": "kiln 3",
			precursor: "hazelnut shell",
			"precursor mass (g)": 500,
			"precursor moisture, wet basis (%)": 8,
			"fired mass (g)": 138,
			"step 1 temperature (°C)": 500,
		},
		{
			"activation run": "potash 1",
			precursor: "char of kiln 3",
			"precursor batch": "kiln 3",
			"precursor mass (g)": 20,
			agent: "K2CO3",
			"agent mass (g)": 10,
			"step 1 temperature (°C)": 400,
			"step 2 temperature (°C)": 800,
			"step 2 hold (min)": 60,
			"product mass (g)": 15,
			"energy used (kWh)": 2,
		},
	],
});
const { uptakes } = steps([
	charRow("1", { soak: "potash 1", "char batch": "kiln 3" }),
	charRow("2", { soak: "water 1", "char batch": "kiln 3" }),
	charRow("3", { soak: "water 1", "char batch": "kiln 9" }),
	charRow("4", { soak: "potash 1", "titre (mL)": 0 }),
]);
const list = withActivation(uptakes, sheet);
const [one, two, three, dry] = list;
const number = (finding: Finding<Kind>, unit: string): number => {
	if (finding.is === "not known") throw new Error(finding.because);
	return finding.quantity.in(unit as never);
};
const reason = (finding: Finding<Kind>): string =>
	finding.is === "not known" ? finding.because : "";
const link = (u: ActivatedUptake): string =>
	u.activation.recorded
		? `${u.activation.figures.firing.name} by ${u.activation.linkedBy} (${u.activation.chain.join(", ")})`
		: u.activation.because;

describe("every uptake carries its activation run", () => {
	test("by the soak, else by the char batch, else it says why not", () => {
		expect([one, two].map(link)).toEqual([
			"potash 1 by soak (kiln 3, potash 1)",
			"kiln 3 by char batch (kiln 3)",
		]);
		expect(
			link(
				withActivation(
					steps([charRow("5", { soak: " Potash  1 ", "char batch": "kiln 9" })])
						.uptakes,
					sheet,
				)[0],
			),
		).toBe("potash 1 by soak (kiln 3, potash 1)");
		expect(link(three)).toContain('"water 1" nor the char batch "kiln 9"');
		expect(one.uptake).toEqual(uptakes[0].uptake);
	});

	test("conditions of the run", () => {
		expect(
			number(conditionOfUptake(one, "highest temperature"), "°C"),
		).toBeCloseTo(800, 9);
		expect(
			number(conditionOfUptake(one, "hold at the highest temperature"), "min"),
		).toBeCloseTo(60, 9);
		expect(
			number(conditionOfUptake(one, "impregnation ratio"), "1"),
		).toBeCloseTo(0.5, 9);
		expect(number(conditionOfUptake(one, "burn-off"), "%")).toBeCloseTo(25, 9);
		expect(reason(conditionOfUptake(two, "burn-off"))).toContain("charring");
		expect(reason(conditionOfUptake(three, "burn-off"))).toContain("kiln 9");
	});
});

describe("capacity per feedstock", () => {
	test("uptake times the yields along the chain", () => {
		const q = one.uptake.quantity.in("mg/g");
		expect(number(feedstockCapacity(one), "mg/g")).toBeCloseTo(
			q * (138 / 460) * (15 / 20),
			9,
		);
		expect(number(feedstockCapacity(two), "mg/g")).toBeCloseTo(
			two.uptake.quantity.in("mg/g") * (138 / 460),
			9,
		);
	});

	test("two flasks of one run share the yield's error", () => {
		const [a, b] = [one, { ...two, activation: one.activation }].map((u) =>
			feedstockCapacity(u),
		);
		if (a.is !== "value" || b.is !== "value") throw new Error("no value");
		const yieldOf = one.activation.recorded
			? one.activation.yieldFromFeedstock
			: null;
		if (yieldOf?.is !== "value") throw new Error("no yield");
		const u = yieldOf.quantity.to("1").standardUncertainty;
		const q = [one, two].map((x) => x.uptake.quantity.in("mg/g"));
		const shared = covariance(one.uptake.quantity, two.uptake.quantity);
		expect(covariance(a.quantity, b.quantity)).toBeCloseTo(
			q[0] * q[1] * u * u + yieldOf.quantity.in("1") ** 2 * shared,
			9,
		);
	});

	test("a sentence a run", () => {
		const said = runUptakeSentences([one, { ...one }, two]);
		expect(said[0]).toMatch(
			/^potash 1: 2 flasks: \([\d.]+ ± [\d.]+\) mg\/g of iodine at a residue of \d+ mg\/L; per gram of dry feedstock \(/,
		);
		const u95 = 1.96 * one.uptake.quantity.to("mg/g").standardUncertainty;
		expect(
			Number(/± ([\d.]+)/.exec(runUptakeSentences([one])[0])?.[1]) / u95,
		).toBeCloseTo(1, 1);
		expect(said[1]).toMatch(
			/^kiln 3: 1 flask, run taken from the char batch, as the soak "water 1" is no activation run: /,
		);
		expect(runUptakeSentences([one, dry])[0]).toContain("1 of 2 only at least");
		expect(runUptakeSentences([three])).toEqual([
			'Flask 3: no activation run is known; neither the soak "water 1" nor the char batch "kiln 9" is the name of an activation run.',
		]);
	});

	test("a soak that nearly is a run gets none and asks; no mean over treatments or unlike residues", () => {
		const made = withActivation(
			steps([
				charRow("a", { soak: "potash1", "char batch": "kiln 3" }),
				charRow("b", { "char batch": "kiln 3", treatment: "one" }),
				charRow("c", { "char batch": "kiln 3", treatment: "other" }),
				charRow("d", { soak: "potash 1" }),
				charRow("e", { soak: "potash 1", "titre (mL)": 3 }),
			]).uptakes,
			sheet,
		);
		const said = runUptakeSentences(made);
		expect(said.filter((s) => s.startsWith("kiln 3: "))).toEqual([
			expect.stringMatching(/^kiln 3: "one", 1 flask: /),
			expect.stringMatching(/^kiln 3: "other", 1 flask: /),
		]);
		expect(said.filter((s) => s.startsWith("potash 1: "))).toEqual([
			expect.stringMatching(
				/^potash 1: 2 flasks: \d+ to \d+ mg\/g, not averaged at residues so unlike/,
			),
		]);
		expect(said.at(-1)).toBe(
			'Flask a: no activation run is known; the soak "potash1" is no activation run (did you mean "potash 1"?).',
		);
	});

	test("a yield that cannot be carries its word to every figure built on it", () => {
		const wrong = activationsFromRows({
			activation: [
				{
					"activation run": "kiln 3",
					precursor: "hazelnut shell",
					"precursor mass (g)": 500,
					"fired mass (g)": 138,
				},
				{
					"activation run": "potash 1",
					precursor: "char of kiln 3",
					"precursor batch": "KILN 3",
					"precursor mass (g)": 20,
					"step 1 temperature (°C)": 800,
					"step 1 hold (min)": 60,
					"step 1 steam (g/min)": 2,
					"product mass (g)": 26,
				},
			],
		});
		const made = withActivation(uptakes, wrong);
		const answer = activationAnswer(wrong.firings.map(firingYields), made);
		expect(answer.filter((s) => s.includes("does not close"))).toEqual([
			expect.stringMatching(
				/^potash 1: .*not to be relied on, for its balance does not close \(more dry product than dry precursor\)\..* per gram of dry feedstock .*, on a balance that does not close\.$/,
			),
		]);
		expect(answer.at(-1)).toContain("95 % interval");
		for (const t of [
			activatedUptakeTable(made),
			feedstockTable(made),
			uptakeCostTable(made.map((u) => uptakeCost(u, { currency: "EUR" }))),
		]) {
			expect(tableText(t)).toContain("does not close: potash 1");
			expect(t.notes.join()).toContain("(k = 1)");
		}
		expect(tableText(figuresTable(wrong.firings.map(firingYields)))).toContain(
			"does not close",
		);
		expect(tableText(feedstockTable(list))).not.toContain("does not close");
	});

	test("a bound stays a bound", () => {
		expect(dry.uptake.is).toBe("at least");
		expect(feedstockCapacity(dry).is).toBe("at least");
	});
});

describe("cost per gram taken up", () => {
	const prices = {
		currency: "EUR",
		perKilowattHour: 0.3,
		agentPerKilogram: 4,
		precursorPerKilogram: 0.5,
	};
	test("energy, agent and precursor over product times uptake", () => {
		const cost = uptakeCost(one, prices);
		const grams = 15 * one.uptake.quantity.in("g/g");
		expect(number(cost.energy, "money/g")).toBeCloseTo(0.6 / grams, 9);
		expect(number(cost.reagent, "money/g")).toBeCloseTo(0.04 / grams, 9);
		expect(number(cost.total, "money/g")).toBeCloseTo(
			(0.6 + 0.04 + 0.01) / grams,
			9,
		);
		expect(cost.sentence).toMatch(/EUR\/g of iodine taken up/);
	});

	test("at least so much taken up is at most so dear", () => {
		expect(uptakeCost(dry, prices).total.is).toBe("at most");
	});

	test("what has no price or no amount is named, not counted as nothing in silence", () => {
		const { sentence } = uptakeCost(one, {
			currency: "EUR",
			agentPerKilogram: 4,
		});
		expect(sentence).toContain("energy (no price given)");
		expect(uptakeCost(two, prices).sentence).toContain(
			"energy (amount not recorded)",
		);
		expect(uptakeCost(three, prices).sentence).toContain("no cost per gram");
		expect(() =>
			uptakeCost(one, { currency: "EUR", perKilowattHour: -1 }),
		).toThrow(/price/);
	});

	test("tables, without NaN or money of no name", () => {
		for (const t of [
			activatedUptakeTable(list),
			feedstockTable(list),
			uptakeCostTable(list.map((u) => uptakeCost(u, prices))),
		]) {
			expect(tableText(t)).not.toMatch(/NaN|undefined|Infinity|money/);
		}
		expect(tableText(activatedUptakeTable(list))).toContain(
			"Without an activation run: 3.",
		);
	});
});
