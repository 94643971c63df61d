/** What each decision of ours moves, held against the comparison with that decision taken. */
import { describe, expect, test } from "vitest";
import {
	readTrial,
	type TrialOptions,
	trialFromRows,
	withSettings,
} from "../../kernel-lib/bench";
import {
	type CompareOptions,
	type Comparison,
	compareTreatments,
	type Difference,
	marginOf,
	residueOf,
	type VerdictWord,
} from "../../kernel-lib/compare";
import { sensitivityTable } from "../../kernel-lib/compare/decisions";
import { sensitivityLimits } from "../../kernel-lib/compare/decisions/sensitivity";
import type { ProblemError, Table } from "../../kernel-lib/quantity";
import { mean } from "../../kernel-lib/stats";
import { uptakes } from "../../kernel-lib/uptake";
import { methodSentences, verdictSentence } from "../../kernel-lib/words";
import { charRow, plainSolutions, type Row } from "../uptake/sheets";

const titres: Readonly<Record<string, readonly number[]>> = {
	water: [5.2, 4.9, 5.05],
	steam: [3.1, 2.8, 3.3],
	sieved: [5, 4.7, 5],
};

const charFlasks = (more: Row = {}): Row[] =>
	Object.entries(titres).flatMap(([treatment, own]) =>
		own.map((titre, i) =>
			charRow(`${treatment} ${i}`, {
				treatment,
				control: treatment === "water" ? "" : "water",
				soak: `${treatment} ${i}`,
				"char in when made up": "yes",
				"titre (mL)": titre,
				...more,
			}),
		),
	);

const iodineBlank = charRow("i", {
	contents: "iodine blank",
	treatment: "",
	"char mass (g)": "",
	"char in when made up": "",
	"titre (mL)": 9.4,
});

const read = (flasks: Row[], options: TrialOptions = {}) =>
	trialFromRows({ flasks, solutions: plainSolutions }, options);

const asked: CompareOptions = { margin: marginOf(35) };
const usual = read([...charFlasks(), iodineBlank]);
const compare = (options: CompareOptions = {}) =>
	compareTreatments(usual, { ...asked, ...options });

/** Cells of the treatments by "decision: instead". */
const rowsOf = ({ rows }: Table): Map<string, readonly string[]> =>
	new Map(
		rows.map((r) => [
			r[0] === "as it is" ? "as it is" : `${r[0]}: ${r[2]}`,
			r.slice(3).map(String),
		]),
	);

const numbersIn = (text: string): number[] =>
	(text.replaceAll("−", "-").match(/-?\d+(\.\d+)?/g) ?? []).map(Number);

type Compared = ReturnType<typeof compareTreatments>;

/** Every number of the difference, to half a digit of what is shown. */
function expectShown(cell: string, verdict: Compared["verdicts"][number]) {
	const { difference: d } = verdict;
	if (d.is !== "estimate") throw new Error("no estimate");
	const half = /\.\d.* to /.test(cell.replace(/^by .*: /, "")) ? 0.051 : 0.51;
	const [estimate, low, high] = numbersIn(cell.replace(/^by .*: /, ""));
	expect(Math.abs(estimate - d.estimate)).toBeLessThan(half);
	expect(Math.abs(low - d.low)).toBeLessThan(half);
	expect(Math.abs(high - d.high)).toBeLessThan(half);
}

test("each row is the comparison with that decision, and there are no others", () => {
	const readSo = (options: TrialOptions) =>
		compareTreatments(read([...charFlasks(), iodineBlank], options), asked);
	const others: readonly (readonly [string, Compared])[] = [
		["losses: from the dose only", readSo({ losses: "from the dose" })],
		["losses: from what is left only", readSo({ losses: "from what is left" })],
		[
			"losses: none, the blank is the dose",
			readSo({ losses: "the blank is the dose" }),
		],
		["liquid displaced by char: none", readSo({ displacement: 0 })],
		["end point error: none", readSo({ endPoint: 0 })],
		[
			"slopes 1/n: from 0.1 to 0.5",
			compare({ slopes: { low: 0.1, high: 0.5 } }),
		],
		[
			"slopes 1/n: all 0, residues not regarded",
			compare({ slopes: { low: 0, high: 0 } }),
		],
		["scatter: alike in all treatments", compare({ spread: "pooled" })],
		[
			'"no difference that matters" judged: by the whole interval',
			compare({ sameness: "interval" }),
		],
	];
	const compared = compare();
	const rows = rowsOf(compared.sensitivity);
	expect([...rows.keys()]).toEqual(["as it is", ...others.map(([row]) => row)]);
	expect(compared.sensitivity.rows).toHaveLength(1 + others.length);
	expect(compared.sensitivity.columns.slice(3)).toEqual(["steam", "sieved"]);
	const asItIs = rows.get("as it is") as readonly string[];
	for (const [row, other] of others)
		other.verdicts.forEach((v, i) => {
			const own = compared.verdicts[i];
			const cell = rows.get(row)?.[i] as string;
			expect(cell.includes(", now ")).toBe(v.word !== own.word);
			if (v.word !== own.word) expect(cell).toContain(`, now ${v.word}`);
			expectShown(cell === "the same" ? asItIs[i] : cell, v);
			if (cell === "the same") expect(v.word).toBe(own.word);
		});
});

test("unless told otherwise every decision is the usual one, and the head says nothing of it", () => {
	const compared = compare();
	expect(compared.decisions.map((d) => d.taken)).toEqual(
		compared.decisions.map((d) => d.usual),
	);
	for (const v of compared.verdicts)
		expect(verdictSentence(compared, v)).not.toContain("usual");
});

test("a decision that was taken otherwise is in the head, the method and the table, which shows the usual one", () => {
	const trial = withSettings(usual, { losses: "from the dose" });
	const other = compareTreatments(trial, {
		...asked,
		slopes: { low: 0.2, high: 0.2 },
	});
	for (const v of other.verdicts)
		expect(verdictSentence(other, v)).toContain(
			". Decided otherwise than usual: losses from the dose only and slopes 1/n 0.2",
		);
	expect(methodSentences(other).join(" ")).toContain(
		"slopes 1/n 0.2 (usually in the whole range of the probe)",
	);
	const back = rowsOf(other.sensitivity).get(
		"slopes 1/n: in the whole range of the probe",
	) as readonly string[];
	expectShown(back[0], compareTreatments(trial, asked).verdicts[0]);
});

test("slopes of 0 leave every uptake where it is: the difference of the means of the flasks", () => {
	const flat = compareTreatments(usual, {
		...asked,
		slopes: { low: 0, high: 0 },
	});
	const meanOf = (treatment: string): number =>
		mean(
			uptakes(usual)
				.filter((u) => u.flask.treatment === treatment)
				.map((u) => u.uptake.quantity.in("mg/g")),
		);
	for (const { treatment, difference: d } of flat.verdicts)
		expect(d.is === "estimate" ? d.estimate : Number.NaN).toBeCloseTo(
			meanOf(treatment) - meanOf("water"),
			9,
		);
});

test("the notes say which decision moves a word, or that none does", () => {
	expect(compare().sensitivity.notes[0]).toBe(
		'Words that hang on a decision: "sieved" is "no difference that matters" instead of "cannot tell" with slopes 1/n from 0.1 to 0.5; or with slopes 1/n all 0, residues not regarded.',
	);
	const narrow = compareTreatments(usual, { margin: marginOf(1) });
	expect(narrow.sensitivity.notes[0]).toBe("None of them moves a word.");
});

test("a word that hangs on how sameness is judged is what the comparison says that judges it so", () => {
	const { difference: d } = compare().verdicts[1];
	if (d.is !== "estimate") throw new Error("no estimate");
	const margin = marginOf((d.oneSided.high + d.high) / 2);
	const byTests = compareTreatments(usual, { margin });
	const byInterval = compareTreatments(usual, { margin, sameness: "interval" });
	for (const [one, other] of [
		[byTests, byInterval],
		[byInterval, byTests],
	]) {
		const cell = String(one.sensitivity.rows.at(-1)?.[4]);
		expect(cell).toContain(`, now ${other.verdicts[1].word}`);
	}
	expect(byTests.verdicts[1].word).toBe("no difference that matters");
});

test("on isotherms the sheet shows how steep the curves are, and each treatment scatters about its own", () => {
	const { decisions } = compareTreatments(
		readTrial("data/demo-isotherm/isotherm.csv"),
		asked,
	);
	expect(decisions.map((d) => d.idle)).toEqual([
		"",
		"",
		"",
		"the sheet shows it: isotherms",
		"that about each curve",
		"",
	]);
});

test("of a dye nothing is titrated", () => {
	const { decisions } = compareTreatments(
		readTrial("data/demo-dye/dye.csv"),
		asked,
	);
	expect(decisions[2]).toMatchObject({
		name: "end point error",
		idle: "nothing was titrated",
	});
});

describe("what a cell says", () => {
	const base = compare();
	const found = (word: VerdictWord, difference: Partial<Difference>) => ({
		...base.verdicts[0],
		word,
		difference: (difference.is === undefined
			? { is: "estimate", estimate: 100, low: 80, high: 121, ...difference }
			: difference) as Difference,
	});
	const verdict = (v: Compared["verdicts"][number]): Comparison => ({
		...base,
		verdicts: [v],
	});
	/** The table of a comparison that comes to something else with every other decision. */
	const tableOf = (own: Comparison, other: () => Comparison): Table =>
		sensitivityTable(own, { trial: usual, options: asked }, other);
	const cellOf = (own: Comparison, other: () => Comparison): string =>
		String(tableOf(own, other).rows[1][3]);
	const usually = verdict(found("higher", {}));

	// Half a digit behind the last one that the interval is shown with: 80 to 121 is shown in whole mg/g.
	test.each([
		[{ estimate: 97.3 }, "by −2.7: 97 (80 to 121)"],
		[{ estimate: 99.94, low: 79 }, "by −0.1: 100 (79 to 121)"],
		[{ estimate: 99.96, low: 79 }, "100 (79 to 121)"],
		[{ estimate: 100.06 }, "the same"],
	])("%o: %s", (difference, cell) => {
		expect(cellOf(usually, () => verdict(found("higher", difference)))).toBe(
			cell,
		);
	});

	test("another word, with the same numbers or others", () => {
		const now = (d: Partial<Difference>) =>
			cellOf(usually, () => verdict(found("cannot tell", d)));
		expect(now({})).toBe("100 (80 to 121), now cannot tell");
		expect(now({ low: -1 })).toBe("100 (−1 to 121), now cannot tell");
	});

	test("a narrow interval is shown with a decimal", () => {
		const narrow = { low: 97, high: 103 };
		const cell = cellOf(verdict(found("higher", narrow)), () =>
			verdict(found("higher", { ...narrow, estimate: 100.2 })),
		);
		expect(cell).toBe("by 0.20: 100.2 (97.0 to 103.0)");
	});

	test("a bound is shown as one, and where nothing is known it says so", () => {
		const atLeast = { is: "at least", limit: 41.62 } as const;
		const none = {
			is: "not available",
			why: "nothing to compare",
		} as const;
		const bound = verdict(found("higher", atLeast));
		expect(
			cellOf(bound, () => verdict(found("higher", { ...atLeast, limit: 44 }))),
		).toBe("at least 44");
		expect(tableOf(bound, () => bound).notes).toHaveLength(2);
		const small = verdict(found("higher", { ...atLeast, limit: 4.162 }));
		expect(tableOf(small, () => small).rows[0][3]).toBe("at least 4.2, higher");
		expect(cellOf(usually, () => verdict(found("higher", atLeast)))).toBe(
			"at least 42",
		);
		expect(cellOf(bound, () => usually)).toBe("100 (80 to 121)");
		const unknown = verdict(found("cannot tell", none));
		expect(cellOf(unknown, () => unknown)).toBe("the same");
		expect(tableOf(unknown, () => unknown).rows[0][3]).toBe(
			"no difference known, cannot tell",
		);
		expect(cellOf(usually, () => unknown)).toBe(
			"no difference known, now cannot tell",
		);
	});

	test("the largest move is told with the first decision that makes it", () => {
		const estimates = [99, 97.31, 102.69];
		const told = tableOf(usually, () =>
			verdict(found("higher", { estimate: estimates.shift() ?? 101 })),
		).notes[1];
		expect(told).toBe(
			'A difference moves by 2.7 mg/g at most ("steam", losses from what is left only).',
		);
		expect(tableOf(usually, () => usually).notes).toHaveLength(2);
	});

	test("where nothing can be compared then, it says so; any other error is one", () => {
		const refused = () => compareTreatments(read([iodineBlank]));
		expect(cellOf(usually, refused)).toBe("nothing can be compared");
		expect(tableOf(usually, refused).notes[0]).toBe(
			"None of them moves a word.",
		);
		const elsewhere = { ...usually, verdicts: [] };
		expect(cellOf(usually, () => elsewhere)).toBe("nothing can be compared");
		const broken = () => {
			throw new Error("broken");
		};
		expect(() => tableOf(usually, broken)).toThrow("broken");
	});
});

test("a part that only some flasks have is a part", () => {
	const [first, ...rest] = charFlasks();
	const mixed = compareTreatments(
		read([
			first,
			...rest.map((f) => ({ ...f, "char in when made up": "no", day: "2" })),
			{ ...iodineBlank, day: "2" },
		]),
		asked,
	);
	expect(mixed.decisions.map((d) => d.idle)).toEqual(Array(6).fill(""));
});

describe("a decision that has no part says why", () => {
	const idle = (c: Compared): string[] =>
		c.sensitivity.rows
			.filter((r) => r[1] === "no part here")
			.map((r) => `${r[0]}: ${r[2]}`);

	test("nothing here", () => {
		expect(idle(compare())).toEqual([]);
	});

	test("losses without a blank that shows them, and displacement where the filtrate was made up: the sheet says so", () => {
		const bare = compareTreatments(
			read(charFlasks({ "char in when made up": "no" })),
			{},
		);
		expect(idle(bare)).toEqual([
			"losses: no blank shows a loss",
			"liquid displaced by char: none made up with the char in it",
			'"no difference that matters" judged: no margin was set',
		]);
		const losses = withSettings(bare.trial, { losses: "from the dose" });
		const [v] = compareTreatments(losses, {}).verdicts;
		expect(v.difference).toEqual(bare.verdicts[0].difference);
		expect(verdictSentence(bare, v)).not.toContain("usual");
	});

	test("scatter where no flask is repeated", () => {
		const single = charFlasks().filter((f) => String(f.flask).endsWith("0"));
		expect(
			idle(compareTreatments(read([...single, iodineBlank]), asked)),
		).toEqual(["scatter: no scatter to judge by"]);
	});

	test("slopes that the doses of the sheet measured", () => {
		const doses = charFlasks().flatMap((f) => [
			f,
			{
				...f,
				flask: `${f.flask} more`,
				"dose (mL)": 60,
				"titre (mL)": 6.6 + 0.8 * Number(f["titre (mL)"]),
			},
		]);
		const c = compareTreatments(read([...doses, iodineBlank]), {
			...asked,
			residue: residueOf(2500),
			slopes: { low: 0, high: 0 },
		});
		expect(c.at.is === "carried" && [...c.at.slopes.values()]).toMatchObject(
			Array(3).fill({ is: "measured" }),
		);
		expect(idle(c)).toEqual([
			"slopes 1/n: the sheet shows it: doses by design",
		]);
		expect(verdictSentence(c, c.verdicts[0])).not.toContain("usual");
	});
});

test.each([
	[{ low: 0.5, high: 0.1 }],
	[{ low: -0.1, high: 0.5 }],
	[{ low: 0, high: 1.1 }],
	[{ low: 0.1 }],
	[[0.1, 0.5]],
])("slopes of %o are refused", (slopes) => {
	const call = () =>
		compareTreatments(usual, { slopes } as unknown as CompareOptions);
	expect(call).toThrow();
	try {
		call();
	} catch (error) {
		expect((error as ProblemError).problems[0].code).toBe("option-wrong");
	}
});

describe("a comparison that is large", () => {
	const c = compare();
	const asked = { trial: usual, options: {} };
	const { flasks, treatments } = sensitivityLimits;
	const large = (count: { flasks?: number; treatments?: number }) => {
		let made = 0;
		const table = sensitivityTable(
			{
				...c,
				flasks: Array.from({ length: count.flasks ?? 1 }, () => c.flasks[0]),
				verdicts: Array.from(
					{ length: count.treatments ?? 1 },
					() => c.verdicts[0],
				),
			},
			asked,
			() => {
				made += 1;
				return c;
			},
		);
		return { made, table };
	};

	test("is looked at up to the limits", () => {
		expect(large({ flasks }).made).toBeGreaterThan(5);
		expect(large({ treatments }).made).toBeGreaterThan(5);
	});

	test("beyond them is not compared again, and the table says so and what was taken", () => {
		for (const [count, what] of [
			[{ flasks: flasks + 1 }, "2001 flasks"],
			[{ treatments: treatments + 1 }, "31 treatments"],
		] as const) {
			const { made, table } = large(count);
			expect(made).toBe(0);
			expect(table.notes.join()).toContain(what);
			expect(table.rows.map(String)).toEqual(
				c.decisions.map((d) => `${d.name},${d.taken}`),
			);
		}
	});
});
