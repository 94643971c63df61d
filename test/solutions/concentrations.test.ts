import { describe, expect, test } from "vitest";
import {
	halfDrop,
	readTrial,
	type Solution,
	type TitrationReading,
	type Trial,
	trialFromRows,
} from "../../kernel-lib/bench";
import {
	budget,
	cellText,
	correlation,
	exact,
	exactRatio,
	input,
	nowhere,
	type ProblemError,
	per,
	type Quantity,
	rectangular,
	stated,
	tableText,
	times,
} from "../../kernel-lib/quantity/index";
import { concentrations, titreVolume } from "../../kernel-lib/solutions/index";

const burette = input("volume", 0, "mL", rectangular(0.05), {
	symbol: "δ_{burette}",
	source: stated("burette 1"),
});
const otherBurette = input("volume", 0, "mL", rectangular(0.05), {
	symbol: "δ_{burette}",
	source: stated("burette 2"),
});
const reading = (x: number, column: string): Quantity<"volume"> =>
	input("volume", x, "mL", rectangular(0.05), {
		symbol: "V",
		scope: "reading",
		source: {
			is: "cell",
			file: "run.csv",
			hash: "h",
			sheet: "solutions",
			row: 2,
			column,
		},
	});
const place = (column: string) => ({
	...nowhere,
	file: "run.csv",
	row: 2,
	column,
});
const titration = (
	x: number,
	column: string,
	calibration = burette,
): TitrationReading => ({
	is: "titre",
	number: 1,
	marks: [],
	titre: reading(x, column),
	calibration,
	titrant: "thiosulfate",
	place: place(column),
});
const volume = (x: number): Quantity<"volume"> =>
	input("volume", x, "mL", exact, {});

function solution(
	name: string,
	substance: string,
	basis: Solution["basis"],
	standardisedOn: Solution["standardisedOn"] = { recorded: false },
): Solution {
	return {
		name,
		substance,
		basis,
		standardisedOn,
		notes: "",
		extra: {},
		marks: [],
		place: {
			...nowhere,
			file: "run.csv",
			sheet: "solutions",
			row: name.length,
		},
	};
}

const iodate = solution("iodate", "potassium iodate", {
	is: "weighed",
	mass: input("mass", 3.5667, "g", rectangular(0.001), { symbol: "m" }),
	purity: exactRatio(1),
	volume: volume(1000),
});

function thiosulfate(
	titres: readonly number[],
	blank = 0,
	calibration = burette,
): Solution {
	return solution("thiosulfate", "sodium thiosulfate", {
		is: "standardised",
		against: "iodate",
		aliquot: volume(25),
		titrations: titres.map((x, i) =>
			titration(x, `titre ${i + 1} (mL)`, calibration),
		),
		blankTitre:
			blank === 0
				? { recorded: false }
				: { recorded: true, value: reading(blank, "blank titre (mL)") },
		nominal: { recorded: false },
	});
}

const iodine = solution("iodine", "iodine", {
	is: "standardised",
	against: "thiosulfate",
	aliquot: volume(25),
	titrations: [titration(24.9, "titre of iodine (mL)")],
	blankTitre: { recorded: false },
	nominal: { recorded: false },
});

const exampleTrial = readTrial("data/demo-run/small-trial.csv");

function run(
	solutions: readonly Solution[],
	flasks: Trial["flasks"] = [],
): Trial {
	return {
		file: "run.csv",
		hash: "h",
		folder: "",
		sources: [],
		settings: exampleTrial.settings,
		probe: exampleTrial.probe,
		sheetOrder: [],
		setAside: [],
		files: [],
		flasks,
		solutions,
		deviations: [],
		firings: [],
		standards: [],
		instruments: [],
		notRecorded: [],
		assumptions: [],
		controlByName: "",
		columns: [],
		table: exampleTrial.table,
	};
}

describe("chains", () => {
	test("iodine against thiosulfate against weighed iodate, in any order of the rows", () => {
		const { concentration } = concentrations(
			run([iodine, thiosulfate([25.05]), iodate]),
		);
		// By hand: 3.5667/213.995 = 0.0166672; x 6 x 25/25.05; x 24.9/(2 x 25).
		expect(concentration("iodate").in("mol/L")).toBeCloseTo(0.01666721, 7);
		expect(concentration("thiosulfate").in("mol/L")).toBeCloseTo(0.0998036, 6);
		expect(concentration("iodine").in("mol/L")).toBeCloseTo(0.0497022, 6);
	});

	test("the blank titre is taken off", () => {
		const { concentration } = concentrations(
			run([thiosulfate([25.05], 0.05), iodate]),
		);
		expect(concentration("thiosulfate").in("mol/L")).toBeCloseTo(
			(6 * 0.01666721 * 25) / 25,
			6,
		);
	});

	test("iodine shares the errors of the thiosulfate that it was standardised against", () => {
		const titrants = concentrations(
			run([iodine, thiosulfate([25.05]), iodate]),
		);
		expect(
			correlation(
				titrants.concentration("iodine"),
				titrants.concentration("thiosulfate"),
			),
		).toBeGreaterThan(0.5);
	});

	test("a thiosulfate used in the burette that standardised it: the calibration cancels in part", () => {
		const used = titreVolume(titration(25, "titre of a flask (mL)"), halfDrop);
		const amount = (calibration: Quantity<"volume">): number => {
			const titrants = concentrations(
				run([thiosulfate([25.05], 0, calibration), iodate]),
			);
			return times(titrants.concentration("thiosulfate"), used)
				.standardUncertainty;
		};
		expect(amount(burette)).toBeLessThan(0.9 * amount(otherBurette));
	});

	test("a circle and a name that is not there are problems of the solution, not of the whole run", () => {
		const circle = solution("a", "sodium thiosulfate", {
			...(iodine.basis as Extract<Solution["basis"], { is: "standardised" }>),
			against: "b",
		});
		const back = solution("b", "iodine", {
			...(iodine.basis as Extract<Solution["basis"], { is: "standardised" }>),
			against: "a",
		});
		const titrants = concentrations(run([circle, back, iodate]));
		expect(titrants.all.map((t) => t.name)).toEqual(["iodate"]);
		expect(titrants.unresolved.map((u) => u.name)).toEqual(["a", "b"]);
		expect(() => titrants.concentration("a")).toThrow(
			/found a circle: "a" against "b" against "a";/,
		);
		expect(() => titrants.concentration("nowhere")).toThrow(
			/found no solution "nowhere"; expected one of "a", "b", "iodate"/,
		);
		expect(tableText(titrants.table)).toContain("not known");
	});
});

describe("replicate titres", () => {
	const relative = (titres: readonly number[]): number => {
		const c = concentrations(run([thiosulfate(titres), iodate])).concentration(
			"thiosulfate",
		);
		return c.standardUncertainty / c.value;
	};
	const standard = 0.001 / Math.sqrt(3) / 3.5667;
	// Molar mass of KIO3: K 0.001, I 0.01, three O sharing 0.001.
	const molar = Math.hypot(0.001, 0.01, 0.003) / Math.sqrt(3) / 213.995;
	const calibration = 0.05 / Math.sqrt(3);
	const readAndEnd = Math.hypot(0.05 / Math.sqrt(3), 0.025);

	test("one: reading, end point and calibration", () => {
		expect(relative([25])).toBeCloseTo(
			Math.hypot(readAndEnd / 25, calibration / 25, standard, molar),
			10,
		);
	});

	test("two that scatter more than that: their scatter, with the calibration", () => {
		expect(relative([24.9, 25.1])).toBeCloseTo(
			Math.hypot(0.1 / 25, calibration / 25, standard, molar),
			10,
		);
	});

	test("two: their mean halves the variance of reading and end point, not of the calibration", () => {
		expect(relative([24.99, 25.01])).toBeCloseTo(
			Math.hypot(
				readAndEnd / Math.SQRT2 / 25,
				calibration / 25,
				standard,
				molar,
			),
			10,
		);
	});

	test("three: their scatter takes the place of reading and end point", () => {
		expect(relative([24.8, 25, 25.2])).toBeCloseTo(
			Math.hypot(0.2 / Math.sqrt(3) / 25, calibration / 25, standard, molar),
			10,
		);
	});

	test("three that agree better than they can be read: the reading error of their mean", () => {
		expect(relative([24.99, 25, 25.01])).toBeCloseTo(
			Math.hypot(0.05 / 3 / 25, calibration / 25, standard, molar),
			10,
		);
	});

	test("an outlier is named and still counted", () => {
		const titrants = concentrations(
			run([thiosulfate([25, 25.05, 25, 25.05, 26.4]), iodate]),
		);
		const { outlierAdvice, concentration } = titrants.byName("thiosulfate");
		expect(outlierAdvice).toContain("26.4 mL stands apart");
		expect(outlierAdvice).toContain("still counted");
		const mean = (25 + 25.05 + 25 + 25.05 + 26.4) / 5;
		expect(concentration.in("mol/L")).toBeCloseTo(
			(6 * 0.01666721 * 25) / mean,
			6,
		);
		expect(tableText(titrants.table)).toContain("stands apart");
	});

	test("readings a drop apart are not outliers", () => {
		const { outlierAdvice } = concentrations(
			run([thiosulfate([25, 25, 25.05]), iodate]),
		).byName("thiosulfate");
		expect(outlierAdvice).toBe("");
	});
});

describe("stated concentrations", () => {
	const of = (
		substance: string,
		concentration: Extract<
			Solution["basis"],
			{ is: "stated" }
		>["concentration"],
	): number =>
		concentrations(
			run([solution("s", substance, { is: "stated", concentration })]),
		)
			.concentration("s")
			.in("mol/L");

	test("every way of counting comes to moles of I2", () => {
		expect(
			of("iodine", {
				as: "normality",
				quantity: input("normality", 0.1, "N", exact, {}),
			}),
		).toBeCloseTo(0.05, 12);
		expect(
			of("iodine", {
				as: "mass concentration",
				quantity: input("massConcentration", 12.69, "g/L", exact, {}),
			}),
		).toBeCloseTo(0.05, 12);
		expect(
			of("sodium thiosulfate pentahydrate", {
				as: "mass concentration",
				quantity: input("massConcentration", 24.8172, "g/L", exact, {}),
			}),
		).toBeCloseTo(0.1, 12);
		expect(
			of("potassium iodate", {
				as: "mass fraction",
				quantity: input("ratio", 2.13995, "%", exact, {}),
				density: input("density", 1, "g/mL", exact, {}),
			}),
		).toBeCloseTo(0.1, 12);
	});

	test("grams of thiosulfate: a formula is obeyed, the bare name is asked about", () => {
		const grams = {
			as: "mass concentration" as const,
			quantity: input("massConcentration", 15.8097, "g/L", exact, {}),
		};
		// Na2S2O3: 45.98 + 64.12 + 47.997; with five H2O 90.075 more
		expect(of("Na2S2O3", grams)).toBeCloseTo(0.1, 6);
		expect(of("sodium thiosulphate, anhydrous", grams)).toBeCloseTo(0.1, 6);
		expect(of("Na2S2O3·5H2O", grams)).toBeCloseTo(15.8097 / 248.172, 6);
		expect(of("Na2S2O3 x 5 H2O", grams)).toBeCloseTo(15.8097 / 248.172, 6);
		expect(() => of("sodium thiosulfate", grams)).toThrow(/which salt/);
		expect(() => of("hypo", grams)).toThrow(/which salt/);
	});

	test("a normality of something unknown is a problem, its mol/L is not", () => {
		const normality = {
			as: "normality" as const,
			quantity: input("normality", 0.1, "N", exact, {}),
		};
		expect(() => of("ascorbic acid", normality)).toThrow(/ascorbic acid/);
		expect(
			of("ascorbic acid", {
				as: "concentration",
				quantity: input("concentration", 0.1, "mol/L", exact, {}),
			}),
		).toBeCloseTo(0.1, 15);
	});
});

test("a burette read from start to end, refilled once, with its calibration once", () => {
	const burettes: TitrationReading = {
		is: "burette",
		number: 1,
		marks: [],
		start: reading(0.2, "start"),
		refills: [{ from: reading(48.1, "from"), to: reading(0.4, "to") }],
		end: reading(3.5, "end"),
		calibration: burette,
		titrant: "thiosulfate",
		place: place("titre 1 (mL)"),
	};
	const titre = titreVolume(burettes, halfDrop);
	expect(titre.in("mL")).toBeCloseTo(48.1 - 0.2 + 3.5 - 0.4, 12);
	expect(titre.standardUncertainty).toBeCloseTo(
		Math.hypot((2 * 0.05) / Math.sqrt(3), 0.05 / Math.sqrt(3), 0.025),
		12,
	);
	// Two titrations have two end points, one titration read twice has one.
	expect(per(titre, titreVolume(burettes, halfDrop)).standardUncertainty).toBe(
		0,
	);
});

test("problems carry their place", () => {
	const lost = solution("lost", "iodine", {
		...(iodine.basis as Extract<Solution["basis"], { is: "standardised" }>),
		against: "nobody",
	});
	const [first] = concentrations(run([lost])).unresolved;
	expect(first.problems[0].where.file).toBe("run.csv");
	try {
		concentrations(run([lost])).concentration("lost");
		expect.unreachable();
	} catch (error) {
		expect((error as ProblemError).problems).toEqual(first.problems);
	}
});

describe("what a deviation leaves out", () => {
	const sheet = (deviations: readonly Record<string, string>[]) =>
		concentrations(
			trialFromRows({
				flasks: [
					{
						flask: "1",
						treatment: "control",
						"char mass (g)": 1,
						"dose (mL)": 40,
						"made up to (mL)": 100,
						"char in when made up": "no",
						"aliquot (mL)": 25,
						"titre (mL)": 5,
					},
				],
				solutions: [
					{
						solution: "iodine",
						substance: "iodine",
						"concentration (N)": 0.1,
					},
					{
						solution: "iodate",
						substance: "KIO3",
						"concentration (mmol/L)": 16.6667,
					},
					{
						solution: "thiosulfate",
						substance: "sodium thiosulfate",
						"standardised against": "iodate",
						"aliquot (mL)": 25,
						"titre 1 (mL)": 25,
						"titre 2 (mL)": 26,
					},
				],
				deviations,
			}),
		);

	test("one titre of a standardisation: the others stand", () => {
		// 6 x 16.6667 mmol/L x 25/25.5 with both, x 25/25 without the second
		expect(sheet([]).concentration("thiosulfate").in("mmol/L")).toBeCloseTo(
			98.0394,
			3,
		);
		const without = sheet([
			{
				solution: "thiosulfate",
				part: "titre 2",
				"what happened": "overshot",
				handling: "leave out",
			},
		]);
		expect(without.concentration("thiosulfate").in("mmol/L")).toBeCloseTo(
			100.0002,
			3,
		);
		expect(without.byName("thiosulfate").how).toContain("one titration");
	});

	test("a whole solution, and what was standardised against it", () => {
		const without = sheet([
			{
				solution: "iodate",
				"what happened": "went mouldy",
				handling: "leave out",
			},
		]);
		expect(without.unresolved.map((u) => u.name)).toEqual([
			"iodate",
			"thiosulfate",
		]);
		expect(() => without.concentration("thiosulfate")).toThrow(
			/the solution "iodate", which a deviation leaves out \(went mouldy\)/,
		);
		expect(without.concentration("iodine").in("mol/L")).toBeCloseTo(0.05, 12);
	});
});

describe("what a solution says of itself", () => {
	const told = () =>
		concentrations(run([iodine, thiosulfate([25, 25.05, 25.1], 0.05), iodate]));

	test("how it was found", () => {
		expect(told().all.map((t) => t.how)).toEqual([
			'standardised against "thiosulfate", one titration',
			'standardised against "iodate", 3 titrations',
			"weighed as KIO3 and made up to volume",
		]);
		const stated = solution("s", "iodine", {
			is: "stated",
			concentration: {
				as: "normality",
				quantity: input("normality", 0.1, "N", exact, {}),
			},
		});
		const [known] = concentrations(run([stated])).all;
		expect(known).toMatchObject({
			how: "stated",
			assumptions: [],
			outlierAdvice: "",
		});
	});

	test("iodine is counted as I2, nothing else is", () => {
		const meaning = (name: string): string =>
			told().concentration(name).name.meaning;
		expect(meaning("iodine")).toBe('concentration of "iodine", as I2');
		expect(meaning("thiosulfate")).toBe('concentration of "thiosulfate"');
	});

	test("its sentence has the value and the 95 % interval", () => {
		// 6 x 0.0166672 x 25/25 mol/L
		expect(told().byName("thiosulfate").sentence).toMatch(
			/^"thiosulfate": .*0\.100.*mol\/L \(.* to .*\), 95 % interval in brackets\.$/,
		);
	});

	test("a blank that was not titrated is an assumption, one that was is none", () => {
		expect(told().byName("thiosulfate").assumptions).toEqual([]);
		expect(told().byName("iodate").assumptions).toEqual([]);
		expect(told().byName("iodine").assumptions).toEqual([
			'No blank titre was taken off for "iodine".',
		]);
	});

	test("by name as in the list", () => {
		const titrants = told();
		expect(titrants.byName("iodate")).toBe(titrants.all[2]);
		expect(titrants.unresolved).toEqual([]);
	});
});

describe("a strength that cannot be right", () => {
	const tenfold = solution("thiosulfate", "sodium thiosulfate", {
		...(thiosulfate([25]).basis as Extract<
			Solution["basis"],
			{ is: "standardised" }
		>),
		nominal: {
			recorded: true,
			value: {
				as: "concentration",
				quantity: input("concentration", 0.01, "mol/L", exact, {}),
			},
		},
	});
	const contradicted = () => concentrations(run([iodine, tenfold, iodate]));

	test("is told of the solution and of what was standardised against it, not of its own standard", () => {
		const { found } = contradicted().byName("thiosulfate").contradiction;
		// 0.1000 mol/L found, 0.01 nominal
		expect(found).toMatch(/"thiosulfate" was found to be 0\.1 mol.*10 times/);
		expect(contradicted().byName("iodine").contradiction.found).toBe(found);
		expect(contradicted().byName("iodate").contradiction.found).toBe("");
	});

	test("stands under the table once, with its likely cause and the other notes", () => {
		expect(contradicted().table.notes).toEqual([
			expect.stringMatching(/"thiosulfate" was found to be/),
			expect.stringMatching(/Likely cause/),
			expect.stringMatching(/when "iodine" was standardised/),
			'No blank titre was taken off for "iodine".',
			expect.stringMatching(/when "thiosulfate" was standardised/),
			'No blank titre was taken off for "thiosulfate".',
		]);
	});

	test("a nominal strength counts for a standardised solution only where the sheet has one", () => {
		const plain = concentrations(run([thiosulfate([25]), iodate]));
		expect(plain.byName("thiosulfate").contradiction.found).toBe("");
	});
});

describe("the table of solutions", () => {
	const dye = solution("blue", "methylene blue", {
		is: "stated",
		concentration: {
			as: "concentration",
			quantity: input("concentration", 0.001, "mol/L", exact, {}),
		},
	});
	const shown = () =>
		concentrations(
			run([
				iodine,
				thiosulfate([25]),
				iodate,
				dye,
				solution("lost", "iodine", {
					...(iodine.basis as Extract<
						Solution["basis"],
						{ is: "standardised" }
					>),
					against: "nobody",
				}),
			]),
		).table.rows.map((row) => row.map((cell) => cellText(cell, "")));

	test("a normality only where there is a reaction to count by", () => {
		expect(shown().map((row) => [row[0], row[3] === ""])).toEqual([
			["iodine", false],
			["thiosulfate", false],
			["iodate", false],
			["blue", true],
			["lost", true],
		]);
		// 0.0166672 mol/L of iodate are 0.1000 N
		expect(shown()[2][3]).toMatch(/0\.100.* N/);
	});

	test("what is not known says why", () => {
		expect(shown()[4]).toEqual([
			"lost",
			"",
			"not known",
			"",
			'found no solution "nobody"',
		]);
	});
});

test("a standardisation whose titres are all left out has none to go by", () => {
	const out = {
		...titration(25, "titre 1 (mL)"),
		marks: [{ handling: "leave out" }],
	} as unknown as TitrationReading;
	const { unresolved } = concentrations(
		run([
			solution("thiosulfate", "sodium thiosulfate", {
				...(thiosulfate([]).basis as Extract<
					Solution["basis"],
					{ is: "standardised" }
				>),
				titrations: [out],
			}),
			iodate,
		]),
	);
	expect(unresolved[0].problems[0].found).toContain(
		'every titre of the standardisation of "thiosulfate"',
	);
});

test("readings further apart than a drop are judged, a drop is not", () => {
	const advice = (third: number): string =>
		concentrations(run([thiosulfate([25, 25, third]), iodate])).byName(
			"thiosulfate",
		).outlierAdvice;
	expect(advice(25.05)).toBe("");
	expect(advice(25.06)).toContain("stands apart");
});

test("a mean titre is called less the blank only where one was titrated", () => {
	const meanings = (blank: number): readonly string[] =>
		budget(
			concentrations(run([thiosulfate([25], blank), iodate])).concentration(
				"thiosulfate",
			),
		).rows.map((row) => row.meaning);
	expect(meanings(0.05).length).toBeGreaterThan(meanings(0).length);
});

test("a fault of the program is no problem of the sheet", () => {
	const broken: Solution = {
		...iodate,
		get basis(): Solution["basis"] {
			throw new RangeError("a fault");
		},
	};
	expect(() => concentrations(run([broken]))).toThrow(RangeError);
});
