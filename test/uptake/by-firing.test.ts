import { describe, expect, test } from "vitest";
import { yields } from "../../kernel-lib/activation/index";
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
	feedstockTableOf,
	uptakeTableOf,
} from "../../kernel-lib/uptake/by-firing/tables";
import {
	conditionOfUptake,
	costTable,
	type FiringUptake,
	linkFirings,
	uptakesByFiring,
} from "../../kernel-lib/uptake/index";
import { kilnOf } from "../activation/firings";
import {
	dry,
	impossibleKiln,
	kiln,
	list,
	one,
	three,
	two,
	uptakes,
} from "./kiln-flasks";
import { charRow, type Row, steps } from "./sheets";

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

	test("a yield that cannot be carries its word to every table built on it", () => {
		const made = linkFirings(uptakes, impossibleKiln);
		for (const t of [
			uptakeTableOf(made),
			feedstockTableOf(made),
			uptakeCostTable(made.map((u) => uptakeCost(u, { currency: "EUR" }))),
		]) {
			expect(tableText(t)).toContain("does not close: potash 1");
			expect(t.notes.join()).toContain("u is the standard uncertainty");
		}
		expect(tableText(yields(impossibleKiln).table)).toContain("does not close");
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
		expect(cost.sentence).toMatch(
			/ EUR\/g \(u \S+ EUR\/g\) of iodine taken up/,
		);
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

	test("a firing that is left out gives no yield, not even on the way from the feedstock; tables say so", () => {
		const without = (firing: string) =>
			trialOf([{ firing, "what happened": "lid open" }]);
		const [first, second] = uptakesByFiring(without("kiln 3"));
		expect(link(first)).toBe("steam 1 by soak (steam 1)");
		expect(reason(first.perFeedstock)).toBe(
			'the firing "kiln 3", which its precursor came from, is left out',
		);
		expect(link(second)).toBe('the firing "kiln 3" is left out');
		const { table, perFeedstock } = uptakesByFiring(without("kiln 3"));
		for (const shown of [table, perFeedstock])
			expect(tableText(shown)).toContain('Left out: "kiln 3" (lid open).');
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

describe("why a flask has no firing", () => {
	const reasonOf = (change: Row): string =>
		link(linkFirings(steps([charRow("a", change)]).uptakes, kiln)[0]);

	test("nothing is named", () => {
		expect(reasonOf({})).toBe("neither a soak nor a char batch is named");
	});
	test("one of the two is named, and is no firing", () => {
		expect(reasonOf({ soak: "water 1" })).toBe(
			'neither the soak "water 1" nor the char batch "" is the name of a firing',
		);
		expect(reasonOf({ "char batch": "sack" })).toContain(
			'the char batch "sack" is the name',
		);
	});
	test("the reason goes with its conditions and its capacity", () => {
		expect(reason(three.perFeedstock)).toContain("kiln 9");
		expect(conditionOfUptake(three, "char yield")).toEqual(three.firing);
	});
});

describe("the way from the feedstock", () => {
	const chained = (rows: readonly Row[]) =>
		linkFirings(
			steps([charRow("a", { soak: "last" })]).uptakes,
			kilnOf(
				rows.map((row) => ({
					precursor: "char",
					"precursor mass (g)": 100,
					...row,
				})),
			),
		)[0];

	test("three firings, whatever the case of their names", () => {
		const u = chained([
			{ firing: "First", "fired mass (g)": 50 },
			{
				firing: "middle",
				"precursor batch": "FIRST",
				"product mass (g)": 40,
			},
			{ firing: "Last", "precursor batch": " Middle ", "product mass (g)": 80 },
		]);
		expect(link(u)).toBe("Last by soak (First, middle, Last)");
		expect(number(u.perFeedstock, "mg/g")).toBeCloseTo(
			u.uptake.quantity.in("mg/g") * 0.5 * 0.4 * 0.8,
			6,
		);
	});

	test("two that name each other are each taken once", () => {
		const u = chained([
			{ firing: "first", "precursor batch": "last", "product mass (g)": 50 },
			{ firing: "last", "precursor batch": "first", "product mass (g)": 40 },
		]);
		expect(link(u)).toBe("last by soak (first, last)");
	});

	test("a firing on the way whose product was not weighed gives no capacity", () => {
		const u = chained([
			{ firing: "first" },
			{ firing: "last", "precursor batch": "first", "product mass (g)": 40 },
		]);
		expect(u.perFeedstock.is).toBe("not known");
		expect(conditionOfUptake(u, "char yield").is).not.toBe("not known");
	});
});

describe("tables by firing", () => {
	test("conditions that no firing has are left out, and flasks without a firing are named once", () => {
		const table = uptakeTableOf(list);
		expect(table.columns).toEqual([
			"flask",
			"treatment",
			"firing",
			"impregnation ratio",
			"highest temperature",
			"burn-off",
			"char yield",
			"uptake (mg/g)",
			"at residual concentration (mg/L)",
		]);
		expect(table.rows.map((r) => r[2])).toEqual([
			"potash 1",
			"kiln 3",
			"",
			"potash 1",
		]);
		// no burn-off of a firing that charred, nothing of a flask without a firing
		expect(table.rows[1][5]).toBe("");
		expect(table.rows[2].slice(3, 7)).toEqual(["", "", "", ""]);
		expect(table.notes.filter((n) => n.startsWith("Without a"))).toHaveLength(
			1,
		);
		expect(uptakeTableOf([two]).columns).not.toContain("impregnation ratio");
		expect(uptakeTableOf([two]).notes).toHaveLength(2);
	});

	test("feedstock: the way, the yield and the capacity; nothing where there is no firing", () => {
		const { rows, notes } = feedstockTableOf(list);
		expect(rows[0][1]).toBe("kiln 3, potash 1");
		expect(rows[0][2]).toBe(
			one.firing.is === "linked" && one.firing.yieldFromFeedstock,
		);
		expect(rows[0][4]).toBe(one.perFeedstock);
		expect(rows[2].slice(1, 3)).toEqual(["", ""]);
		expect(rows[2][4]).toBe("");
		expect(notes.join()).toContain("char as weighed");
		const dryChar = linkFirings(
			steps([charRow("1", { soak: "potash 1", "mass basis": "dry" })]).uptakes,
			kiln,
		);
		expect(feedstockTableOf(dryChar).notes).toEqual([
			"mg per gram of feedstock is grams per kilogram.",
			"u is the standard uncertainty of the measuring error.",
		]);
		expect(feedstockTableOf([...dryChar, one]).notes.join()).toContain(
			"Some uptakes are per gram of char as weighed",
		);
	});

	test("only a firing whose balance does not close has a word in the last column", () => {
		const wrong = linkFirings(
			steps([
				charRow("1", { soak: "gain" }),
				charRow("2", { soak: "kiln 3" }),
				charRow("3"),
			]).uptakes,
			kilnOf([
				{ firing: "kiln 3", "precursor mass (g)": 500, "fired mass (g)": 138 },
				{ firing: "gain", "precursor mass (g)": 20, "product mass (g)": 26 },
			]),
		);
		const { columns, rows } = feedstockTableOf(wrong);
		expect(columns.at(-1)).toBe("balance");
		expect(rows.map((r) => r.at(-1))).toEqual(["does not close: gain", "", ""]);
		expect(feedstockTableOf(list).columns).not.toContain("balance");
	});

	test("costs: empty where none is known, with the bound where there is one", () => {
		const prices = { currency: "EUR", perKilowattHour: 0.3 };
		const { rows } = uptakeCostTable(list.map((u) => uptakeCost(u, prices)));
		expect(rows[0][1]).toBe("potash 1");
		expect(rows[0][4]).toMatch(/^\d\S* EUR\/g \(u \S+ EUR\/g\)$/);
		expect(rows[2].slice(1)).toEqual(["", "", "", ""]);
		expect(rows[3][4]).toMatch(/^at most /);
	});
});

describe("no cost per gram", () => {
	const costOf = (change: Row, firing: Row = { "product mass (g)": 15 }) =>
		uptakeCost(
			linkFirings(
				steps([charRow("1", { soak: "k", ...change })]).uptakes,
				kilnOf([
					{
						firing: "k",
						"precursor mass (g)": 20,
						"energy used (kWh)": 2,
						...firing,
					},
				]),
			)[0],
			{ currency: "EUR", perKilowattHour: 0.3 },
		);

	test("where nothing was taken up", () => {
		const none = costOf({ "titre (mL)": 12 });
		expect([none.energy, none.reagent, none.total].map((c) => c.is)).toEqual([
			"not known",
			"not known",
			"not known",
		]);
		expect(none.sentence).toBe(
			"Flask 1: no cost per gram taken up; nothing measurable was taken up.",
		);
	});
	test("where the product was not weighed", () => {
		expect(costOf({}, {}).sentence).toMatch(
			/^Flask 1: no cost per gram taken up/,
		);
	});
	test("at most so much taken up is at least so dear", () => {
		const cost = costOf({ "titre (mL)": 10.01 });
		expect(cost.total.is).toBe("at least");
		expect(cost.sentence).toMatch(/^Flask 1: at least .* of iodine taken up/);
		expect(costOf({}).sentence).toMatch(/^Flask 1: \(?\d/);
	});
});

test("a sheet of firings alone says that it holds no flasks", () => {
	const told = /holds no flasks, so there are no uptakes/;
	const { table, perFeedstock } = uptakesByFiring(kiln);
	for (const { notes } of [table, perFeedstock])
		expect(notes.filter((n) => told.test(n))).toHaveLength(1);
	const { trial } = steps([charRow("1")]);
	expect(uptakesByFiring(trial).table.notes.join()).not.toMatch(told);
});
