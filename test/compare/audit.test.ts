import { describe, expect, test } from "vitest";
import { type TypedRow, trialFromRows } from "../../kernel-lib/bench/index";
import {
	compareTreatments,
	findingsOf,
	marginOf,
	wordAt,
} from "../../kernel-lib/compare/index";
import { auditTable, nextSteps, verdictSentence } from "../../kernel-lib/words";
import {
	char,
	soundGlassware as glassware,
	soundSolutions,
} from "../bench-sheet/rows";

/** Titres (mL of 0.1 mol/L) of four soaks: char that takes up about 415 mg/g, and one that takes up about 80 mg/g more. */
const low = [5.0, 5.05, 4.95, 5.1];
const high = [3.4, 3.45, 3.5, 3.35];

type Change = (i: number) => TypedRow;
const none: Change = () => ({});

/** Four soaks of control and of steam, a flask each; what every control and every treated row has besides. */
function trialWith(
	treated: Change,
	control: Change = none,
	titres: readonly number[] = high,
	more: {
		readonly glassware?: readonly TypedRow[];
		readonly deviations?: readonly TypedRow[];
		readonly named?: boolean;
		readonly blanks?: readonly TypedRow[];
	} = {},
) {
	const named = more.named ?? true;
	return trialFromRows({
		flasks: [
			...low.map((t, i) =>
				char(`c${i}`, "water", t, {
					soak: `w${i}`,
					"soaked in": "water",
					...control(i),
				}),
			),
			...titres.map((t, i) =>
				char(`s${i}`, "steam", t, {
					soak: `s${i}`,
					...(named ? { control: "water" } : {}),
					...treated(i),
				}),
			),
			...(more.blanks ?? []),
		],
		solutions: soundSolutions,
		glassware: more.glassware ?? glassware,
		deviations: more.deviations ?? [],
	});
}

function said(trial: ReturnType<typeof trialWith>) {
	const comparison = compareTreatments(trial, { margin: marginOf(25) });
	const [v] = comparison.verdicts;
	return {
		word: v.word,
		numbersSay: v.numbersSay,
		head: verdictSentence(comparison, v),
		beyond: findingsOf(v.audited).map((f) => f.condition),
		next: nextSteps(comparison)
			.rows.map((r) => r.join(" "))
			.join("\n"),
		table: auditTable(comparison).rows.map((r) => r.map(String)),
	};
}

const iodineBlank = (titre: number): TypedRow => ({
	flask: "i1",
	contents: "iodine blank",
	day: "1",
	"dose 1 (mL)": 40,
	"made up to (mL)": 100,
	"aliquot (mL)": 25,
	"titre 1 (mL)": titre,
});

/** For so many of four flasks, from the first. */
const first =
	(n: number, row: TypedRow): Change =>
	(i) =>
		i < n ? row : {};
const all = (row: TypedRow): Change => first(4, row);

test("a sheet in which nothing lies beyond says the word, and nothing beside it", () => {
	const { word, head, beyond, table } = said(
		trialWith(none, none, high, { blanks: [iodineBlank(9.9)] }),
	);
	expect(word).toBe("higher");
	expect(beyond).toEqual([]);
	expect(head).not.toMatch(/recorded beside|assumed/);
	expect(table.every((row) => row[1] === "steam" && row[4] === "within")).toBe(
		true,
	);
});

test("the table names what is allowed, what was found, what that does, and what is not recorded", () => {
	const trial = trialWith(all({ lid: "no" }), all({ lid: "yes" }));
	const compared = compareTreatments(trial, { margin: marginOf(25) });
	const table = auditTable(compared);
	expect(table.rows.find((row) => String(row[0]).startsWith("lid"))).toEqual([
		"lid: alike on both sides",
		"steam",
		"open",
		"closed",
		"beyond, could look higher: an open flask loses iodine, which looks like more uptake, so that the word that it could have made is not said",
	]);
	expect(table.notes.join(" ")).toMatch(
		/^Not recorded, so that nothing is known of them: .*contact time/,
	);
});

describe("what the sheet records takes away the word that it could have made", () => {
	const cases: readonly (readonly [string, Change, Change, RegExp])[] = [
		[
			"alkali, not acidified",
			all({ "final pH": 11, acidified: "no" }),
			all({ "final pH": 6 }),
			/alkaline liquid titrated as it was \(alkaline and not acidified treated, no control\)/,
		],
		[
			"alkali, acidified or not not recorded",
			all({ "final pH": 11 }),
			none,
			/alkaline/,
		],
		[
			"strong acid",
			all({ "final pH": 1.2, acidified: "yes" }),
			none,
			/strongly acid liquid \(pH below 2 treated, not recorded control\)/,
		],
		[
			"blue that returned",
			all({ "blue returned": "yes" }),
			all({ "blue returned": "no" }),
			/blue that returned after the end point \(returned treated, did not return control\)/,
		],
		[
			"blue that returned on both sides",
			all({ "blue returned": "yes" }),
			all({ "blue returned": "yes" }),
			/blue that returned after the end point \(returned\)/,
		],
		[
			"lid off on the treated side",
			all({ lid: "no" }),
			all({ lid: "yes" }),
			/lid \(open treated, closed control\)/,
		],
		[
			"lid off on the treated side, control not recorded",
			all({ lid: "no" }),
			none,
			/lid \(open treated, not recorded control\)/,
		],
		[
			"first runnings kept on the treated side",
			all({ "first runnings discarded": "no" }),
			all({ "first runnings discarded": "yes" }),
			/first runnings of the filter/,
		],
		[
			"contact of 72 hours against one",
			all({
				"dosed at": "2031-05-03 09:00",
				"titrated at": "2031-05-06 09:00",
			}),
			all({
				"dosed at": "2031-05-03 09:00",
				"titrated at": "2031-05-03 10:00",
			}),
			/contact time \(72 h treated, 1 h control\)/,
		],
		[
			"powder against grains",
			all({ "particle size": "powder" }),
			all({ "particle size": "2-4 mm" }),
			/particle size \(powder treated, 2-4 mm control\)/,
		],
		[
			"ground on one side",
			all({ "ground fine": "yes" }),
			all({ "ground fine": "no" }),
			/grinding/,
		],
		[
			"boiled in acid on one side",
			all({ "acid boiled": "yes" }),
			all({ "acid boiled": "no" }),
			/boiling in acid/,
		],
		[
			"notes of a mishap on one side",
			all({ notes: "spilt a little while filtering" }),
			none,
			/notes of a mishap \("spilt a little while filtering" \(4 of 4\) treated, none control\)/,
		],
		[
			"salt that was not rinsed out",
			all({ notes: "not rinsed after the soak" }),
			none,
			/notes of a mishap \("not rinsed/,
		],
	];
	test.each(cases)("%s", (_, treated, control, told) => {
		const { word, numbersSay, head, next } = said(trialWith(treated, control));
		expect(numbersSay).toBe("higher");
		expect(word).toBe("cannot tell");
		expect(head).toMatch(told);
		expect(next).toMatch(told);
		expect(next).not.toMatch(/Nothing more is needed/);
	});

	test("a deviation that is kept and touches all of one side", () => {
		const { word, head } = said(
			trialWith(none, none, high, {
				deviations: [
					{
						flask: "s0;s1;s2;s3",
						"what happened": "spilt",
						handling: "keep",
					},
				],
			}),
		);
		expect(word).toBe("cannot tell");
		expect(head).toMatch(
			/deviations that are kept \("spilt" in 4 of 4 treated, none control\)/,
		);
	});

	test("one that some flasks of a side do not have leaves the word", () => {
		const { word } = said(
			trialWith(none, none, high, {
				deviations: [
					{ flask: "s0;s1;s2", "what happened": "spilt", handling: "keep" },
				],
			}),
		);
		expect(word).toBe("higher");
	});
});

describe("only the word that it could have made", () => {
	test("open control flasks look like uptake of the control: higher stands", () => {
		const { word, head } = said(
			trialWith(all({ lid: "yes" }), all({ lid: "no" })),
		);
		expect(word).toBe("higher");
		expect(head).toMatch(
			/Recorded beside it: lid \(closed treated, open control\)/,
		);
	});

	test("a longer contact of the control likewise", () => {
		const { word } = said(
			trialWith(
				all({
					"dosed at": "2031-05-03 09:00",
					"titrated at": "2031-05-03 10:00",
				}),
				all({
					"dosed at": "2031-05-03 09:00",
					"titrated at": "2031-05-06 09:00",
				}),
			),
		);
		expect(word).toBe("higher");
	});

	test("lids off on both sides alike", () => {
		const { word, beyond } = said(
			trialWith(all({ lid: "no" }), all({ lid: "no" })),
		);
		expect(word).toBe("higher");
		expect(beyond).toEqual(["losses"]);
	});

	test("sameness could be hidden either way", () => {
		const same = [5.05, 5.0, 5.1, 4.95];
		const { numbersSay, word, head } = said(
			trialWith(all({ lid: "yes" }), all({ lid: "no" }), same),
		);
		expect(numbersSay).toBe("no difference that matters");
		expect(word).toBe("cannot tell");
		expect(head).toMatch(/lid/);
	});
});

describe("both sides of every allowance", () => {
	const kept: readonly (readonly [string, Change, Change])[] = [
		["pH 7.5", all({ "final pH": 7.5, acidified: "no" }), none],
		["pH 2", all({ "final pH": 2, acidified: "yes" }), none],
		["alkali, acidified", all({ "final pH": 11, acidified: "yes" }), none],
		["blue on one of four", first(1, { "blue returned": "yes" }), none],
		["lid off on one of four", first(1, { lid: "no" }), none],
		[
			"contact 9 % longer",
			all({
				"dosed at": "2031-05-03 00:00",
				"titrated at": "2031-05-07 13:00",
			}),
			all({
				"dosed at": "2031-05-03 00:00",
				"titrated at": "2031-05-07 04:00",
			}),
		],
		[
			"one sieve cut, written in two ways",
			all({ "particle size": "0.5 – 1 mm" }),
			all({ "particle size": "0.5-1 MM" }),
		],
		["a mishap on one of four", first(1, { notes: "spilt" }), none],
		["nothing to tell", all({ notes: "none" }), none],
	];
	test.each(kept)("the word stands: %s", (_, treated, control) => {
		expect(said(trialWith(treated, control)).word).toBe("higher");
	});

	const taken: readonly (readonly [string, Change, Change])[] = [
		["pH 7.6", all({ "final pH": 7.6, acidified: "no" }), none],
		["pH 1.9", all({ "final pH": 1.9, acidified: "yes" }), none],
		["blue on two of four", first(2, { "blue returned": "yes" }), none],
		["lid off on two of four", first(2, { lid: "no" }), none],
		[
			"contact 11 % longer",
			all({
				"dosed at": "2031-05-03 00:00",
				"titrated at": "2031-05-07 15:00",
			}),
			all({
				"dosed at": "2031-05-03 00:00",
				"titrated at": "2031-05-07 04:00",
			}),
		],
		["a mishap on two of four", first(2, { notes: "spilt" }), none],
	];
	test.each(taken)("the word is taken away: %s", (_, treated, control) => {
		expect(said(trialWith(treated, control)).word).toBe("cannot tell");
	});

	test.each([
		["the word does not count", "a fine morning", "higher"],
		["but a mishap in other words is told", "jar stood in the sun", "higher"],
	])("notes: %s", (_, note, word) => {
		const found = said(trialWith(all({ notes: note })));
		expect(found.word).toBe(word);
		expect(found.head).toContain(
			`notes ("${note}" (4 of 4) treated, none control)`,
		);
	});
});

describe("a plateau shown lets a longer contact of the other side count", () => {
	const at = (hours: number): TypedRow => ({
		"dosed at": "2031-05-03 00:00",
		"titrated at": `2031-05-0${3 + Math.floor(hours / 24)} ${String(hours % 24).padStart(2, "0")}:00`,
	});
	/** Two of the four control flasks at double time. */
	const pair =
		(early: number, late: number): Change =>
		(i) =>
			at(i < 2 ? early : late);

	test("no change at double time", () => {
		expect(said(trialWith(all(at(72)), pair(10, 20))).word).toBe("higher");
	});
	test("not yet double time", () => {
		expect(said(trialWith(all(at(72)), pair(10, 19))).word).toBe("cannot tell");
	});
	describe("by withdrawals", () => {
		/** A twentieth of the liquid of every control flask is taken after so many hours of ten, at so many times the final concentration. */
		const taken =
			(hours: number, times = 1, more: TypedRow = {}): Change =>
			(i) => ({
				...at(10),
				"withdrawn 1 (mL)": 5,
				"withdrawn 1 titre (mL)": Number(((low[i] / 5) * times).toFixed(3)),
				"withdrawn 1 at": `2031-05-03 0${hours}:00`,
				...more,
			});
		test.each([
			["half the time, no change", taken(5), "higher"],
			["not yet half the time", taken(6), "cannot tell"],
			[
				"half the time, and 40 % more was in solution",
				taken(5, 1.4),
				"cannot tell",
			],
			[
				"liquid added since",
				taken(5, 1, { "liquid added 1 (mL)": 0.1 }),
				"cannot tell",
			],
			[
				"no time of the withdrawal",
				taken(5, 1, { "withdrawn 1 at": "" }),
				"cannot tell",
			],
		])("%s", (_, control, word) => {
			expect(said(trialWith(all(at(72)), control)).word).toBe(word);
		});
	});
	test("a change of 5 to 10 mg/g is small for one margin and not for another, nor where none was set; the word at another margin knows", () => {
		// 0.1 mL of 0.1 mol/L on a quarter of the liquid and a gram of char: 0.1 × 0.1 × 126.9 × 4 = 5.1 mg/g; their residues are 2 % apart, so that at one residue up to 415 × (1.02^0.6 - 1) = 5.0 mg/g come on top. Three times that is 15 to 30.
		const alternating: Change = (i) => at(i % 2 === 0 ? 10 : 20);
		const trial = trialWith(all(at(72)), alternating);
		const verdict = (margin?: number) =>
			compareTreatments(
				trial,
				margin === undefined ? {} : { margin: marginOf(margin) },
			).verdicts[0];
		const words = [15, 31].map((m) => verdict(m).word);
		expect(words).toEqual(["cannot tell", "higher"]);
		expect(verdict().word).toBe("cannot tell");
		for (const set of [undefined, 15, 31])
			expect([15, 31].map((m) => wordAt(verdict(set).ground, m))).toEqual(
				words,
			);
	});
});

describe("what both sides share is told in the head", () => {
	// 40 mL of 0.1 N, a quarter of it titrated: 10 mL is all of it.
	test.each([
		[9.4, /recovery of the blanks without char \(0\.94\)/],
		[10.3, /recovery of the blanks without char \(1\.03\)/],
	])("recovery with a titre of %s mL", (titre, told) => {
		expect(
			said(trialWith(none, none, high, { blanks: [iodineBlank(titre)] })).head,
		).toMatch(told);
	});
	test.each([9.6, 10.1])(
		"recovery with a titre of %s mL is no matter",
		(titre) => {
			expect(
				said(trialWith(none, none, high, { blanks: [iodineBlank(titre)] }))
					.beyond,
			).not.toContain("recovery of the blanks without char");
		},
	);
	test.each([
		[0.6, true],
		[0.5, false],
	])("a reagent blank of %s mL", (titre, isTold) => {
		const { beyond } = said(
			trialWith(none, none, high, {
				blanks: [
					{
						flask: "r1",
						contents: "reagent blank",
						day: "1",
						"titre 1 (mL)": titre,
					},
				],
			}),
		);
		expect(beyond.includes("reagent blank")).toBe(isTold);
	});
	test("the treated flasks titrated all after the control's", () => {
		const at =
			(hour: number): Change =>
			(i) => ({
				"dosed at": "2031-05-03 00:00",
				"titrated at": `2031-05-04 ${String(hour).padStart(2, "0")}:0${i}`,
			});
		expect(said(trialWith(at(11), at(10))).head).toMatch(
			/order of titration \(all after the control treated, all before control\)/,
		);
		expect(said(trialWith(at(10), at(10))).beyond).toEqual(["losses"]);
	});
});

describe("what was assumed stands in the head", () => {
	test("losses alike where no blank shows them", () => {
		expect(said(trialWith(none)).head).toMatch(
			/\. Assumed: losses of iodine alike on both sides, for no blank without char shows them/,
		);
	});
	test("glassware that is not named, all of it or some", () => {
		expect(said(trialWith(none, none, high, { glassware: [] })).head).toMatch(
			/ good glassware \(class B\), for the sheet names none\.?$/,
		);
		expect(
			said(trialWith(none, none, high, { glassware: glassware.slice(0, 2) }))
				.head,
		).toMatch(
			/class B for what the sheet does not name \(volumetric flask 100 mL for made up\)/,
		);
	});
	test("a control taken by its name", () => {
		expect(said(trialWith(none, none, high, { named: false })).head).toMatch(
			/Assumed: .*"water" as the control, by its name/,
		);
	});
});

test("one flask each: the word rests on the glassware, and is not said where none is named", () => {
	const flasks = [
		char("c", "water", 5, { soak: "w" }),
		char("s", "steam", 3.4, { soak: "s", control: "water" }),
	];
	const word = (pieces: readonly TypedRow[]) =>
		compareTreatments(
			trialFromRows({ flasks, solutions: soundSolutions, glassware: pieces }),
			{ margin: marginOf(25) },
		).verdicts[0].word;
	expect(word(glassware)).toBe("higher");
	expect(word([])).toBe("cannot tell");
	const unnamed = compareTreatments(
		trialFromRows({ flasks, solutions: soundSolutions }),
		{ margin: marginOf(25) },
	);
	expect(verdictSentence(unnamed, unnamed.verdicts[0])).toMatch(
		/cannot tell: the word would rest on good glassware \(class B\), for the sheet names none, which was assumed\.$/,
	);
	expect(
		nextSteps(unnamed)
			.rows.map((r) => r[1])
			.join(" "),
	).toMatch(/Name what you measured with in a table of glassware/);
});
