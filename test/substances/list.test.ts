import { describe, expect, test } from "vitest";
import {
	composition,
	molarMass,
	type Substance,
	substanceNamed,
	substances,
	substanceTable,
} from "../../kernel-lib/substances";

function named(name: string): Substance {
	const found = substanceNamed(name);
	if (found.is === "not known") throw new Error(found.because);
	return found.substance;
}

describe("every entry", () => {
	test.each(substances.map((s) => [s.name, s] as const))("%s", (_, s) => {
		expect(s.iodine.source).not.toBe("");
		expect(s.iodine.because).not.toBe("");
		if (s.formula !== "") {
			expect(composition(s.formula).ok).toBe(true);
			expect(molarMass(s.formula).value).toBeGreaterThan(0);
		}
		if (s.iodine.is === "consumes iodine" || s.iodine.is === "frees iodine") {
			const moles = s.iodine.molesIodinePerMole;
			if (typeof moles === "number") {
				expect(moles).toBeGreaterThan(0);
				expect(s.formula === "" ? s.name : "", "a mole of what?").toMatch(
					/^$|^sodium thiosulfate$/,
				);
			} else expect(moles.because).not.toBe("");
		}
		if (s.acidity === "alkaline" && s.dissociation === "whole")
			expect(s.iodine.is).toBe("consumes iodine");
	});
});

test("moles of iodine for a mole, by hand from the half reactions", () => {
	const moles = (name: string): unknown => {
		const { iodine } = named(name);
		return "molesIodinePerMole" in iodine
			? iodine.molesIodinePerMole
			: iodine.is;
	};
	// 3 I2 + 6 OH(-) -> 5 I(-) + IO3(-) + 3 H2O
	expect(moles("KOH")).toBe(0.5);
	expect(moles("Ca(OH)2")).toBe(1);
	expect(moles("K2CO3")).toBe(1);
	expect(moles("NaHCO3")).toBe(0.5);
	// I2 + 2 S2O3(2-), I2 + SO3(2-), 2 I2 + S2O5(2-)
	expect(moles("thiosulfate")).toBe(0.5);
	expect(moles("Na2SO3")).toBe(1);
	expect(moles("Na2S2O5")).toBe(2);
	expect(moles("vitamin C")).toBe(1);
	// 2 Cu(2+) or 2 Fe(3+) give one I2; IO3(-) three, MnO4(-) two and a half, Cr2O7(2-) three
	expect(moles("CuSO4")).toBe(0.5);
	expect(moles("FeCl3")).toBe(0.5);
	expect(moles("KIO3")).toBe(3);
	expect(moles("KMnO4")).toBe(2.5);
	expect(moles("K2Cr2O7")).toBe(3);
	expect(moles("H2O2")).toBe(1);
	expect(moles("table salt")).toBe("neither");
	expect(moles("water")).toBe("neither");
});

test("a firing at 600 °C clears organics, peroxide and what evaporates, not alkalis and salts", () => {
	const gone = (name: string): boolean => named(name).goneAt600;
	for (const name of [
		"wood vinegar",
		"phenol",
		"tannin",
		"sugar",
		"H2O2",
		"HCl",
		"ammonia",
		"iodine",
	])
		expect(gone(name), name).toBe(true);
	for (const name of [
		"potash",
		"lime",
		"soap",
		"bleach",
		"KMnO4",
		"thiosulfate",
		"KNO3",
		"ZnCl2",
		"H3PO4",
		"molasses",
	])
		expect(gone(name), name).toBe(false);
	for (const s of substances)
		if (s.acidity === "alkaline" && s.goneAt600)
			expect(s.volatile, s.name).toBe(true);
});

test("thiosulfate: strong acids decompose it, oxidisers oxidise it, salts leave it alone", () => {
	expect(named("HCl").thiosulfate).toBe("decomposes thiosulfate");
	expect(named("vinegar").thiosulfate).toBe("neither");
	expect(named("bleach").thiosulfate).toBe("oxidises thiosulfate");
	expect(named("NaCl").thiosulfate).toBe("neither");
	for (const s of substances)
		if (s.iodine.is === "frees iodine")
			expect(s.thiosulfate, s.name).toBe("oxidises thiosulfate");
});

test("the list covers what benches and kitchens use", () => {
	for (const name of [
		"KOH",
		"NaOH",
		"lime",
		"quicklime",
		"limewater",
		"potash",
		"soda ash",
		"washing soda",
		"baking soda",
		"ammonia",
		"waterglass",
		"muriatic acid",
		"H2SO4",
		"sulphuric acid",
		"H3PO4",
		"HNO3",
		"citric acid",
		"acetic acid",
		"vinegar",
		"wood vinegar",
		"lemon juice",
		"lime juice",
		"NaCl",
		"KCl",
		"CaCl2",
		"MgCl2",
		"Epsom salt",
		"ZnCl2",
		"FeCl3",
		"FeCl2",
		"FeSO4",
		"CuSO4",
		"alum",
		"potash alum",
		"KNO3",
		"NaNO3",
		"NH4Cl",
		"NH4NO3",
		"KI",
		"thiosulfate",
		"sulfite",
		"bisulfite",
		"metabisulfite",
		"sulfide",
		"ascorbic acid",
		"glucose",
		"fructose",
		"sucrose",
		"honey",
		"molasses",
		"phenol",
		"tannin",
		"bio-oil",
		"wood tar",
		"H2O2",
		"bleach",
		"NaOCl",
		"chlorine",
		"permanganate",
		"dichromate",
		"persulfate",
		"nitrite",
		"chlorate",
		"perchlorate",
		"perchloric acid",
		"steam",
		"CO2",
		"nitrogen",
		"air",
		"iodine",
		"methylene blue",
		"tannic acid",
		"iodate",
		"starch",
	])
		expect(substanceNamed(name).is, name).toBe("known");
});

test("the table shows every entry", () => {
	expect(substanceTable().rows).toHaveLength(substances.length);
});

test("the table says what an entry does to iodine, how it hurts and what it must not meet", () => {
	const { columns, rows } = substanceTable();
	const row = (name: string): Record<string, unknown> => {
		const found = rows.find((r) => r[0] === name) ?? [];
		return Object.fromEntries(columns.map((c, i) => [c, found[i]]));
	};
	expect(row("potassium hydroxide")["I2 per mole"]).toBe("at most 0.5");
	expect(row("wood vinegar")["I2 per mole"]).toBe("not known");
	expect(row("sodium chloride")["I2 per mole"]).toBe("");
	const hazards = "hazards (from memory)";
	const apart = "keep apart from";
	expect(row("calcium chloride")[hazards]).toBe(
		"warning: brine (eye irritation 2)",
	);
	expect(row("nitric acid")[hazards]).toMatch(
		/^danger: strong acid \(.+\); oxidiser \(.+\)$/,
	);
	// One grave kind is enough.
	expect(row("wood vinegar")[hazards]).toMatch(/^danger: mild acid/);
	expect(row("water")[hazards]).toContain("kitchen goods");
	expect(row("caffeine")[hazards]).toContain("safety data sheet");
	expect(row("sodium hypochlorite")[apart]).toBe(
		"strong acid, mild acid, ammonia and solvent",
	);
	expect(row("ammonia")[apart]).toBe("iodine and bleach");
	expect(row("nitric acid")[apart]).toMatch(/cyanide.*heat with char/);
	expect(row("water")[apart]).toBe("");
});
