import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import { type IodineDemand, uptakes } from "../../kernel-lib/uptake";
import { charRow, plainSolutions, type Row, steps } from "./sheets";

function demand(change: Row): IodineDemand {
	const { uptakes } = steps([
		charRow("c"),
		charRow("t", { treatment: "treated", control: "control", ...change }),
	]);
	return uptakes[1].demand;
}

function looksLike(change: Row): string {
	const found = demand(change);
	return found.is === "suspected" ? found.looksLike : found.is;
}

describe("what the name of a soak tells", () => {
	test.each<[string, string]>([
		// what was suspected before there was one list of substances
		["potash, 10 % w/w", "more uptake"],
		["K2CO3 1 mol/L", "more uptake"],
		["Washing soda", "more uptake"],
		["soda ash", "more uptake"],
		["soda", "more uptake"],
		["sodium carbonate", "more uptake"],
		["NaHCO3", "more uptake"],
		["KOH", "more uptake"],
		["caustic potash", "more uptake"],
		["lye", "more uptake"],
		["slaked lime", "more uptake"],
		["Ca(OH)2", "more uptake"],
		["wood ash", "more uptake"],
		["ash liquor", "more uptake"],
		["ammonia", "more uptake"],
		["wood vinegar", "more uptake"],
		["pyroligneous acid", "more uptake"],
		["0.1 % ascorbic acid", "more uptake"],
		["sulphite", "more uptake"],
		["metabisulfite", "more uptake"],
		["tannin", "more uptake"],
		["tea", "more uptake"],
		// what was missed
		["K₂CO₃", "more uptake"],
		["caustic", "more uptake"],
		["quicklime", "more uptake"],
		["limewater", "more uptake"],
		["bicarbonate of soda", "more uptake"],
		["thiosulfate", "more uptake"],
		["iron(II) sulfate", "more uptake"],
		["sugar", "more uptake"],
		["bio-oil", "more uptake"],
		["Bio-Öl", "more uptake"],
		["Teer", "more uptake"],
		["huile de lin", "either"],
		["Pottasche", "more uptake"],
		["lime juice", "more uptake"],
		["hydrogen peroxide 3 %", "less uptake"],
		["bleach", "either"],
		["saltpetre", "either"],
		["KMnO4", "less uptake"],
		["FeCl3", "less uptake"],
		["sodium nitrite", "less uptake"],
		["CuSO4·5H2O", "less uptake"],
		["bleach, then washing soda", "either"],
		["kitchen magic", "either"],
		["water with a secret", "either"],
	])("soaked in %s: it may look like %s", (soakedIn, expected) => {
		expect(looksLike({ "soaked in": soakedIn })).toBe(expected);
	});

	test.each([
		"water",
		"tap water, overnight",
		"steam, then water",
		"table salt, 10 % w/w",
		"CaCl2·2H2O",
		"Epsom salt",
		"potash alum",
		"hydrochloric acid, washed out",
		"citric acid",
		"potash-free water",
		"10 % solution",
		"not soaked; fired a second time under a lid",
	])("soaked in %s: nothing is suspected", (soakedIn) => {
		expect(looksLike({ "soaked in": soakedIn })).toBe("none expected");
	});

	test("the name of the treatment or the soak speaks too, where what it was soaked in does not", () => {
		const soakedIn = "10 % solution";
		expect(looksLike({ treatment: "potash", "soaked in": soakedIn })).toBe(
			"more uptake",
		);
		expect(looksLike({ soak: "potash 1", "soaked in": soakedIn })).toBe(
			"more uptake",
		);
	});

	test.each(["K2CO3", "H2O2", "Na2CO3"])(
		"a whole formula as a label is a formula: %s",
		(formula) => {
			const expected = formula === "H2O2" ? "less uptake" : "more uptake";
			expect(looksLike({ treatment: formula })).toBe(expected);
			expect(looksLike({ soak: formula })).toBe(expected);
		},
	);

	test("iodine as a treatment is what was titrated, and a label that looks like a formula is a label", () => {
		expect(looksLike({ treatment: "iodine test" })).toBe("none expected");
		expect(looksLike({ soak: "O3" })).toBe("none expected");
	});

	test.each<[string, Row]>([
		["treatment", { treatment: "Zaubertrank" }],
		["soak", { treatment: "A", soak: "grandmother's brew" }],
		["treatment", { treatment: "grandmother's", "soaked in": "10 % solution" }],
	])("an unknown word of the %s may be what it was soaked in", (_, row) => {
		expect(looksLike(row)).toBe("either");
	});

	test.each<[string, Row]>([
		["salt", { treatment: "grandmother's", "soaked in": "table salt" }],
		["water", { treatment: "rain barrel of Tuesday", "soaked in": "water" }],
		["nothing", { treatment: "grandmother's", "soaked in": "nothing" }],
		["no soak", { treatment: "grandmother's", "soaked in": "not soaked" }],
	])("unless the sheet says what it was: %s", (_, row) => {
		expect(looksLike(row)).toBe("none expected");
	});
});

describe("the sheet's own word", () => {
	test("no: what consumes iodine is settled; what frees iodine, or may, is another question", () => {
		const no = { "soak consumes iodine": "no" };
		expect(looksLike({ "soaked in": "potash", ...no })).toBe("none expected");
		expect(looksLike({ "soaked in": "kitchen magic", ...no })).toBe(
			"less uptake",
		);
		expect(looksLike({ "soaked in": "saltpetre", ...no })).toBe("less uptake");
		expect(looksLike({ "soaked in": "bleach", ...no })).toBe("less uptake");
	});

	test("yes: suspected whatever the name", () => {
		const yes = { "soak consumes iodine": "yes" };
		expect(looksLike({ "soaked in": "water", ...yes })).toBe("more uptake");
		expect(looksLike({ "soaked in": "bleach", ...yes })).toBe("either");
	});
});

const firing = (name: string, agent: string, from: string): Row => ({
	"activation run": name,
	agent,
	precursor: "shell",
	"precursor batch": from,
	"precursor mass (g)": 100,
});

test("the agent of the firing that the char came from speaks, and that of the firing before it", () => {
	const trial = trialFromRows({
		flasks: [
			charRow("c"),
			charRow("t", { treatment: "A", control: "control", soak: "kiln 2" }),
			charRow("u", {
				treatment: "B",
				control: "control",
				"char batch": "kiln 1",
			}),
			charRow("v", { treatment: "C", control: "control", soak: "kiln 3" }),
		],
		solutions: plainSolutions,
		activation: [
			firing("kiln 1", "potash", ""),
			firing("kiln 2", "steam", "kiln 1"),
			firing("kiln 3", "none", ""),
		],
	});
	expect(uptakes(trial).map((u) => u.demand.is)).toEqual([
		"none expected",
		"suspected",
		"suspected",
		"none expected",
	]);
});

describe("firings that lead to a char", () => {
	const demandsOf = (flasks: Row[], activation: Row[]): string[] =>
		uptakes(
			trialFromRows({
				flasks: [charRow("c"), ...flasks],
				solutions: plainSolutions,
				activation,
			}),
		)
			.slice(1)
			.map((u) => u.demand.is);
	const treated = (change: Row): Row =>
		charRow("t", { treatment: "A", control: "control", ...change });

	test("the soak names it before the batch does", () => {
		const firings = [
			firing("kiln 1", "potash", ""),
			firing("kiln 2", "none", ""),
		];
		expect(
			demandsOf([treated({ soak: "kiln 2", "char batch": "kiln 1" })], firings),
		).toEqual(["none expected"]);
		expect(
			demandsOf([treated({ soak: "kiln 1", "char batch": "kiln 2" })], firings),
		).toEqual(["suspected"]);
	});

	test("case and spaces of its name do not count", () => {
		expect(
			demandsOf(
				[treated({ soak: "KILN  2" })],
				[firing("kiln 1", "potash", ""), firing("Kiln 2", "none", "KILN 1")],
			),
		).toEqual(["suspected"]);
	});

	test("an agent that is not on the list may do either", () => {
		const firings = [firing("kiln 1", "kitchen magic and potash", "")];
		const [u] = uptakes(
			trialFromRows({
				flasks: [treated({ soak: "kiln 1" }), charRow("c")],
				solutions: plainSolutions,
				activation: firings,
			}),
		);
		expect(u.demand.is === "suspected" && u.demand.looksLike).toBe("either");
		expect(u.demand.is === "suspected" && u.demand.ceiling.more).toMatchObject({
			because: expect.stringContaining('"magic"'),
		});
	});

	test("two that name each other as their precursor are each read once", () => {
		expect(
			demandsOf(
				[treated({ soak: "kiln 1" })],
				[
					firing("kiln 1", "none", "kiln 2"),
					firing("kiln 2", "potash", "kiln 1"),
				],
			),
		).toEqual(["suspected"]);
	});

	test("its name is a label, not a word of what was soaked in", () => {
		const firings = [firing("zauber", "none", "")];
		expect(demandsOf([treated({ soak: "Zauber" })], firings)).toEqual([
			"none expected",
		]);
		expect(demandsOf([treated({ soak: "brew" })], firings)).toEqual([
			"suspected",
		]);
	});
});

test("the sheet's own word is the reason, beside what frees iodine", () => {
	const said = (soakedIn: string): string => {
		const found = demand({
			"soaked in": soakedIn,
			"soak consumes iodine": "yes",
		});
		return found.is === "suspected" ? found.because : "";
	};
	expect(said("potash")).toBe("the sheet says that the soak consumes iodine");
	expect(said("KMnO4")).toBe(
		"the sheet says that the soak consumes iodine; potassium permanganate left in the char frees iodine from iodide",
	);
});

test("an oxidiser in alkali may do either, and says why", () => {
	const found = demand({ "soaked in": "bleach" });
	expect(found.is === "suspected" && found.because).toMatch(
		/frees iodine from iodide; it also makes the liquid alkaline/,
	);
	const acid = demand({ "soaked in": "KMnO4" });
	expect(acid.is === "suspected" && acid.because).not.toContain("alkali");
});

test("the reasons are told, each once; an unknown name is quoted", () => {
	const found = demand({
		treatment: "potash",
		"soaked in": "potash and magic",
	});
	expect(found.is === "suspected" && found.because).toBe(
		'potassium carbonate left in the char makes the liquid alkaline, and iodine disproportionates in alkali; "magic" is not on the list of substances: whether what is left of it in the char consumes or frees iodine is not known',
	);
});
