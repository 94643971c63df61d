import { describe, expect, test } from "vitest";
import {
	charFor,
	type DoseQuestion,
	doseForTarget,
} from "../../kernel-lib/dose/index";
import {
	fitIsotherm,
	langmuir,
	uptakeAt,
} from "../../kernel-lib/isotherms/index";
import { notKnown } from "../../kernel-lib/quantity/index";
import { flasksOf } from "./flasks";

const truth = Float64Array.of(120, 0.05);
const doses = [0.2, 0.5, 1, 1.5, 2, 3, 4, 6];
const errors = [0.8, -0.5, 0.4, -0.7, 0.3, 0.5, -0.4, 0.1];
const points = {
	...flasksOf((c) => uptakeAt(langmuir, truth, c), 200, doses, errors, 0.6),
	name: "fired twice",
	probe: "iodine",
};
const fit = fitIsotherm(langmuir, points);
const asked = (question: Partial<DoseQuestion> = {}) =>
	doseForTarget(fit, { start: 200, target: 20, ...question });
/** A flask with this dose ends at 20 mg/L: 180 mg/L on a char that takes up 60 mg/g there. */
const trueDose = 3;

/** An answer whose interval has lost an end. */
function without(end: "low" | "high") {
	const answer = asked();
	if (answer.is !== "dose") throw new Error(answer.because);
	const unknown = notKnown("nobody knows");
	const lost =
		end === "low" ? { low: unknown, high: unknown } : { high: unknown };
	return Object.defineProperty(
		{ ...answer, dose: { ...answer.dose, ...lost } },
		"table",
		{ value: answer.table },
	) as typeof answer;
}

describe("the title says how much char the water needs", () => {
	test("a dose with its interval, for so much water", () => {
		const { finding } = charFor([asked()], 200);
		const found =
			/^About ([\d.]+) kg \(([\d.]+) to ([\d.]+)\) of the char "fired twice" takes 200 L of this water from 200 to 20 mg\/L of iodine\.$/.exec(
				finding,
			);
		if (!found) throw new Error(finding);
		const [value, low, high] = found.slice(1).map(Number);
		expect(value).toBeCloseTo(0.2 * trueDose, 1);
		expect(low).toBeLessThan(0.2 * trueDose);
		expect(high).toBeGreaterThan(0.2 * trueDose);
	});

	test("a litre is one litre; char under a tenth of a kilogram is said in grams", () => {
		expect(charFor([asked()], 1).finding).toMatch(
			/^About 3(\.\d+)? g .* takes one litre of this water/,
		);
		const answer = asked();
		if (answer.is !== "dose") throw new Error(answer.because);
		const litres = 100 / answer.dose.value;
		expect(charFor([asked()], 0.999 * litres).finding).toMatch(/^About \d+ g /);
		expect(charFor([asked()], 1.001 * litres).finding).toMatch(
			/^About 0\.1\d* kg /,
		);
	});

	test("neither a char nor a probe without a name leaves a gap", () => {
		const nameless = fitIsotherm(langmuir, { ...points, name: "", probe: "" });
		expect(
			charFor([doseForTarget(nameless, { start: 200, target: 20 })], 200)
				.finding,
		).toMatch(/\) of char takes 200 L of this water from 200 to 20 mg\/L\.$/);
	});

	test("stages and what lies beyond the flasks are in the title", () => {
		const staged = asked({ stages: 2, scheme: "counter-current" });
		expect(charFor([staged], 200).finding).toContain(
			" in 2 stages, counter-current.",
		);
		const beyond = asked({ target: 0.5, beyond: "mark" });
		expect(charFor([beyond], 200).finding).toContain(
			"; that lies beyond what the flasks showed.",
		);
	});

	test("what is not known of the interval is said, and why", () => {
		expect(charFor([without("high")], 200).finding).toMatch(
			/^About 0\.\d+ kg, and at least 0\.\d+ kg, of the char .*; it may take far more: nobody knows\.$/,
		);
		expect(charFor([without("low")], 200).finding).toMatch(
			/^About 0\.\d+ kg of the char .*; how sure that is cannot be said: nobody knows\.$/,
		);
	});

	test("another confidence is named", () => {
		const ninety = fitIsotherm(langmuir, points, { confidence: 0.9 });
		expect(
			charFor([doseForTarget(ninety, { start: 200, target: 20 })], 200).finding,
		).toMatch(/kg \(90 % interval 0/);
	});

	test("water that is clean enough needs none", () => {
		expect(charFor([asked({ target: 250 })], 200).finding).toBe(
			"This water needs no char: it holds 200 mg/L, and 250 mg/L may stay.",
		);
	});

	test("a target that the flasks do not show is no answer", () => {
		expect(charFor([asked({ target: 0.5 })], 200).finding).toMatch(
			/^How much of the char "fired twice" this water needs cannot be told: the target of 0\.5 mg\/L lies outside the residues that the flasks showed/,
		);
	});

	test("a target below what is never taken up has no dose", () => {
		const answer = asked({ target: 0.5 });
		if (answer.is !== "no dose") throw new Error("an answer");
		const hopeless = {
			...answer,
			code: "target-below-background",
			because: "about 12 mg/L of this water is not adsorbable",
		};
		expect(charFor([hopeless as typeof answer], 200).finding).toBe(
			'No dose of the char "fired twice" answers by these flasks: about 12 mg/L of this water is not adsorbable.',
		);
	});
});

describe("a row for each plan", () => {
	const plans = [
		asked(),
		asked({ stages: 2, beyond: "mark" }),
		asked({ stages: 2, scheme: "cross-current, equal doses", beyond: "mark" }),
		asked({ stages: 2, scheme: "counter-current", beyond: "mark" }),
	];

	test("each says how the char is used, and further stages save char", () => {
		const { columns, rows } = charFor(plans, 200).table;
		expect(columns).toHaveLength(4);
		expect(rows.map((r) => r[0])).toEqual([
			"one stage",
			"2 stages, fresh char in each",
			"2 stages, equal fresh portions",
			"2 stages, char against the water",
		]);
		const kilograms = rows.map((r) => Number(r[1]));
		expect(kilograms[1]).toBeLessThan(kilograms[0]);
		expect(kilograms[3]).toBeLessThan(kilograms[1]);
		for (const [, value, low, high] of rows) {
			expect(Number(low)).toBeLessThanOrEqual(Number(value));
			expect(Number(high)).toBeGreaterThanOrEqual(Number(value));
		}
	});

	test("the first row and the title have one number", () => {
		const { finding, table } = charFor(plans, 200);
		expect(finding).toContain(
			`About ${table.rows[0][1]} kg (${table.rows[0][2]} to ${table.rows[0][3]})`,
		);
	});

	test("a plan without a dose says why below the table", () => {
		const { rows, notes } = charFor(
			[asked(), asked({ target: 250 })],
			200,
		).table;
		expect(rows[1].slice(1)).toEqual(["none", "", ""]);
		expect(notes.join(" ")).toContain("is not below the start");
		const none = charFor([asked({ target: 250 })], 200).table;
		expect(none.notes.join(" ")).not.toContain("interval");
	});

	test("an open end is called so in its cell", () => {
		expect(charFor([without("high")], 200).table.rows[0][3]).toBe(
			"no upper end",
		);
	});
});

test.each([-1, 0, Number.NaN, Number.POSITIVE_INFINITY])(
	"%s litres are no volume, whether there is a dose or not",
	(litres) => {
		for (const target of [20, 250])
			expect(() => charFor([asked({ target })], litres)).toThrow(
				/found (−1 litres|0 litres|a volume of water that is no number).*Change the volume of the water/,
			);
	},
);

test("no plan is no question", () => {
	expect(() => charFor([], 200)).toThrow(/an empty list.*one answer/);
});
