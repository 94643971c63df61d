import { describe, expect, test } from "vitest";
import { firingYields, yields } from "../../kernel-lib/activation/index";
import {
	covariance,
	type Kind,
	type Measured,
	type NotKnown,
	tableText,
} from "../../kernel-lib/quantity/index";
import {
	uptakeCost,
	uptakeCostTable,
} from "../../kernel-lib/uptake/by-firing/cost";
import {
	answerOf,
	uptakeSentences,
} from "../../kernel-lib/uptake/by-firing/sentences";
import {
	feedstockTableOf,
	uptakeTableOf,
} from "../../kernel-lib/uptake/by-firing/tables";
import {
	conditionOfUptake,
	costTable,
	type FiringUptake,
	feedstockTable,
	firingAnswer,
	firingTable,
	linkFirings,
	uptakesByFiring,
} from "../../kernel-lib/uptake/index";
import { kilnOf } from "../activation/firings";
import { charRow, steps } from "./sheets";

const kiln = kilnOf([
	{
		firing: "kiln 3",
		precursor: "hazelnut shell",
		"precursor mass (g)": 500,
		"precursor moisture, wet basis (%)": 8,
		"fired mass (g)": 138,
		"step 1 temperature (°C)": 500,
	},
	{
		firing: "potash 1",
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
]);
const { uptakes } = steps([
	charRow("1", { soak: "potash 1", "char batch": "kiln 3" }),
	charRow("2", { soak: "water 1", "char batch": "kiln 3" }),
	charRow("3", { soak: "water 1", "char batch": "kiln 9" }),
	charRow("4", { soak: "potash 1", "titre (mL)": 0 }),
]);
const list = linkFirings(uptakes, kiln);
const [one, two, three, dry] = list;
const number = (result: Measured<Kind> | NotKnown, unit: string): number => {
	if (result.is === "not known") throw new Error(result.because);
	return result.quantity.in(unit as never);
};
const reason = (result: Measured<Kind> | NotKnown): string =>
	result.is === "not known" ? result.because : "";
const link = ({ firing }: FiringUptake): string =>
	firing.is === "linked"
		? `${firing.yields.firing.name} by ${firing.linkedBy} (${firing.chain.join(", ")})`
		: firing.because;

describe("every uptake carries its firing", () => {
	test("by the soak, else by the char batch, else it says why not", () => {
		expect([one, two].map(link)).toEqual([
			"potash 1 by soak (kiln 3, potash 1)",
			"kiln 3 by char batch (kiln 3)",
		]);
		expect(
			link(
				linkFirings(
					steps([charRow("5", { soak: " Potash  1 ", "char batch": "kiln 9" })])
						.uptakes,
					kiln,
				)[0],
			),
		).toBe("potash 1 by soak (kiln 3, potash 1)");
		expect(link(three)).toContain('"water 1" nor the char batch "kiln 9"');
		expect(one.uptake).toEqual(uptakes[0].uptake);
	});

	test("conditions of the firing", () => {
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
		expect(number(one.perFeedstock, "mg/g")).toBeCloseTo(
			q * (138 / 460) * (15 / 20),
			9,
		);
		expect(number(two.perFeedstock, "mg/g")).toBeCloseTo(
			two.uptake.quantity.in("mg/g") * (138 / 460),
			9,
		);
	});

	test("two flasks of one firing share the yield's error", () => {
		const other = linkFirings(
			[{ ...two, flask: { ...two.flask, soak: one.flask.soak } }],
			kiln,
		)[0];
		const [a, b] = [one.perFeedstock, other.perFeedstock];
		if (a.is !== "value" || b.is !== "value") throw new Error("no value");
		const yieldOf =
			one.firing.is === "linked" ? one.firing.yieldFromFeedstock : null;
		if (yieldOf?.is !== "value") throw new Error("no yield");
		const u = yieldOf.quantity.to("1").standardUncertainty;
		const q = [one, two].map((x) => x.uptake.quantity.in("mg/g"));
		const shared = covariance(one.uptake.quantity, two.uptake.quantity);
		expect(covariance(a.quantity, b.quantity)).toBeCloseTo(
			q[0] * q[1] * u * u + yieldOf.quantity.in("1") ** 2 * shared,
			9,
		);
	});

	test("a sentence a firing", () => {
		const said = uptakeSentences([one, { ...one }, two]);
		expect(said[0]).toMatch(
			/^potash 1: 2 flasks: \([\d.]+ ± [\d.]+\) mg\/g of iodine at a residue of \d+ mg\/L; per gram of dry feedstock \(/,
		);
		const u95 = 1.96 * one.uptake.quantity.to("mg/g").standardUncertainty;
		expect(
			Number(/± ([\d.]+)/.exec(uptakeSentences([one])[0])?.[1]) / u95,
		).toBeCloseTo(1, 1);
		expect(said[1]).toMatch(
			/^kiln 3: 1 flask, firing taken from the char batch, as the soak "water 1" is no firing: /,
		);
		expect(uptakeSentences([one, dry])[0]).toContain("1 of 2 only at least");
		expect(uptakeSentences([three])).toEqual([
			'Flask 3: no firing is known; neither the soak "water 1" nor the char batch "kiln 9" is the name of a firing.',
		]);
	});

	test("a soak that nearly is a firing gets none and asks; no mean over treatments or unlike residues", () => {
		const made = linkFirings(
			steps([
				charRow("a", { soak: "potash1", "char batch": "kiln 3" }),
				charRow("b", { "char batch": "kiln 3", treatment: "one" }),
				charRow("c", { "char batch": "kiln 3", treatment: "other" }),
				charRow("d", { soak: "potash 1" }),
				charRow("e", { soak: "potash 1", "titre (mL)": 3 }),
			]).uptakes,
			kiln,
		);
		const said = uptakeSentences(made);
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
			'Flask a: no firing is known; the soak "potash1" is no firing (did you mean "potash 1"?).',
		);
	});

	test("a yield that cannot be carries its word to every figure built on it", () => {
		const wrong = kilnOf([
			{
				firing: "kiln 3",
				precursor: "hazelnut shell",
				"precursor mass (g)": 500,
				"fired mass (g)": 138,
			},
			{
				firing: "potash 1",
				precursor: "char of kiln 3",
				"precursor batch": "KILN 3",
				"precursor mass (g)": 20,
				"step 1 temperature (°C)": 800,
				"step 1 hold (min)": 60,
				"step 1 steam (g/min)": 2,
				"product mass (g)": 26,
			},
		]);
		const made = linkFirings(uptakes, wrong);
		const answer = answerOf(wrong.firings.map(firingYields), made);
		expect(answer.filter((s) => s.includes("does not close"))).toEqual([
			expect.stringMatching(
				/^potash 1: .*not to be relied on, for its balance does not close \(more dry product than dry precursor\)\..* per gram of dry feedstock .*, on a balance that does not close\.$/,
			),
		]);
		expect(answer.at(-1)).toContain("95 % interval");
		for (const t of [
			uptakeTableOf(made),
			feedstockTableOf(made),
			uptakeCostTable(made.map((u) => uptakeCost(u, { currency: "EUR" }))),
		]) {
			expect(tableText(t)).toContain("does not close: potash 1");
			expect(t.notes.join()).toContain("(k = 1)");
		}
		expect(tableText(yields(wrong).table)).toContain("does not close");
		expect(tableText(feedstockTableOf(list))).not.toContain("does not close");
	});

	test("a bound stays a bound", () => {
		expect(dry.uptake.is).toBe("at least");
		expect(dry.perFeedstock.is).toBe("at least");
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
			uptakeTableOf(list),
			feedstockTableOf(list),
			uptakeCostTable(list.map((u) => uptakeCost(u, prices))),
		]) {
			expect(tableText(t)).not.toMatch(/NaN|undefined|Infinity|money/);
		}
		expect(tableText(uptakeTableOf(list))).toContain("Without a firing: 3.");
	});
});

describe("of a trial", () => {
	const activation: Record<string, string | number>[] = [
		{
			firing: "kiln 3",
			precursor: "hazelnut shell",
			"precursor mass (g)": 500,
			"fired mass (g)": 138,
		},
		{
			firing: "steam 1",
			precursor: "char of kiln 3",
			"precursor batch": "kiln 3",
			"precursor mass (g)": 20,
			"product mass (g)": 15,
			"energy used (kWh)": 2,
		},
	];
	const trialOf = (deviations: readonly Record<string, string>[] = []) =>
		steps(
			[
				charRow("1", { soak: "steam 1" }),
				charRow("2", { "char batch": "kiln 3" }),
			],
			undefined,
			{ activation, deviations: [...deviations] },
		).trial;

	test("computed once and kept", () => {
		const trial = trialOf();
		expect(uptakesByFiring(trial)).toBe(uptakesByFiring(trial));
		expect(uptakesByFiring(trial).map(link)).toEqual([
			"steam 1 by soak (kiln 3, steam 1)",
			"kiln 3 by char batch (kiln 3)",
		]);
	});

	test("a firing that is left out gives no yield, not even on the way from the feedstock; tables and answer say so", () => {
		const without = (firing: string) =>
			trialOf([{ firing, "what happened": "lid open" }]);
		const [first, second] = uptakesByFiring(without("kiln 3"));
		expect(link(first)).toBe("steam 1 by soak (steam 1)");
		expect(reason(first.perFeedstock)).toBe(
			'the firing "kiln 3", which its precursor came from, is left out',
		);
		expect(link(second)).toBe('the firing "kiln 3" is left out');
		for (const table of [firingTable, feedstockTable])
			expect(tableText(table(without("kiln 3")))).toContain(
				"Left out: kiln 3 (lid open).",
			);
		const answer = firingAnswer(without("steam 1"));
		expect(answer.some((s) => s.startsWith("steam 1: "))).toBe(false);
		expect(answer.at(-1)).toBe("Left out: steam 1 (lid open).");
	});

	test("a price that it does not know is refused, with the nearest name", () => {
		expect(() =>
			costTable(trialOf(), {
				currency: "EUR",
				perKilowatthour: 0.3,
			} as never),
		).toThrow(/Did you mean "perKilowattHour"/);
		expect(() =>
			costTable(trialOf(), { currency: "EUR", perKilowattHour: -1 }),
		).toThrow(/a price of -1 for energy/);
	});
});
