/** What stands first, and what is said of names that the list does not have. */
import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import {
	cautionsFor,
	cautionsIn,
	mustNot,
	notConcludedFromProperties,
} from "../../kernel-lib/cautions";
import { claimedUse } from "../../kernel-lib/cautions/claimed-use";
import { compareTreatments, marginOf } from "../../kernel-lib/compare";
import * as properties from "../../kernel-lib/properties/index";
import { chemicalIn, namesOf, substances } from "../../kernel-lib/substances";
import { firingNextSteps, nextSteps } from "../../kernel-lib/words";
import { kilnOf } from "../activation/firings";
import { charRow, plainSolutions, type Row } from "../uptake/sheets";

const cautionsOf = (change: Row): string[] =>
	cautionsFor(
		trialFromRows({
			flasks: [
				charRow("c"),
				charRow("t", { treatment: "steam", control: "control", ...change }),
			],
			solutions: plainSolutions,
		}),
	);

describe("the gravest stands first", () => {
	test("carbon monoxide of a kiln before what burns skin and eyes", () => {
		const found = cautionsIn([
			{ words: ["iodine", "hydrochloric acid"], texts: [] },
			{ words: ["kiln", "char"], texts: [] },
		]).map((c) => c.what);
		expect(found.slice(0, 3)).toEqual([
			"gas of a kiln",
			"iodine",
			"strong acid",
		]);
	});

	test("gas that chokes before every danger that does not kill, though its signal word is less", () => {
		const found = cautionsIn([{ words: ["iodine", "nitrogen"], texts: [] }]);
		expect(found.map((c) => c.signal)).toEqual(["warning", "danger"]);
		expect(found[0].text).toMatch(/^Danger to life, nitrogen: /);
	});

	test("a kiln that only a batch is named for gives off nothing here", () => {
		expect(cautionsOf({ "char batch": "kiln 3" }).join("\n")).not.toContain(
			"kiln gas:",
		);
		expect(
			cautionsFor(kilnOf([{ firing: "A", "precursor mass (g)": 5 }]))[0],
		).toContain("carbon monoxide");
	});
});

describe("a name that the list does not have", () => {
	test.each([
		["spilt tungsten carbide", "tungsten carbide"],
		["Ca3N2", "Ca3N2"],
		["acrylamide fumes", "acrylamide"],
		["trimethylbenzene", "trimethylbenzene"],
		["plate outside, stone", ""],
		["K1", ""],
		["H", ""],
		["Jar12", ""],
	])("of %s this looks like a chemical: %s", (words, chemical) => {
		expect(chemicalIn(words)).toBe(chemical);
	});

	test("is to be looked up in a note only where it looks like a chemical", () => {
		expect(cautionsOf({ notes: "spilt tungsten carbide" }).join("\n")).toMatch(
			/"tungsten carbide" is not on this program's list/,
		);
		expect(
			cautionsOf({ notes: "the door banged outside" }).join("\n"),
		).not.toMatch(/is not on/);
	});

	test.each([
		["nickel salts", "Danger to life, nickel salts:"],
		["lead paint flakes", "Danger to life, lead paint:"],
		["some nitrate", "Danger to life, nitrate:"],
		["cyanides", "Danger to life, cyanides:"],
	])("%s in a note calls for the caution on its kind", (notes, said) => {
		expect(cautionsOf({ notes }).join("\n")).toContain(said);
	});

	test("a word of a kind meets what it must not meet", () => {
		expect(cautionsOf({ notes: "cyanides", "soaked in": "vinegar" })[0]).toBe(
			`${mustNot}cyanide and acid. They give off hydrogen cyanide, which kills within minutes.`,
		);
	});

	test("a name that is said to be absent calls for nothing", () => {
		expect(
			cautionsOf({ notes: "without nickel salts" }).join("\n"),
		).not.toContain("nickel");
	});
});

describe("char with what must not be on it", () => {
	const red = (change: Row): string =>
		cautionsOf(change)
			.filter((t) => t.startsWith(mustNot))
			.join("\n");

	test.each(["KNO3", "permanganate", "H2O2", "potassium chlorate"])(
		"%s: never dried, ground or heated, whether or not the row speaks of heat",
		(soak) => {
			expect(red({ "soaked in": soak })).toMatch(
				/drying, grinding or heating char that holds an oxidiser/,
			);
		},
	);

	test("a solvent and a drying oven, in one row only", () => {
		const dried = { "drying 1 time (h)": 1, "drying 1 mass (g)": 4 };
		const of = (change: Row): string =>
			cautionsFor(
				kilnOf([{ firing: "A", "precursor mass (g)": 5, ...change }]),
			).join("\n");
		expect(of({ agent: "acetone", ...dried })).toMatch(/solvent in a drying/);
		expect(of({ agent: "acetone" })).not.toMatch(/solvent in a drying/);
		expect(of({ agent: "water", ...dried })).not.toMatch(/solvent in a drying/);
	});
});

describe("a table of properties", () => {
	const sheet = (change: Row) =>
		properties.propertiesFromRows([
			{
				determination: "a",
				sample: "shell char",
				property: "moisture",
				"dish (g)": 20,
				"dish and sample (g)": 30,
				"dish after (g)": 29.2,
				...change,
			},
		]);

	test("its notes are read for what is dangerous", () => {
		expect(
			cautionsFor(sheet({ notes: "smells of benzene" })).join("\n"),
		).toContain("Danger, benzene:");
	});

	test.each<Row>([
		{ sample: "drinking water char" },
		{ notes: "safe for babies" },
	])("%o is quoted and contradicted first", (change) => {
		const said = notConcludedFromProperties(
			properties.charProperties(sheet(change)),
		);
		expect(said[0]).toBe(
			`The sheet says "${Object.values(change)[0]}": the words are the sheet's; nothing here tested it.`,
		);
	});

	test.each(["food waste char", "cured at 105", "health and safety seen to"])(
		"%s claims nothing",
		(sample) => {
			expect(
				notConcludedFromProperties(
					properties.charProperties(sheet({ sample })),
				)[0],
			).not.toMatch(/The sheet says/);
		},
	);
});

describe("what an ordinary sheet says is no alarm", () => {
	const red = (change: Row): string =>
		cautionsOf(change)
			.filter((t) => t.startsWith(mustNot))
			.join("\n");

	test.each([
		"silver nitrate test of the last rinse: no chloride",
		"thiosulfate standardised against iodate",
		"no trace of nitrate",
		"no smell of ammonia",
		"crucible rinsed with acetone",
	])("a note: %s", (notes) => {
		expect(red({ notes })).toBe("");
	});

	test("alkali that was not fired", () => {
		expect(cautionsOf({ treatment: "KOH, not fired" }).join("\n")).not.toMatch(
			/hot char|Danger to life, kiln gas/,
		);
		expect(red({ "soaked in": "KOH", notes: "not fired" })).toBe("");
		expect(red({ "soaked in": "KOH", notes: "then fired" })).toContain(
			"water on alkali and char",
		);
	});

	test.each(["kept in a plastic bag", "rubber stopper", "vinyl gloves worn"])(
		"%s is no feedstock",
		(notes) => {
			expect(cautionsOf({ notes }).join("\n")).not.toMatch(/treated/);
			expect(
				cautionsFor(
					kilnOf([
						{ firing: "A", "precursor mass (g)": 5, precursor: "plastic" },
					]),
				).join("\n"),
			).toMatch(/may be treated: Feedstock/);
		},
	);

	test.each(["dust mask worn", "kept safe in the desiccator"])(
		"%s is no claim",
		(notes) => {
			const trial = trialFromRows({
				flasks: [charRow("c", { notes })],
				solutions: plainSolutions,
			});
			expect(claimedUse(trial)).toEqual([]);
		},
	);
});

describe("what must not meet acid", () => {
	const red = (change: Row): string =>
		cautionsOf(change)
			.filter((t) => t.startsWith(mustNot))
			.join("\n");

	test.each([
		[{ "soaked in": "sodium azide", "acid boiled": "yes" }, /azide and acid/],
		[
			{ "soaked in": "permanganate, then sulfuric acid" },
			/strong oxidiser .* and strong acid/,
		],
		[{ "soaked in": "bleach, then acetone" }, /bleach and a solvent/],
		[{ "soaked in": "Ammoniumsulfat" }, /iodine and ammonia/],
	] as [Row, RegExp][])("%o", (change, words) => {
		expect(red(change)).toMatch(words);
	});
});

test("each name is of one substance alone", () => {
	const owners = new Map<string, string>();
	for (const s of substances)
		for (const { key } of namesOf(s)) {
			expect(owners.get(key) ?? s.name, key).toBe(s.name);
			owners.set(key, s.name);
		}
	expect(new Set(substances.map((s) => s.name)).size).toBe(substances.length);
});

test("drying is not advised where it must not be done", () => {
	const dried = {
		"drying 1 time (h)": 1,
		"drying 1 mass (g)": 4,
		"drying 2 time (h)": 2,
		"drying 2 mass (g)": 3,
	};
	const next = (agent: string): string =>
		firingNextSteps(
			kilnOf([{ firing: "A", "precursor mass (g)": 5, agent, ...dried }]),
		).join("\n");
	expect(next("KNO3")).toMatch(/do not go on drying it in an oven/);
	expect(next("KNO3")).not.toMatch(/weigh the drying more often/);
	expect(next("phosphoric acid")).not.toMatch(/do not go on drying/);
});

test("no more of a treatment is asked for that must not be made", () => {
	const next = (soak: string): string =>
		JSON.stringify(
			nextSteps(
				compareTreatments(
					trialFromRows({
						flasks: [
							charRow("c"),
							charRow("t", {
								treatment: "steam",
								control: "control",
								"soaked in": soak,
							}),
						],
						solutions: plainSolutions,
					}),
					{ margin: marginOf(25) },
				),
			).rows,
		);
	expect(next("KNO3")).toMatch(/Make no more of it.*gunpowder/);
	expect(next("KNO3")).toContain("Make every other treatment");
	expect(next("water")).not.toMatch(/Make no more|every other/);
});
