import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import { uptakes } from "../../kernel-lib/uptake";
import {
	ammoniaInAny,
	jointAmmonia,
	safeToDose,
} from "../../kernel-lib/uptake/ammonia";
import { contradictionsTold } from "../../kernel-lib/uptake/contradictions-told";
import { charRow, plainSolutions, type Row, steps } from "./sheets";

const cautionsOf = (change: Row, ...more: Row[]): string =>
	steps([
		charRow("c"),
		charRow("t", { treatment: "treated", control: "control", ...change }),
		...more,
	])
		.uptakes.find((u) => u.flask.name === "t")
		?.cautions.join(" ") ?? "";

describe("alkali and thiosulfate", () => {
	test("of a soak: alkali may be left; a pH that was read speaks in its place", () => {
		const soda = { "soaked in": "washing soda" };
		expect(cautionsOf(soda)).toMatch(
			/^Alkali may be left in the char and the aliquot was not recorded as acidified/,
		);
		expect(cautionsOf({ ...soda, acidified: "no" })).toContain(
			"was not acidified",
		);
		expect(cautionsOf({ ...soda, "final pH": 7 })).toBe("");
		expect(cautionsOf({ ...soda, "final pH": 7.5 })).toBe("");
		expect(cautionsOf({ ...soda, "final pH": 7.6 })).toMatch(
			/^The final liquid was alkaline/,
		);
		expect(cautionsOf({ ...soda, acidified: "yes" })).toBe("");
	});
	test("of a soak of which one part is alkaline", () => {
		expect(cautionsOf({ "soaked in": "NaCl, then KOH" })).toContain("Alkali");
		expect(cautionsOf({ "soaked in": "NaCl, then HCl" })).toBe("");
	});
});

describe("what was seen on the bench", () => {
	test.each<[string, string, string]>([
		["blue returned", "yes", "fines passed the filter"],
		["blue returned", "no", ""],
		["blue returned", "", ""],
		["first runnings discarded", "no", "the filter itself takes up iodine"],
		["first runnings discarded", "yes", ""],
		["first runnings discarded", "", ""],
	])("%s: %s", (column, written, words) => {
		const said = cautionsOf({ [column]: written });
		expect(said === "").toBe(words === "");
		expect(said).toContain(words);
	});
});

describe("repeats further apart than reading them explains", () => {
	const blank = (flask: string, contents: string, change: Row): Row => ({
		flask,
		contents,
		"aliquot (mL)": 25,
		...change,
	});
	const reagent = [0, 0.6].map((titre, i) =>
		blank(`r${i}`, "reagent blank", { "titre (mL)": titre }),
	);
	const without = [8, 9.8].map((titre, i) =>
		blank(`i${i}`, "iodine blank", {
			"dose (mL)": 40,
			"made up to (mL)": 100,
			"titre (mL)": titre,
		}),
	);

	test("its own titres, and only those of the flask itself", () => {
		const rows = [
			charRow("a", { "titre (mL)": "", "titre 1 (mL)": 4, "titre 2 (mL)": 6 }),
			charRow("b", { "titre (mL)": "", "titre 1 (mL)": 5, "titre 2 (mL)": 5 }),
		];
		const [a, b] = steps(rows).uptakes;
		expect(a.cautions.join()).toContain("Titres of flask a lie from 4 to 6 mL");
		expect(b.cautions).toEqual([]);
	});

	test("the blanks that correct it, each once", () => {
		expect(cautionsOf({}, ...reagent)).toMatch(
			/^Titres of the reagent blanks \(r0, r1\) lie from 0 to 0.6 mL[^(]*\(/,
		);
		expect(cautionsOf({}, ...without)).toMatch(
			/^Recoveries of the blanks without char \(i0, i1\)/,
		);
		expect(cautionsOf({}, reagent[0], without[0])).toBe("");
	});

	test("titres of reagent blanks say nothing of a flask that was read", () => {
		const [read] = uptakes(
			trialFromRows({
				flasks: [
					charRow("a", {
						"titre (mL)": "",
						"aliquot (mL)": "",
						dilution: 10,
						"absorbance 1": 0.2,
					}),
					charRow("b"),
					...reagent,
				],
				solutions: plainSolutions,
				calibration: [0, 100, 200, 300].map((c, i) => ({
					standard: `E${c}`,
					"concentration (mg/L)": c,
					"absorbance 1": 0.001 * c + (i % 2) * 1e-4,
				})),
			}),
		);
		expect(read.flask.name).toBe("a");
		expect(read.cautions.join()).not.toContain("reagent");
	});
});

describe("numbers that cannot be right are told once for all flasks that share the cause", () => {
	const flask = (
		name: string,
		contradiction = "Odd.",
		likelyCause = "A slip.",
	) => ({ flask: { name }, contradiction, likelyCause }) as never;
	const told = (...flasks: string[]) =>
		contradictionsTold([
			...flasks.map((name) => flask(name)),
			flask("well", "", ""),
		]);

	test("nothing where nothing contradicts", () => {
		expect(contradictionsTold([flask("a", "", "")])).toEqual([]);
		expect(contradictionsTold([])).toEqual([]);
	});
	test("one flask, three by name, the fourth is counted", () => {
		expect(told("a")).toEqual(["Flask a: Odd. A slip."]);
		expect(told("a", "b", "c")).toEqual([
			"Flasks a, b, c; of flask a: Odd. A slip.",
		]);
		expect(told("a", "b", "c", "d", "e")).toEqual([
			"Flasks a, b, c and 2 more; of flask a: Odd. A slip.",
		]);
	});
	test("all of them, so that a column is wrong; the only one there is stays a flask", () => {
		expect(contradictionsTold([flask("a"), flask("b")])).toEqual([
			"All 2 flasks, so that most likely a whole column is wrong; of flask a: Odd. A slip.",
		]);
		expect(contradictionsTold([flask("a")])).toEqual(["Flask a: Odd. A slip."]);
	});
	test("each cause for itself; without a cause nothing is added", () => {
		expect(
			contradictionsTold([
				flask("a"),
				flask("b", "Other.", ""),
				flask("c"),
				flask("d", "", ""),
			]),
		).toEqual(["Flasks a, c; of flask a: Odd. A slip.", "Flask b: Other."]);
	});
});

describe("ammonia", () => {
	test("the most that has to be reckoned with", () => {
		expect(jointAmmonia([])).toBe("none named");
		expect(jointAmmonia(["none named", "not known"])).toBe("not known");
		expect(jointAmmonia(["not known", "named", "none named"])).toBe("named");
	});
	test("matters where iodine is dosed", () => {
		const dye = { probe: "methylene blue", ammonia: "named" } as const;
		expect(ammoniaInAny([dye])).toBe("none named");
		expect(ammoniaInAny([dye, { probe: "iodine", ammonia: "not known" }])).toBe(
			"not known",
		);
	});
	test("turns advice to dose into its contrary; no advice stays none", () => {
		expect(safeToDose("none named", "Dose.")).toBe("Dose.");
		expect(safeToDose("named", "")).toBe("");
		expect(safeToDose("not known", "")).toBe("");
		expect(safeToDose("named", "Dose.")).toMatch(
			/^The char may hold ammonia: do not dose/,
		);
		expect(safeToDose("not known", "Dose.")).toMatch(
			/^Dose\. Do so only if the char surely holds no ammonia/,
		);
	});

	const ammonia = (change: Row, activation: Row[] = []) =>
		steps(
			[
				charRow("c"),
				charRow("t", { treatment: "treated", control: "control", ...change }),
			],
			undefined,
			{ activation },
		).uptakes[1].ammonia;
	test("is looked for in every field that may name it", () => {
		expect(ammonia({})).toBe("none named");
		expect(ammonia({ "soaked in": "water" })).toBe("none named");
		expect(ammonia({ "soaked in": "NH4OH" })).toBe("named");
		expect(ammonia({ treatment: "ammonia" })).toBe("named");
		expect(ammonia({ soak: "ammonia 1" })).toBe("named");
		expect(ammonia({ "soaked in": "kitchen magic" })).toBe("not known");
		const fired = (agent: string): Row[] => [
			{ firing: "k", "precursor mass (g)": 10, agent },
		];
		expect(ammonia({ soak: "k" }, fired("ammonium carbonate"))).toBe("named");
		expect(ammonia({ soak: "k" }, fired("KOH"))).toBe("none named");
	});
});
