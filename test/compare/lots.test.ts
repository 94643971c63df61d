import { describe, expect, test } from "vitest";
import {
	type CharLot,
	charLots,
	commonFeedstock,
	highestLots,
	type LotBasis,
	unlikeFeedstocks,
} from "../../kernel-lib/compare";
import {
	input,
	normal,
	notKnown,
	type Quantity,
} from "../../kernel-lib/quantity";
import {
	type FiringUptake,
	firingRoutes,
	linkFirings,
} from "../../kernel-lib/uptake";
import { kilnOf } from "../activation/firings";
import { kiln, list } from "../uptake/kiln-flasks";
import { charRow, type Row, steps } from "../uptake/sheets";

const mg = (value: number) => input("mass", value, "mg", normal(0), {});

const uptake = (value: number, u: number, name: string): Quantity<"uptake"> =>
	input("uptake", value, "mg/g", normal(u), { symbol: name });

interface Made {
	readonly u?: number;
	readonly values?: readonly number[];
	readonly residue?: number;
	readonly left?: number;
	readonly probe?: string;
	readonly demand?: unknown;
	readonly lossesTakenOff?: boolean;
	readonly more?: Partial<CharLot>;
}

/** A lot of one flask of 1 mg/g standard uncertainty at 1000 mg/L, unless told otherwise; per gram of feedstock a quarter. */
function lot(name: string, value: number, made: Made = {}): CharLot {
	const { u = 1, values = [value], residue = 1000, left = 50 } = made;
	const flasks = values.map(
		(v, i) =>
			({
				probe: made.probe ?? "iodine",
				uptake: { is: "value", quantity: uptake(v, u, `${name} ${i}`) },
				balance: { left: mg(left), added: mg(100) },
				demand: made.demand ?? { is: "none expected" },
				lossesTakenOff: made.lossesTakenOff ?? true,
				flask: { treatment: name },
			}) as unknown as FiringUptake,
	);
	return {
		firing: name,
		name,
		flasks,
		residues: [residue, residue],
		perGram: "dry char",
		perChar: { is: "value", quantity: uptake(value, u, `${name} mean`) },
		perFeedstock: {
			is: "value",
			quantity: uptake(value / 4, u / 4, `${name} feedstock`),
		},
		feedstock: "shell",
		dryFeedstock: true,
		unbalanced: [],
		...made.more,
	};
}

const names = (lots: readonly CharLot[]): string[] => lots.map((l) => l.name);
const leaders = (lots: readonly CharLot[], basis: LotBasis = "char") =>
	names(highestLots(lots, basis).leaders);

describe("the highest lot", () => {
	test("leads alone where the interval of the difference leaves out zero, on both sides of the limit", () => {
		// 1.96 times the root of two
		expect(leaders([lot("a", 102.78), lot("b", 100)])).toEqual(["a"]);
		expect(leaders([lot("a", 102.76), lot("b", 100)])).toEqual(["a", "b"]);
		const { behind } = highestLots(
			[lot("c", 90), lot("b", 100), lot("a", 110)],
			"char",
		);
		expect(names(behind)).toEqual(["b", "c"]);
	});

	test("per gram of feedstock by that uptake", () => {
		const rich = lot("rich", 100, {
			more: { perFeedstock: { is: "value", quantity: uptake(60, 1, "r") } },
		});
		expect(leaders([rich, lot("a", 110)], "feedstock")).toEqual(["rich"]);
		expect(leaders([rich, lot("a", 110)], "char")).toEqual(["a"]);
	});

	test("flasks that scatter by more than their reading errors take that in their place, pooled over the lots", () => {
		const wide = (name: string, value: number): CharLot =>
			lot(name, value, { u: 0.01, values: [value - 2, value + 2] });
		const tight = (name: string, value: number): CharLot =>
			lot(name, value, { u: 0.01, values: [value, value] });
		expect(leaders([tight("a", 105), tight("b", 100)])).toEqual(["a"]);
		expect(leaders([wide("a", 105), wide("b", 100)])).toEqual(["a", "b"]);
		// s is 2.83 mg/g with 2 degrees of freedom, and of the difference as large: 4.303 times 2.83 is 12.2
		expect(leaders([wide("a", 113), wide("b", 100)])).toEqual(["a"]);
		expect(leaders([wide("a", 111), wide("b", 100)])).toEqual(["a", "b"]);
	});

	test("at the lower residue needs no slope; at the higher one it is carried along the steepest curve", () => {
		const low = lot("b", 100, { residue: 1000 });
		expect(leaders([lot("a", 110, { residue: 500 }), low])).toEqual(["a"]);
		// 2^0.6 is 1.516
		expect(leaders([lot("a", 157, { residue: 2000 }), low])).toEqual(["a"]);
		expect(leaders([lot("a", 150, { residue: 2000 }), low])).toEqual([
			"a",
			"b",
		]);
		// A dye, or little left: a straight line through the origin.
		for (const more of [{ probe: "methylene blue" }, { left: 5 }])
			expect(
				leaders([
					lot("a", 157, { residue: 2000, ...more }),
					lot("b", 100, { ...more }),
				]),
			).toEqual(["a", "b"]);
		expect(leaders([lot("a", 500), lot("b", 100, { residue: 0 })])).toEqual([
			"a",
			"b",
		]);
	});

	test("leaves room for what its soak may feign, and the other's may hide", () => {
		const demand = (more: number, less: number) => ({
			is: "suspected",
			ceiling: {
				more: { is: "value", value: more },
				less: { is: "value", value: less },
			},
		});
		const of = (a: unknown, b: unknown) =>
			leaders([lot("a", 120, { demand: a }), lot("b", 100, { demand: b })]);
		expect(of(demand(16, 0), demand(0, 0))).toEqual(["a"]);
		expect(of(demand(18, 0), demand(0, 0))).toEqual(["a", "b"]);
		expect(of(demand(0, 90), demand(90, 16))).toEqual(["a"]);
		expect(of(demand(0, 0), demand(0, 18))).toEqual(["a", "b"]);
		// Per gram of feedstock a quarter of it.
		expect(
			leaders(
				[lot("a", 120, { demand: demand(16, 0) }), lot("b", 100)],
				"feedstock",
			),
		).toEqual(["a"]);
		expect(
			leaders(
				[lot("a", 120, { demand: demand(18, 0) }), lot("b", 100)],
				"feedstock",
			),
		).toEqual(["a", "b"]);
	});
});

describe("a lot has no place", () => {
	const because = (
		own: Partial<CharLot>,
		basis: LotBasis,
		made: Made = {},
	): string[] =>
		highestLots(
			[lot("a", 100), lot("b", 120, { ...made, more: own })],
			basis,
		).notRanked.map((r) => `${r.lot.name}: ${r.because}`);

	test.each<[string, Partial<CharLot>, Made, LotBasis, string]>([
		["without a mean", { perChar: notKnown("why") }, {}, "char", "why"],
		[
			"per gram as weighed",
			{ perGram: "char as weighed" },
			{},
			"char",
			"per gram of char as weighed",
		],
		[
			"with losses in it",
			{},
			{ lossesTakenOff: false },
			"char",
			"losses are not taken off",
		],
		[
			"whose weighings do not balance",
			{ unbalanced: ["x"] },
			{},
			"feedstock",
			"weighings do not balance",
		],
		[
			"of a feedstock of unknown moisture",
			{ dryFeedstock: false },
			{},
			"feedstock",
			"moisture of its precursor",
		],
	])("%s", (_, own, made, basis, words) => {
		expect(because(own, basis, made)).toEqual([
			expect.stringMatching(`^b: .*${words}`),
		]);
	});

	test("what concerns weighings alone leaves its place per gram of char", () => {
		expect(because({ unbalanced: ["x"], dryFeedstock: false }, "char")).toEqual(
			[],
		);
	});

	test("per gram of feedstock where the lots start from different things, or not all say from what", () => {
		const shells = lot("a", 100);
		const wood = lot("b", 120, { more: { feedstock: "wood" } });
		const unnamed = lot("c", 120, { more: { feedstock: "" } });
		expect(unlikeFeedstocks([shells, wood])).toContain("different");
		expect(unlikeFeedstocks([shells, unnamed])).toContain("does not say");
		const loud = lot("d", 1, { more: { feedstock: "Shell" } });
		expect(unlikeFeedstocks([shells, loud])).toBe("");
		expect(leaders([shells, wood], "feedstock")).toEqual([]);
		expect(highestLots([shells, wood], "feedstock").notRanked).toHaveLength(2);
		const noYield = lot("e", 1, {
			more: { feedstock: "wood", perFeedstock: notKnown("left out") },
		});
		expect(unlikeFeedstocks([shells, noYield])).toBe("");
		expect(commonFeedstock([noYield, shells])).toBe('dry "shell"');
		expect(commonFeedstock([{ ...shells, dryFeedstock: false }])).toBe(
			'"shell" as weighed',
		);
		expect(commonFeedstock([{ ...unnamed }])).toBe("dry feedstock");
		expect(commonFeedstock([noYield])).toBe('"wood" as weighed');
	});
});

describe("lots of a trial", () => {
	const routes = firingRoutes(kiln);
	test("are the flasks of a firing, treatment and soak; flasks without a firing are in none", () => {
		const [one, , three] = list;
		const lots = charLots([one, one, three], routes);
		expect(names(lots)).toEqual(["potash 1"]);
		expect(lots[0].flasks).toHaveLength(2);
		expect(lots[0].feedstock).toBe("hazelnut shell");
		expect(lots[0].dryFeedstock).toBe(false);
		const made = (row: Row, name: string) => charRow(name, row);
		const several = linkFirings(
			steps([
				made({ "char batch": "kiln 3", soak: "water 1" }, "a"),
				made({ "char batch": "kiln 3", soak: "Water  1" }, "b"),
				made({ "char batch": "kiln 3", soak: "", treatment: "raw" }, "c"),
			]).uptakes,
			kiln,
		);
		expect(names(charLots(several, routes))).toEqual([
			"kiln 3 (control, water 1)",
			"kiln 3 (raw)",
		]);
	});

	test.each<[string, Row[], string]>([
		[
			"a limit among them",
			[{}, { "titre (mL)": 0 }],
			"1 of 2 flasks gives a limit only",
		],
		[
			"unlike residues",
			[{}, { "titre (mL)": 3 }],
			"its flasks stand at unlike residues",
		],
		[
			"a soak without limit",
			[{ "soak consumes iodine": "unknown" }],
			"nothing limits what is left of its soak",
		],
	])("have no mean with %s", (_, rows, words) => {
		const made = linkFirings(
			steps(
				rows.map((row, i) =>
					charRow(`${i}`, {
						"char batch": "kiln 3",
						soak: "mystery liquor",
						treatment: "mystery liquor",
						"soak consumes iodine": "no",
						...row,
					}),
				),
			).uptakes,
			kiln,
		);
		const [own] = charLots(made, routes);
		expect(own.perChar.is === "not known" && own.perChar.because).toContain(
			words,
		);
		expect(own.perFeedstock.is).toBe("not known");
	});

	test("know no uptake per gram of feedstock where a yield is missing, and start from what the first firing did", () => {
		const two = kilnOf([
			{ firing: "first", precursor: "wood", "precursor mass (g)": 100 },
			{
				firing: "last",
				precursor: "char",
				"precursor mass (g)": 100,
				"precursor batch": "first",
				"product mass (g)": 40,
			},
		]);
		const made = linkFirings(
			steps([charRow("a", { soak: "last" })]).uptakes,
			two,
		);
		const [own] = charLots(made, firingRoutes(two));
		expect(own.perChar.is).toBe("value");
		expect(own.perFeedstock.is).toBe("not known");
		expect(own.feedstock).toBe("wood");
	});
});
