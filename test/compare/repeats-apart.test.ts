import { describe, expect, test } from "vitest";
import { compareTreatments, marginOf } from "../../kernel-lib/compare";
import { fewReadingsFactor } from "../../kernel-lib/compare/few-readings";
import { verdictSentence } from "../../kernel-lib/words";
import { soundGlassware } from "../bench-sheet/rows";
import { charRow, type Row, steps } from "../uptake/sheets";

const iodineBlank = (flask: string, titre: number): Row => ({
	flask,
	contents: "iodine blank",
	"dose (mL)": 40,
	"made up to (mL)": 100,
	"aliquot (mL)": 25,
	"titre (mL)": titre,
});

/** Nothing but the repeats may keep a word away. */
const recorded: Row = {
	"soaked in": "water",
	"soak consumes iodine": "no",
	acidified: "yes",
	"final pH": 5,
	lid: "yes",
	"char batch": "A",
};

describe("what is known from few readings counts t(0.975; n - 1)/1.960 times", () => {
	// Student's t of 0.975: 12.706, 4.3027, 2.5706 (tables); normal 1.95996
	test.each([
		[1, 6.4829],
		[2, 2.1953],
		[5, 1.3116],
		[Number.POSITIVE_INFINITY, 1],
	])("%s degrees of freedom", (df, factor) => {
		expect(fewReadingsFactor(df)).toBeCloseTo(factor, 3);
	});
});

describe("single flasks whose repeats lie apart", () => {
	const judged = (...rows: Row[]) => {
		const { trial } = steps(rows);
		const c = compareTreatments(trial, { margin: marginOf(200) });
		const [v] = c.verdicts;
		if (v.difference.is !== "estimate") throw new Error("no estimate");
		return {
			v,
			c,
			halfWidth: (v.difference.high - v.difference.low) / 2,
		};
	};
	const titres = (a: number, b: number): Row => ({
		"titre (mL)": "",
		"titre 1 (mL)": a,
		"titre 2 (mL)": b,
	});
	const pair = (change: Row, other: Row = change): Row[] => [
		charRow("a", { ...recorded, ...change }),
		charRow("b", { treatment: "steam", ...recorded, ...other }),
	];

	test("titres of 7.00 and 9.00 mL are not those of 8.00 and 8.00 mL", () => {
		const alike = judged(...pair(titres(8, 8), titres(8, 8)));
		const apart = judged(...pair(titres(8, 8), titres(7, 9)));
		// 1 mL of the mean, 0.1 mol/L and four aliquots of 25 mL: 50.8 mg/g at an equal residue, more when it is carried; 12.7 times that
		expect(apart.halfWidth).toBeGreaterThan(12.7 * 50.7);
		expect(alike.halfWidth).toBeLessThan(25);
		expect(apart.v.word).toBe("cannot tell");
		expect(verdictSentence(apart.c, apart.v)).toContain("cannot tell");
	});

	test("iodine blanks of 99 % and 70 % let no single flask speak", () => {
		const rows = pair({ "titre (mL)": 4 });
		const alike = judged(...rows, iodineBlank("i", 9.9), iodineBlank("j", 9.9));
		const apart = judged(...rows, iodineBlank("i", 9.9), iodineBlank("j", 7));
		// 12.7 times 20.5 points of the 508 mg dosed, in either flask
		expect(apart.halfWidth).toBeGreaterThan(12.7 * 0.2 * 508);
		expect(alike.halfWidth).toBeLessThan(apart.halfWidth / 10);
		expect(apart.v.word).toBe("cannot tell");
		expect(apart.v.numbersSay).toBe("cannot tell");
	});

	test("reagent blanks of 0.00 and 0.60 mL are not those of 0.30 and 0.30 mL", () => {
		const reagentBlank = (flask: string, titre: number): Row => ({
			flask,
			contents: "reagent blank",
			"titre (mL)": titre,
		});
		// At unlike residues: what the flasks share would cancel at like ones.
		const rows = pair({ "titre (mL)": 8 }, { "titre (mL)": 5 });
		const alike = judged(
			...rows,
			reagentBlank("r", 0.3),
			reagentBlank("s", 0.3),
		);
		const apart = judged(...rows, reagentBlank("r", 0), reagentBlank("s", 0.6));
		expect(apart.halfWidth).toBeGreaterThan(alike.halfWidth * 1.05);
	});
});

describe("the head says what is assumed where a sheet shows nothing of it", () => {
	const head = (change: Row, ...more: Row[]): string => {
		const { trial } = steps(
			[
				charRow("a", { ...recorded, ...change, "titre (mL)": 9 }),
				charRow("b", {
					treatment: "steam",
					...recorded,
					...change,
					"titre (mL)": 4,
				}),
				...more,
			],
			undefined,
			{ glassware: [...soundGlassware] as Row[] },
		);
		const c = compareTreatments(trial, { margin: marginOf(25) });
		expect(c.verdicts[0].word).toBe("higher");
		return verdictSentence(c, c.verdicts[0]);
	};
	const jars =
		/No two iodine blanks show how jars differ: 1\.5 points of recovery are taken/;
	const water = /Moisture from one determination is taken as good to 1 point/;

	test("how jars differ: one iodine blank shows nothing, two do", () => {
		expect(head({}, iodineBlank("i", 9.9))).toMatch(jars);
		expect(head({}, iodineBlank("i", 9.9), iodineBlank("j", 9.9))).not.toMatch(
			jars,
		);
	});

	test("moisture: one determination is assumed good to a point, two or a stated uncertainty are not", () => {
		const one = { "moisture, wet basis (%)": 5 };
		expect(head(one)).toMatch(water);
		expect(
			head({
				"moisture, wet basis 1 (%)": 5,
				"moisture, wet basis 2 (%)": 5.2,
			}),
		).not.toMatch(water);
		expect(head({ ...one, "moisture uncertainty (%)": 0.5 })).not.toMatch(
			water,
		);
		expect(head({})).toMatch(
			/per gram as weighed, for moisture was not measured/,
		);
	});
});

describe("how jars differ", () => {
	const jars = (...titres: number[]) => {
		const { recoveries, uptakes } = steps([
			charRow("a"),
			...titres.map((t, i) => iodineBlank(`i${i}`, t)),
		]);
		const day = recoveries.forDay("");
		if (day.is !== "measured") throw new Error("no recovery");
		return { ...day.jars, cautions: uptakes[0].cautions };
	};

	test("1.5 points are assumed with one blank", () => {
		expect(jars(9.9)).toMatchObject({
			is: "assumed",
			evidence: { standardUncertainty: 0.015 },
		});
	});

	test("two blanks show it: 99 % and 70 % differ by 29/√2 = 20.5 points, with one degree of freedom, and it is told", () => {
		const { evidence, cautions } = jars(9.9, 7);
		expect(evidence.standardUncertainty).toBeCloseTo(0.205, 2);
		expect(evidence.degreesOfFreedom).toBe(1);
		expect(cautions.join(" ")).toContain("further apart");
		expect(jars(9.9, 9.9).evidence.standardUncertainty).toBe(0);
	});
});

describe("moisture has an uncertainty of its own", () => {
	const found = (change: Row) => {
		const [u] = steps([charRow("a", change)]).uptakes;
		if (!u.flask.moisture.recorded) throw new Error("no moisture");
		return {
			takenAs: u.takenAs,
			points: u.flask.moisture.value.fraction.to("%").standardUncertainty,
			mean: u.flask.moisture.value.fraction.in("%"),
		};
	};
	const wet = (...list: number[]): Row =>
		Object.fromEntries(
			list.map((w, i) => [`moisture, wet basis ${i + 1} (%)`, w]),
		);

	test("one determination: 1 point, and it is said", () => {
		const one = found(wet(4));
		expect(one.points).toBeCloseTo(1, 9);
		expect(one.takenAs).toContain("moisture");
	});

	// standard deviation of two: their difference over √2; at least 0.3 points each, of the mean over √2
	test.each([
		[4, 0.3 / Math.SQRT2],
		[4.42, 0.3 / Math.SQRT2],
		[4.44, 0.22],
		[5, 0.5],
	])("repeats 4 and %s", (second, points) => {
		const two = found(wet(4, second));
		expect(two.points).toBeCloseTo(points, 9);
		expect(two.mean).toBeCloseTo((4 + second) / 2, 9);
		expect(two.takenAs).not.toContain("moisture");
	});

	test("as the sheet states it", () => {
		const stated = found({ ...wet(4), "moisture uncertainty (%)": 0.4 });
		expect(stated.points).toBeCloseTo(0.4, 9);
		expect(stated.takenAs).not.toContain("moisture");
	});
});

// 0.05 mL at most are unseen: the middle is 0.025 mL of 0.1 mol/L, half of it iodine, and the half-width is as much.
test.each([0, 0.04])(
	"a withdrawal of titre %s took away between nothing and the detection limit",
	(titre) => {
		const [{ account }] = steps([
			charRow("a", {
				"dose (mL)": "",
				"dose 1 (mL)": 40,
				"withdrawn 2 (mL)": 10,
				"withdrawn 2 titre (mL)": titre,
			}),
			{ flask: "r", contents: "reagent blank", "titre (mL)": 0.3 },
		]).found;
		expect(account.withdrawn.in("mmol")).toBeCloseTo(0.00125, 6);
		expect(account.withdrawn.to("mmol").standardUncertainty).toBeCloseTo(
			0.00125 / Math.sqrt(3),
			5,
		);
	},
);
