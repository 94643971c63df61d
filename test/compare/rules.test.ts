import { describe, expect, test } from "vitest";
import { groupTable, marginOf } from "../../kernel-lib/compare";
import { wordAt } from "../../kernel-lib/compare/word-at";
import { tableText } from "../../kernel-lib/quantity";
import {
	comparisonTable,
	methodTable,
	nextSteps,
} from "../../kernel-lib/words";
import {
	compareTreatments,
	deviation,
	type FlaskFixture,
	flasks,
	group,
	type ToldVerdict,
	verdictOf,
} from "./fixtures";

const margin = marginOf(25);

function potash(
	treated: readonly FlaskFixture[],
	control: readonly FlaskFixture[] = group("water", "", [98, 100, 102]),
): ToldVerdict {
	return verdictOf(
		compareTreatments(flasks([...control, ...treated]), { margin }),
		"potash",
	);
}

describe("the order of the words", () => {
	test("inside plus or minus the margin comes first, even where zero is left out", () => {
		const v = potash(group("potash", "water", [108, 110, 112]));
		expect(v.word).toBe("no difference that matters");
		expect(v.exceedsMargin).toBe(false);
		expect(v.sentence).toBe(
			'"potash": at 300 mg/L iodine left, no difference that matters from its control (10.0 mg/g, 90 % interval 6.5 to 13.5, and higher by 5.5 to 14.5; 25 mg/g would matter). With 3 soaks against 3 this rests in part on soaks of all treatments scattering alike.',
		);
		expect(v.reasons[0]).toContain("it is there and too small to matter");
	});

	test("leaving out zero: higher or lower, and whether surely beyond the margin", () => {
		const open = potash(group("potash", "water", [126, 128, 130]));
		expect([open.word, open.exceedsMargin]).toEqual(["higher", false]);
		expect(open.sentence).toBe(
			'"potash": at 300 mg/L iodine left, higher than its control by 28.0 mg/g (95 % interval 23.5 to 32.5), whether it is more than the 25 mg/g that would matter is open. With 3 soaks against 3 this rests in part on soaks of all treatments scattering alike.',
		);
		const sure = potash(group("potash", "water", [138, 140, 142]));
		expect([sure.word, sure.exceedsMargin]).toEqual(["higher", true]);
		const lower = potash(group("potash", "water", [58, 60, 62]));
		expect([lower.word, lower.exceedsMargin]).toEqual(["lower", true]);
		expect(lower.sentence).toBe(
			'"potash": at 300 mg/L iodine left, lower than its control by 40.0 mg/g (95 % interval 35.5 to 44.5), more than the 25 mg/g that would matter. With 3 soaks against 3 this rests in part on soaks of all treatments scattering alike.',
		);
	});

	test("else cannot tell, with how many would tell", () => {
		const v = potash(group("potash", "water", [80, 110, 140]));
		expect(v.word).toBe("cannot tell");
		expect(v.sentence).toMatch(
			/^"potash": at 300 mg\/L iodine left, cannot tell whether it differs from its control \(10 mg\/g, 95 % interval −64 to 84, takes in zero and reaches past the 25 mg\/g that would matter\)\. \d+ soaks of each treatment would tell\.$/,
		);
	});

	test("no difference by two one-sided tests, or by the stricter interval where it is chosen; the other word is named", () => {
		// Standard error 2 sqrt(2/3) = 1.633; t with 4 degrees of freedom: 2.1318 one-sided, 2.7764 two-sided (tables): 3.48 and 4.53.
		const with21 = (sameness: "one-sided tests" | "interval") =>
			compareTreatments(
				flasks([
					...group("water", "", [98, 100, 102]),
					...group("potash", "water", [119, 121, 123]),
				]),
				{ margin, sameness },
			);
		const tests = with21("one-sided tests");
		expect(verdictOf(tests, "potash").word).toBe("no difference that matters");
		expect(verdictOf(tests, "potash").reasons.join(" ")).toContain(
			'Judged by the simultaneous interval, which is stricter than two one-sided tests, the word would be "higher"',
		);
		expect(tests.methodSaid.join("\n")).toContain(
			"two one-sided tests of each treatment at 5 % (its own 90 % interval)",
		);
		const interval = with21("interval");
		expect(verdictOf(interval, "potash").word).toBe("higher");
		expect(verdictOf(interval, "potash").otherwise).toBe(
			"no difference that matters",
		);
	});

	test("rank tests that cannot reach significance are named, not printed", () => {
		const c = compareTreatments(
			flasks([
				...group("water", "", [98, 100, 102, 104]),
				...group("potash", "water", [98, 100, 102, 105]),
				...group("soda", "water", [98, 100, 102, 105]),
			]),
			{ margin },
		);
		expect(c.methodSaid.join("\n")).toContain(
			"with 4 units against 4 the smallest p that one can reach is 0.029, before adjusting for 2 treatments",
		);
	});
});

describe("residues that differ", () => {
	const at = (
		uptakes: readonly number[],
		residue: number,
		more: Partial<FlaskFixture> = {},
	) => potash(group("potash", "water", uptakes, { residue, ...more }));

	test("a word that holds along every slope is said", () => {
		expect(at([198, 200, 202], 300).word).toBe("higher");
		expect(at([198, 200, 202], 600).word).toBe("higher");
		expect(at([198, 200, 202], 150).word).toBe("higher");
		expect(at([38, 40, 42], 150).word).toBe("lower");
		// 100 × (300/370)^0.6 = 88 lies within 25 of 100, and 100 × (300/600)^0.6 = 66 does not.
		expect(at([98, 100, 103], 370).word).toBe("no difference that matters");
		expect(at([98, 100, 103], 600).word).toBe("cannot tell");
	});

	test("a difference that every slope shows is said where only some keep it within the margin", () => {
		// 112 × (300/250)^s: 12, 18 and 25 above 100 for s of 0, 0.3 and 0.6, each 3.5 to 4 as its one-sided limit.
		const v = at([110, 112, 114], 250);
		expect([v.word, v.numbersSay, v.obstacles]).toEqual([
			"higher",
			"higher",
			[],
		]);
		expect(v.exceedsMargin).toBe(false);
		expect(wordAt(v.ground, 25)).toBe("higher");
		expect(wordAt(v.ground, 30)).toBe("no difference that matters");
		// 102: from 2 to 14, which not every slope tells from zero or keeps within 15.
		const open = at([100, 102, 104], 250, {});
		expect(open.word).toBe("no difference that matters");
		expect(wordAt(open.ground, 15)).toBe("cannot tell");
	});

	test("the interval holds for every slope: from flat to 1/n of 0.6", () => {
		const v = at([198, 200, 202], 600);
		const flat = at([198, 200, 202], 300);
		const steep = at(
			[198, 200, 202].map((q) => q * 0.5 ** 0.6),
			300,
		);
		if (
			v.difference.is !== "estimate" ||
			flat.difference.is !== "estimate" ||
			steep.difference.is !== "estimate"
		)
			throw new Error("no interval");
		// Carried errors are no smaller than those that stand there already.
		expect(v.difference.high).toBeGreaterThanOrEqual(
			flat.difference.high - 0.5,
		);
		expect(v.difference.low).toBeLessThanOrEqual(steep.difference.low + 0.5);
		// In the middle: 200 × 2^-0.3.
		expect(v.difference.estimate).toBeCloseTo(200 * 0.5 ** 0.3 - 100, 6);
	});

	test("where the slope decides, no word is said, and what would tell is", () => {
		const v = at([143, 145, 147], 600);
		expect(v.numbersSay).toBe("no difference that matters");
		expect(v.word).toBe("cannot tell");
		expect(v.sentence).toBe(
			'"potash": at 300 mg/L iodine left, cannot tell: residues differ, and how steeply uptake grows with the residue was not measured.',
		);
		expect(v.reasons[0]).toContain(
			'"potash" left 600 mg/L and its control 300 mg/L; uptake grows with the residue. How steeply was not measured, and "no difference that matters" does not hold for every 1/n from 0 to 0.6',
		);
		expect(v.comparableDose).toContain("about 30 mg iodine (I2) less");
		expect(v.replicates.is).toBe("not given");
	});

	test("not further than a factor of three, and the dose that would do is named", () => {
		expect(at([398, 400, 402], 899).word).toBe("higher");
		const v = at([398, 400, 402], 901);
		expect(v.word).toBe("cannot tell");
		expect(v.sentence).toContain(
			'the flasks of "potash" left too little or too much for 300 mg/L',
		);
		expect(v.comparableDose).toMatch(/^Dose flasks of "potash" with about/);
		expect(at([198, 200, 202], 101).word).toBe("higher");
		expect(at([198, 200, 202], 99).word).toBe("cannot tell");
	});

	test("a dose that would do is reckoned from flasks with a residue, whatever stands beside them", () => {
		const v = potash([
			{
				flask: "below",
				treatment: "potash",
				control: "water",
				soak: "below",
				uptake: 400,
				residue: -5,
			},
			...group("potash", "water", [398, 400, 402], { residue: 901 }),
		]);
		// 300 mg/L in 100 mL, and 400 mg/g carried down along the middle of 0 to 0.6.
		const dose = 30 + 398 * (300 / 901) ** 0.3;
		expect(v.comparableDose).toContain(
			`about ${Number(dose.toPrecision(2))} mg of iodine (I2)`,
		);
		expect(v.comparableDose).not.toMatch(/NaN/);
	});

	test("a residue known no better than to a quarter of itself is not carried: it says one side", () => {
		const near = { residueReading: 24.9 };
		expect(at([198, 200, 202], 100.1, near).difference.is).toBe("estimate");
		const v = at([198, 200, 202], 100.1, { residueReading: 25.1 });
		expect(v.difference.is).toBe("at least");
		expect(v.word).toBe("higher");
		expect(at([38, 40, 42], 500, { residueReading: 126 }).difference.is).toBe(
			"at most",
		);
	});
});

describe("demand of a soak", () => {
	const suspected = {
		is: "suspected",
		looksLike: "more uptake",
		because: "alkali left in the char consumes iodine",
	} as const;

	test("suspected and not measured: higher is not said", () => {
		const v = potash(
			group("potash", "water", [198, 200, 202], { demand: suspected }),
		);
		expect(v.word).toBe("cannot tell");
		expect(v.sentence).toBe(
			'"potash": at 300 mg/L iodine left, cannot tell: what is left of its soak may consume iodine.',
		);
		expect(v.reasons[0]).toBe(
			'What is left of the soak of "potash" may consume iodine and look like uptake (flasks potash1, potash2 and potash3: alkali left in the char consumes iodine), so that "higher" is not said; a leachate, dosed and titrated, would settle it.',
		);
	});

	test("one suspected flask is enough", () => {
		const treated = group("potash", "water", [198, 200, 202]);
		expect(
			potash([{ ...treated[0], demand: suspected }, ...treated.slice(1)]).word,
		).toBe("cannot tell");
	});

	test("with a bound that does not carry it either, the demand is named first", () => {
		const v = potash([
			...group("potash", "water", [118, 120, 122], { demand: suspected }),
			{
				flask: "dry",
				treatment: "potash",
				control: "water",
				soak: "dry",
				uptake: 20,
				is: "at least",
				demand: suspected,
			},
		]);
		expect(v.sentence).toContain("what is left of its soak may consume iodine");
		expect(v.reasons[1]).toContain("Flask dry gave only a bound");
	});

	test("lower stands in spite of it; no difference does not; a suspected control forbids lower", () => {
		expect(
			potash(group("potash", "water", [48, 50, 52], { demand: suspected }))
				.word,
		).toBe("lower");
		expect(
			potash(group("potash", "water", [98, 100, 103], { demand: suspected }))
				.word,
		).toBe("cannot tell");
		expect(
			potash(
				group("potash", "water", [48, 50, 52]),
				group("water", "", [98, 100, 102], { demand: suspected }),
			).word,
		).toBe("cannot tell");
	});
});

describe("a soak that may free iodine, which looks like less uptake", () => {
	const frees = {
		is: "suspected",
		looksLike: "less uptake",
		because: "peroxide left in the char frees iodine from iodide",
	} as const;
	const treated = (uptakes: number[]) =>
		group("potash", "water", uptakes, { demand: frees });
	const control = group("water", "", [98, 100, 102], { demand: frees });

	test("a treated char is not called lower, and is called higher", () => {
		const v = potash(treated([48, 50, 52]));
		expect(v.sentence).toBe(
			'"potash": at 300 mg/L iodine left, cannot tell: what is left of its soak may free iodine.',
		);
		expect(v.reasons[0]).toContain(
			'may free iodine and look like less uptake (flasks potash1, potash2 and potash3: peroxide left in the char frees iodine from iodide), so that "lower" is not said',
		);
		const higher = potash(treated([198, 200, 202]));
		expect(higher.word).toBe("higher");
		expect(higher.reasons.join(" ")).toContain(
			"its uptake may be more than the numbers say",
		);
	});

	test("a control makes no treated char higher, and leaves it lower", () => {
		expect(
			potash(group("potash", "water", [198, 200, 202]), control).word,
		).toBe("cannot tell");
		expect(potash(group("potash", "water", [48, 50, 52]), control).word).toBe(
			"lower",
		);
	});

	test("no difference is not said beside it", () => {
		expect(potash(treated([98, 100, 103])).word).toBe("cannot tell");
	});

	test("one that may do either takes every word away", () => {
		const either = { ...frees, looksLike: "either" } as const;
		for (const uptakes of [
			[48, 50, 52],
			[98, 100, 103],
			[198, 200, 202],
		])
			expect(
				potash(group("potash", "water", uptakes, { demand: either })).word,
			).toBe("cannot tell");
	});
});

describe("like with like", () => {
	test("dry char against char as weighed is not compared", () => {
		const v = potash(
			group("potash", "water", [198, 200, 202], {
				perGram: "char as weighed",
			}),
		);
		expect(v.sentence).toBe(
			'"potash": at 300 mg/L iodine left, cannot tell: not per gram of the same thing.',
		);
	});

	test("both as weighed: said, with a caution", () => {
		const more = { perGram: "char as weighed" } as const;
		const v = potash(
			group("potash", "water", [198, 200, 202], more),
			group("water", "", [98, 100, 102], more),
		);
		expect(v.word).toBe("higher");
		expect(v.reasons.join(" ")).toContain("per gram as weighed");
	});

	test("losses taken off one side only are not compared; on neither: a caution", () => {
		const included = { lossesTakenOff: false };
		expect(
			potash(group("potash", "water", [198, 200, 202], included)).sentence,
		).toBe(
			'"potash": at 300 mg/L iodine left, cannot tell: losses were taken off one side only.',
		);
		const both = potash(
			group("potash", "water", [198, 200, 202], included),
			group("water", "", [98, 100, 102], included),
		);
		expect(both.word).toBe("higher");
		expect(both.reasons.join(" ")).toContain("include losses of iodine");
	});

	test("a day without an iodine blank for both sides does no harm", () => {
		const byDay = (f: FlaskFixture, i: number): FlaskFixture => ({
			...f,
			day: i % 2 ? "2" : "1",
			lossesTakenOff: i % 2 === 0,
		});
		const v = potash(
			group("potash", "water", [198, 200, 202, 200]).map(byDay),
			group("water", "", [98, 100, 102, 100]).map(byDay),
		);
		expect(v.word).toBe("higher");
		expect(v.reasons.join(" ")).toContain("on some days only");
	});

	test("cautions of the flasks travel into the reasons", () => {
		const v = potash(
			group("potash", "water", [198, 200, 202], {
				cautions: ["The liquid was alkaline and the aliquot not acidified."],
			}),
		);
		expect(v.reasons).toContain(
			"Flasks potash1, potash2 and potash3: The liquid was alkaline and the aliquot not acidified.",
		);
	});
});

describe("deviations", () => {
	const list = flasks([
		...group("water", "", [98, 100, 102]),
		...group("potash", "water", [198, 200, 20]),
	]);
	const odd = (handling: "leave out" | "keep") =>
		compareTreatments(list, {
			margin,
			deviations: [deviation(["potash3"], "cracked jar", handling)],
		});

	test("main word as declared, both words given, and said loudly where they differ", () => {
		const left = verdictOf(odd("leave out"), "potash");
		expect([left.word, left.withoutDeviations, left.withDeviations]).toEqual([
			"higher",
			"higher",
			"cannot tell",
		]);
		expect(left.sentence).toContain(
			'This depends on flask potash3, touched by a deviation: "cannot tell" with, "higher" without.',
		);
		expect(left.reasons[0]).toMatch(
			/^A deviation decides the word: with flask potash3 kept/,
		);
		expect(left.reasons[0]).toContain("cracked jar");
		const kept = verdictOf(odd("keep"), "potash");
		expect([kept.word, kept.withoutDeviations, kept.withDeviations]).toEqual([
			"cannot tell",
			"higher",
			"cannot tell",
		]);
	});

	test("no difference between them is said quietly", () => {
		const v = verdictOf(
			compareTreatments(list, {
				margin,
				deviations: [deviation(["potash2", "blank 1"], "late", "keep")],
			}),
			"potash",
		);
		expect(v.withDeviations).toBe(v.withoutDeviations);
		expect(v.reasons[v.reasons.length - 1]).toContain(
			"the same with and without",
		);
	});

	test("leaving out everything: cannot tell", () => {
		const c = compareTreatments(list, {
			margin,
			deviations: [
				deviation(
					list.map((u) => u.flask.name),
					"the shelf fell",
				),
			],
		});
		expect(c.groups).toEqual([]);
		expect(verdictOf(c, "potash").word).toBe("cannot tell");
	});

	test("a flask named twice is left out if one entry says so", () => {
		const c = compareTreatments(list, {
			margin,
			deviations: [
				deviation(["potash3"], "late", "keep"),
				deviation(["potash3"], "cracked"),
			],
		});
		expect(verdictOf(c, "potash").word).toBe("higher");
	});

	test("leaving out a whole group: cannot tell, with the reason", () => {
		const names = ["potash1", "potash2", "potash3"];
		const treated = verdictOf(
			compareTreatments(list, {
				margin,
				deviations: [deviation(names, "wrong bottle")],
			}),
			"potash",
		);
		expect(treated.sentence).toContain("none of its flasks is left");
		expect(treated.difference.is).toBe("not available");
		const control = verdictOf(
			compareTreatments(list, {
				margin,
				deviations: [
					deviation(["water1", "water2", "water3"], "wrong bottle", "keep"),
				],
			}),
			"potash",
		);
		expect(control.withoutDeviations).toBe("cannot tell");
	});
});

test("tables hold every verdict, and what to do next", () => {
	const list = flasks([
		...group("water", "", [98, 100, 102]),
		...group("potash", "water", [80, 110, 140]),
		...group("soda", "water", [143, 145, 147], { residue: 1000 }),
	]);
	const c = compareTreatments(list, { margin });
	const text = [
		comparisonTable(c),
		groupTable(c),
		methodTable(c),
		nextSteps(c),
	].map(tableText);
	expect(text[0]).toContain(verdictOf(c, "soda").sentence);
	expect(text[1]).toContain("water");
	expect(text[2]).toContain("Unit: the soak");
	expect(text[3]).toMatch(/Make \d+ soaks \(or firings\) of each treatment/);
	expect(text[3]).toContain('Dose flasks of "soda"');
	expect(text.join("")).not.toMatch(/NaN|Infinity|undefined|null/);
});
