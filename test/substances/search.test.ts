import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	namesOf,
	substanceNamed,
	substances,
	substancesIn,
} from "../../kernel-lib/substances";

/** Names found, in order; "?" before what is not on the list. */
function found(text: string): string[] {
	return substancesIn(text).map((s) =>
		s.is === "known" ? s.substance.name : `? ${s.written}`,
	);
}

describe("names in a text", () => {
	test.each<[string, string[]]>([
		["lime juice", ["lemon or lime juice"]],
		["lime", ["calcium hydroxide"]],
		["limewater", ["calcium hydroxide"]],
		["limestone tray", ["calcium carbonate", "? tray"]],
		["chloride of lime", ["calcium hypochlorite"]],
		["caustic soda", ["sodium hydroxide"]],
		["washing soda", ["sodium carbonate"]],
		["soda", ["sodium carbonate"]],
		["baking soda, 5 %", ["sodium bicarbonate"]],
		["soda water", ["carbonated water"]],
		["Epsom salt", ["magnesium sulfate"]],
		["table salt, 10 % w/w", ["sodium chloride"]],
		["potash alum", ["potassium alum"]],
		["caustic potash", ["potassium hydroxide"]],
		["muriate of potash", ["potassium chloride"]],
		["potash-free water", ["water"]],
		["without potash, in water", ["water"]],
		["free of chlorine", []],
		["K2CO3", ["potassium carbonate"]],
		["K₂CO₃", ["potassium carbonate"]],
		["k2co3 1 mol/L", ["potassium carbonate"]],
		[
			"potash (K2CO3), 10 % w/w, rinsed once",
			["potassium carbonate", "potassium carbonate"],
		],
		["potash(K₂CO₃)", ["potassium carbonate", "potassium carbonate"]],
		["Na₂S₂O₃·5H₂O", ["sodium thiosulfate pentahydrate"]],
		["Na2S2O3 x 5 H2O", ["sodium thiosulfate pentahydrate"]],
		["Na2S2O3", ["sodium thiosulfate anhydrous"]],
		["sodium thiosulphate", ["sodium thiosulfate"]],
		["CaCl2·2H2O, 20 %", ["calcium chloride"]],
		["FeSO4.7H2O", ["iron(II) sulfate"]],
		["Iron (III) chloride", ["iron(III) chloride"]],
		["ferric chloride", ["iron(III) chloride"]],
		["Sulphuric acid", ["sulfuric acid"]],
		["muriatic acid", ["hydrochloric acid"]],
		["sosa cáustica", ["sodium hydroxide"]],
		["Pottasche", ["potassium carbonate"]],
		["Natron", ["sodium bicarbonate"]],
		["chaux vive", ["calcium oxide"]],
		["potasse", ["alkali, not named"]],
		["pickling salt", ["sodium chloride"]],
		["Löschkalk", ["calcium hydroxide"]],
		["Loeschkalk", ["calcium hydroxide"]],
		["0.1 % ascorbic acid", ["ascorbic acid"]],
		["wood vinegar, as drained from the kiln", ["wood vinegar"]],
		["water glass", ["sodium silicate"]],
		["steam, then water", ["steam", "water"]],
		["sugar of lead", ["lead acetate"]],
		["lye of wood ash", ["wood ash"]],
		["bio-oil", ["bio-oil"]],
		["caustic", ["alkali, not named"]],
		["quicklime", ["calcium oxide"]],
		["lime-water", ["calcium hydroxide"]],
		["KHCO₃", ["potassium bicarbonate"]],
		["bicarbonate of soda", ["sodium bicarbonate"]],
		["thiosulphate", ["sodium thiosulfate"]],
		["sulphite", ["sodium sulfite"]],
		["iron(II)", ["iron(II) salt, not named"]],
		["Fe²⁺", ["iron(II) salt, not named"]],
		["iron (III), 1 %", ["iron(III) salt, not named"]],
		["Cu(II)", ["copper(II) salt, not named"]],
		["sugar", ["sucrose"]],
		["peroxide", ["hydrogen peroxide"]],
		["household bleach", ["sodium hypochlorite"]],
		["permanganate", ["potassium permanganate"]],
		["nitrite", ["sodium nitrite"]],
		["salted", ["sodium chloride"]],
		["unlimed", ["? unlimed"]],
		["Pottaschenlauge", ["? Pottaschenlauge"]],
		["[Co(NH3)6]Cl3", ["? Co(NH3)6", "? Cl3"]],
	])("%s", (text, names) => {
		expect(found(text)).toEqual(names);
	});

	test.each([
		"",
		"10 % solution",
		"second firing",
		"not soaked; kept back from the second firing, under the lid of a cold kiln",
		"not soaked; fired a second time under a lid",
		"rinsed until neutral, 600 °C for 2 h",
	])("%s names nothing, and nothing in it is unknown", (text) => {
		expect(found(text)).toEqual([]);
	});

	test.each<[string, string[]]>([
		["kitchen magic", ["? magic"]],
		["dragon's blood, 3 drops", ["? dragon's", "protein"]],
		["acid", ["? acid"]],
		["Wundermittel 2000 extra", ["? Wundermittel", "? extra"]],
		["Zn(NO3)2·6H2O", ["? Zn(NO3)2·6H2O"]],
		[
			"potash and Mystery Salt-X",
			["potassium carbonate", "? Mystery", "sodium chloride"],
		],
	])("%s holds a name that is not known, which is not none", (text, names) => {
		expect(found(text)).toEqual(names);
	});
});

describe("every name of the list", () => {
	const all = substances.flatMap((s) => namesOf(s));

	test("belongs to one entry only", () => {
		const owners = new Map<string, Set<string>>();
		for (const { key, substance } of all)
			owners.set(key, (owners.get(key) ?? new Set()).add(substance.name));
		expect(
			[...owners]
				.filter(([, names]) => names.size > 1)
				.map(([key, n]) => [key, ...n]),
		).toEqual([]);
	});

	test("is written once in its entry", () => {
		for (const s of substances)
			expect(new Set(s.synonyms).size, s.name).toBe(s.synonyms.length);
	});

	test("finds its own entry and no other, alone and within a text, in any case", () => {
		const written = substances.flatMap((s) =>
			[s.name, ...s.synonyms].map((name) => ({ name, of: s.name })),
		);
		fc.assert(
			fc.property(
				fc.constantFrom(
					"{}",
					"10 % w/w {}, rinsed once",
					"soaked ({}) overnight",
					"{}; 2 h",
				),
				fc.boolean(),
				(frame, upper) => {
					for (const { name, of } of written) {
						const text = frame.replace("{}", upper ? name.toUpperCase() : name);
						expect(found(text), text).toEqual([of]);
					}
				},
			),
			{ numRuns: 12 },
		);
		for (const { name, of } of written) {
			const exact = substanceNamed(name);
			expect(exact.is === "known" && exact.substance.name, name).toBe(of);
		}
	});

	test("does not count where it is said to be absent", () => {
		for (const s of substances)
			for (const name of [s.name, ...s.synonyms]) {
				expect(found(`${name}-free`), name).toEqual([]);
				expect(found(`without ${name}`), name).toEqual([]);
			}
	});

	test("is not found within a longer word", () => {
		for (const s of substances)
			for (const name of [s.name, ...s.synonyms])
				if (/^\p{L}+$/u.test(name))
					expect(found(`${name}xyz`), name).not.toContain(s.name);
	});
});

test("any text at all: what is found stands in it as written, in its order", () => {
	const word = fc.oneof(
		fc.constantFrom(
			...substances.flatMap((s) => [s.name, ...s.synonyms, s.formula]),
		),
		fc.string({ unit: "grapheme", maxLength: 12 }),
		fc.constantFrom("(", ")", "·", "x 5 H2O", "₂", "½", "ﬁ", "İ", "ß", "-free"),
	);
	fc.assert(
		fc.property(fc.array(word, { maxLength: 8 }), (words) => {
			const text = words.join(" ");
			let from = 0;
			for (const { written } of substancesIn(text)) {
				expect(written).not.toBe("");
				const at = text.indexOf(written, from);
				expect(at, `${written} in ${text}`).toBeGreaterThanOrEqual(from);
				from = at;
			}
		}),
		{ numRuns: 500 },
	);
});
