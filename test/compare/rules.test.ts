import { describe, expect, test } from "vitest";
import { groupTable, marginOf } from "../../kernel-lib/compare";
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
			"potash: no difference that matters from its control (10.0 mg/g, 95 % interval 5.5 to 14.5; 25 mg/g would matter).",
		);
		expect(v.reasons[0]).toContain("the difference is there and too small");
	});

	test("leaving out zero: higher or lower, and whether surely beyond the margin", () => {
		const open = potash(group("potash", "water", [126, 128, 130]));
		expect([open.word, open.exceedsMargin]).toEqual(["higher", false]);
		expect(open.sentence).toBe(
			"potash: higher than its control by 28.0 mg/g (95 % interval 23.5 to 32.5), whether it is more than the 25 mg/g that would matter is open.",
		);
		const sure = potash(group("potash", "water", [138, 140, 142]));
		expect([sure.word, sure.exceedsMargin]).toEqual(["higher", true]);
		const lower = potash(group("potash", "water", [58, 60, 62]));
		expect([lower.word, lower.exceedsMargin]).toEqual(["lower", true]);
		expect(lower.sentence).toBe(
			"potash: lower than its control by 40.0 mg/g (95 % interval 35.5 to 44.5), more than the 25 mg/g that would matter.",
		);
	});

	test("else cannot tell, with how many would tell", () => {
		const v = potash(group("potash", "water", [80, 110, 140]));
		expect(v.word).toBe("cannot tell");
		expect(v.sentence).toMatch(
			/^potash: cannot tell whether it differs from its control \(10 mg\/g, 95 % interval -38 to 58, takes in zero and reaches past the 25 mg\/g that would matter\); \d+ soaks of each treatment would tell\.$/,
		);
	});

	test("the method says that this is stricter than two one-sided tests", () => {
		const c = compareTreatments(
			flasks([
				...group("water", "", [98, 100, 102]),
				...group("potash", "water", [98, 100, 103]),
			]),
			{ margin },
		);
		expect(c.methodSaid.join("\n")).toContain(
			"stricter than two one-sided tests at 5 % (a 90 % interval)",
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

describe("comparability of residues", () => {
	const higher = (residue: number, residueReading = 0) =>
		potash(
			group("potash", "water", [198, 200, 202], { residue, residueReading }),
			group("water", "", [98, 100, 102], { residueReading }),
		);

	test("higher is said at an equal or lower residue", () => {
		expect(higher(300).word).toBe("higher");
		expect(higher(120).word).toBe("higher");
		// within 5 %
		expect(higher(314).word).toBe("higher");
	});

	test("higher at a higher residue is not said; the dose that would make it comparable is", () => {
		const v = higher(350);
		expect(v.word).toBe("cannot tell");
		expect(v.exceedsMargin).toBe(false);
		expect(v.sentence).toBe(
			"potash: cannot tell: not compared at the same residue.",
		);
		expect(v.reasons[0]).toContain(
			'stands at a residue of 350 mg/L and its control at 300 mg/L; uptake grows with the residue, and "higher" is proven only at an equal or lower residue',
		);
		expect(v.comparableDose).toContain("about 5 mg iodine (I2) less");
		expect(v.replicates.is).toBe("not given");
	});

	test("equal within the expanded measuring uncertainty is equal", () => {
		// u of a difference of two means of three: 40 sqrt(2/3) = 32.7; k = 2: 65
		expect(higher(350, 40).word).toBe("higher");
		expect(higher(370, 40).word).toBe("cannot tell");
	});

	test("the mirror for lower", () => {
		const lower = (residue: number) =>
			potash(group("potash", "water", [38, 40, 42], { residue }));
		expect(lower(300).word).toBe("lower");
		expect(lower(500).word).toBe("lower");
		expect(lower(250).word).toBe("cannot tell");
		expect(lower(250).comparableDose).toContain("5 mg iodine (I2) more");
	});

	test("no difference that matters needs residues within a factor of 1.25", () => {
		const same = (residue: number) =>
			potash(group("potash", "water", [98, 100, 103], { residue }));
		expect(same(370).word).toBe("no difference that matters");
		expect(same(242).word).toBe("no difference that matters");
		expect(same(380).word).toBe("cannot tell");
		expect(same(238).word).toBe("cannot tell");
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
			"potash: cannot tell: what is left of its soak may consume iodine.",
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
			"potash: cannot tell: what is left of its soak may free iodine.",
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
			"potash: cannot tell: not per gram of the same thing.",
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
		).toBe("potash: cannot tell: losses were taken off one side only.");
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
			/^THE DEVIATION DECIDES: with flask potash3 kept/,
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
		...group("soda", "water", [198, 200, 202], { residue: 400 }),
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
	expect(text[3]).toContain('Dose each flask of "soda"');
	expect(text.join("")).not.toMatch(/NaN|Infinity|undefined|null/);
});
