import { describe, expect, test } from "vitest";
import { doseTable } from "../../kernel-lib/dose/dose-table";
import {
	charFor,
	type DoseQuestion,
	doseForTarget,
	doseSensitivity,
	doseSentence,
	removalCurve,
	removalPoints,
	removalTable,
	scenarios,
	stageTable,
} from "../../kernel-lib/dose/index";
import {
	fitIsotherm,
	freundlich,
	langmuir,
	temkin,
	uptakeAt,
} from "../../kernel-lib/isotherms/index";
import {
	input,
	known,
	normal,
	notKnown,
	sharedErrors,
	stated,
	tableText,
} from "../../kernel-lib/quantity/index";
import { flasksOf, residueByHalving } from "./flasks";

const truth = Float64Array.of(120, 0.05);
const q = (c: number): number => uptakeAt(langmuir, truth, c);
const doses = [0.2, 0.5, 1, 1.5, 2, 3, 4, 6];
const errors = [0.8, -0.5, 0.4, -0.7, 0.3, 0.5, -0.4, 0.1];
const points = flasksOf(q, 200, doses, errors, 0.6);
const fit = fitIsotherm(langmuir, points);

const answerOf = (...a: Parameters<typeof doseForTarget>) => {
	const answer = doseForTarget(...a);
	if (answer.is !== "dose") throw new Error(answer.because);
	return answer;
};
const refusalOf = (...a: Parameters<typeof doseForTarget>) => {
	const answer = doseForTarget(...a);
	if (answer.is === "dose") throw new Error("an answer where none is right");
	return answer;
};

describe("dose for a target", () => {
	test("a flask with that dose ends at the target", () => {
		const { dose } = answerOf(fit, { start: 200, target: 20 });
		expect(
			residueByHalving(
				(c) => uptakeAt(langmuir, fit.theta, c),
				200,
				dose.value,
			),
		).toBeCloseTo(20, 9);
	});

	test("its interval is the delta method on the logarithm, done by hand here", () => {
		const { dose } = answerOf(fit, { start: 200, target: 20 });
		const [qmax, k] = fit.theta;
		const c = 20;
		const g = [1 / qmax, 1 / k - c / (1 + k * c)];
		if (fit.scatterCovariance.is !== "value") throw new Error();
		const m = fit.scatterCovariance.value;
		const se = Math.sqrt(
			g[0] * g[0] * m[0] + 2 * g[0] * g[1] * m[1] + g[1] * g[1] * m[3],
		);
		// Student's t for six degrees of freedom, from a table.
		const t = 2.446912;
		if (dose.low.is !== "value" || dose.high.is !== "value") throw new Error();
		expect(dose.low.value / (dose.value * Math.exp(-t * se))).toBeCloseTo(1, 6);
		expect(dose.high.value / (dose.value * Math.exp(t * se))).toBeCloseTo(1, 6);
		expect(dose.high.value - dose.value).toBeGreaterThan(
			dose.value - dose.low.value,
		);
	});

	test("an error that all flasks share widens the interval and is named", () => {
		const shared = fitIsotherm(
			langmuir,
			flasksOf(q, 200, doses, errors, 0.6, [
				{ key: "titrant", relative: 0.02 },
			]),
		);
		const alone = answerOf(fit, { start: 200, target: 20 }).dose;
		const { dose } = answerOf(shared, { start: 200, target: 20 });
		if (dose.relativeError.is !== "value" || alone.relativeError.is !== "value")
			throw new Error();
		expect(dose.relativeError.value).toBeGreaterThan(
			1.05 * alone.relativeError.value,
		);
		expect(dose.contributions.map((c) => c.what)).toContain("titrant");
		expect(dose.contributions.reduce((sum, c) => sum + c.share, 0)).toBeCloseTo(
			1,
			12,
		);
	});

	test("a start with an uncertainty adds it; a start that leans on the same input as the flasks is not independent of them", () => {
		const relative = 0.02;
		const startOf = (component: string) =>
			input("massConcentration", 200, "mg/L", normal(200 * relative), {
				source: stated("test"),
				scope: "shared",
				component,
			});
		const titrant = startOf("titrant");
		const shared = fitIsotherm(
			langmuir,
			flasksOf(q, 200, doses, errors, 0.6, [
				{ key: sharedErrors([titrant]).shared[0].input.key, relative },
			]),
		);
		const error = (start: DoseQuestion["start"]): number => {
			const { relativeError } = answerOf(shared, { start, target: 20 }).dose;
			return relativeError.is === "value" ? relativeError.value : Number.NaN;
		};
		const linked = error(titrant);
		const independent = error(startOf("another"));
		const exact = error(200);
		expect(independent).toBeGreaterThan(exact);
		expect(Math.abs(linked / independent - 1)).toBeGreaterThan(0.05);
	});

	test("what has no answer gets a reason and the flasks that would give one", () => {
		const above = refusalOf(fit, { start: 200, target: 250 });
		expect(above.code).toBe("target-above-start");
		const words = doseSentence(above);
		expect(words).toMatch(/needs no char.*Give a target below the start\.$/);
		for (const text of [words, charFor([above], 200).finding])
			expect(text).not.toMatch(/No flask|\.\.|no dose takes/);

		const outside = refusalOf(fit, { start: 200, target: 0.5 });
		expect(outside.code).toBe("outside-measured-range");
		expect(outside.wouldTell).toMatch(/g of char per litre/);
		const marked = answerOf(fit, { start: 200, target: 0.5, beyond: "mark" });
		expect(marked.extrapolating).toBe(true);
		expect(marked.place).toContain("outside");
		expect(marked.cautions.join(" ")).toContain("nothing was measured there");

		const plateau = fitIsotherm(
			langmuir,
			flasksOf(q, 400, [0.1, 0.2, 0.3, 0.4, 0.5, 0.6], errors, 0.6),
		);
		const onPlateau = refusalOf(plateau, { start: 400, target: 5 });
		expect(onPlateau.because).toMatch(/stand on the plateau/);
		expect(onPlateau.wouldTell).toMatch(/^Flasks/);

		const oneDose = fitIsotherm(
			langmuir,
			flasksOf(q, 200, [1, 1, 1, 1.01], errors, 0.6),
		);
		const same = refusalOf(oneDose, { start: 200, target: 60 });
		expect(same.code).toBe("one-dose-only");
		expect(same.wouldTell).toMatch(/quarter.*half.*twice/);

		const low = fitIsotherm(temkin, points);
		const none = refusalOf(low, { start: 200, target: 1e-4, beyond: "mark" });
		expect(none.code).toBe("no-uptake-at-target");
	});

	test("flasks that settle no curve settle no dose: a reason instead of a number", () => {
		const vague = fitIsotherm(
			langmuir,
			flasksOf(
				(c) => 0.02 * c,
				200,
				[0.1, 0.12, 0.15, 0.2, 0.25],
				[4, -5, 6, -3, -4],
				4,
			),
		);
		const none = refusalOf(vague, { start: 200, target: 20, beyond: "mark" });
		expect(none.code).toBe("not-determined");
		expect(none.because).toContain("its numbers mean nothing");
	});

	test("a dose whose interval would reach more than tenfold is none", () => {
		const covariance = fit.scatterCovariance;
		if (covariance.is === "not known") throw new Error();
		const wild = {
			...fit,
			scatterCovariance: {
				is: "value" as const,
				value: covariance.value.map((c) => 1e5 * c),
			},
		};
		const none = refusalOf(wild, { start: 200, target: 20 });
		expect(none.code).toBe("not-determined");
		expect(none.because).toContain("more than tenfold");
		expect(none.wouldTell).toMatch(/^Flasks/);
	});

	test("a stage that would leave more than was measured is refused too, or marked", () => {
		const narrow = fitIsotherm(
			langmuir,
			flasksOf(q, 60, [0.5, 1, 1.5, 2, 3, 4], errors, 0.2),
		);
		const question = { start: 600, target: 10, stages: 3 };
		expect(refusalOf(narrow, question).because).toMatch(/^stage 1 would leave/);
		expect(
			answerOf(narrow, { ...question, beyond: "mark" }).extrapolating,
		).toBe(true);
	});

	test("numbers that make no question are refused all at once, in words of the question", () => {
		const asked = () =>
			doseForTarget(fit, { start: Number.NaN, target: -1, stages: 1.5 });
		expect(asked).toThrow(/3 problems/);
		expect(asked).toThrow(
			/found a start that is no number;.*found a target of -1 mg\/L;.*found 1\.5 stages;/s,
		);
	});

	test("twelve stages are answered, thirteen are too many", () => {
		const question = { start: 200, target: 20, beyond: "mark" as const };
		expect(answerOf(fit, { ...question, stages: 12 }).stages).toHaveLength(12);
		expect(() => doseForTarget(fit, { ...question, stages: 13 })).toThrow(
			/13 stages; expected a whole number from 1 to 12/,
		);
	});

	test("doses within a twentieth are one dose, others are not", () => {
		const codes = (most: number): string => {
			const alike = fitIsotherm(
				langmuir,
				flasksOf(q, 200, [1, 1.01, 1.02, most], errors, 0.6),
			);
			const answer = doseForTarget(alike, { start: 200, target: 60 });
			return answer.is === "dose" ? "dose" : answer.code;
		};
		expect(codes(1.0499)).toBe("one-dose-only");
		expect(codes(1.0501)).not.toBe("one-dose-only");
	});

	test("flasks from seven tenths of the plateau on are said to stand on it", () => {
		const because = (share: number): string =>
			refusalOf(
				{
					...fit,
					range: {
						...fit.range,
						// Langmuir's share of the plateau is K C/(1 + K C)
						low: share / (1 - share) / fit.theta[1],
					},
				},
				{ start: 200, target: 0.5 },
			).because;
		expect(because(0.701)).toContain("all of them stand on the plateau");
		expect(because(0.699)).not.toContain("plateau");
	});

	test("an interval just within tenfold is one, just beyond is none", () => {
		const alone = fitIsotherm(langmuir, flasksOf(q, 200, doses, errors, 0.6));
		const { low, value } = answerOf(alone, { start: 200, target: 20 }).dose;
		if (low.is !== "value" || alone.scatterCovariance.is !== "value")
			throw new Error();
		const half = Math.log(value / low.value);
		const { value: covariance } = alone.scatterCovariance;
		const widened = (factor: number) =>
			doseForTarget(
				{
					...alone,
					scatterCovariance: known(
						covariance.map((c) => c * ((factor * Math.log(10)) / half) ** 2),
					),
				},
				{ start: 200, target: 20 },
			).is;
		expect(widened(0.999)).toBe("dose");
		expect(widened(1.001)).toBe("no dose");
	});

	test("an answer brings its sentence and its stages", () => {
		for (const target of [20, 250]) {
			const answer = doseForTarget(fit, { start: 200, target });
			expect(answer.sentence).toBe(doseSentence(answer));
			expect(tableText(answer.stageTable)).toBe(tableText(stageTable(answer)));
		}
	});

	test("the confidence is that of the fit, in the sentence and the note; tables take one", () => {
		const ninety = fitIsotherm(langmuir, points, { confidence: 0.9 });
		const answer = doseForTarget(ninety, { start: 200, target: 20 });
		expect(answer.sentence).toContain("; 90 % interval");
		expect(answer.table.notes[0]).toContain("90 % interval of the dose");
		expect(() =>
			doseTable([answer, doseForTarget(fit, { start: 200, target: 20 })]),
		).toThrow(/intervals of 90 % and 95 %/);
	});

	test("a question is checked by name and by kind", () => {
		expect(() =>
			doseForTarget(fit, { start: "200", target: 20, stagess: 2 } as never),
		).toThrow(
			/2 problems.*the text "200" for the option "start".*Did you mean "stages"/s,
		);
	});

	test("answers name the treatment, with a dose and without", () => {
		const named = fitIsotherm(langmuir, { ...points, name: "fired twice" });
		for (const target of [20, 0.5, 250]) {
			const answer = doseForTarget(named, { start: 200, target });
			expect(doseSentence(answer)).toMatch(/^"fired twice": /);
			const text = tableText(answer.table);
			expect(text).toContain("fired twice");
			expect(text).not.toMatch(/[-−]\d/);
		}
	});

	test("scenarios: one row each, also for those without an answer; no NaN anywhere", () => {
		const answers = scenarios(
			fit,
			[100, 200],
			[0.1, 10, 20, 150],
			[{}, { stages: 2, scheme: "counter-current" }],
		);
		const text = tableText(answers.table);
		expect(answers).toHaveLength(16);
		expect(text).not.toMatch(/NaN|Infinity|undefined/);
		expect(text).toContain("none");
		const { planTable } = doseForTarget(fit, { start: 200, target: 20 });
		// one stage, and three schemes of two and of three stages
		expect(planTable.rows.map((r) => r[0])).toEqual([
			"one",
			...[2, 3].flatMap((n) =>
				["cross-current", "cross-current, equal doses", "counter-current"].map(
					(scheme) => `${n}, ${scheme}`,
				),
			),
		]);
		const twoStages = doseForTarget(fit, {
			start: 200,
			target: 20,
			stages: 2,
			scheme: "counter-current",
		});
		expect(tableText(twoStages.planTable)).toBe(tableText(planTable));
		expect(tableText(stageTable(answers[0]))).toContain("No dose");
	});

	test("sensitivity: elasticities against the closed form of one stage", () => {
		const s = new Map(
			doseSensitivity(fit, { start: 200, target: 20 }).map((e) => [
				e.input,
				e.elasticity,
			]),
		);
		const [, k] = fit.theta;
		expect(s.get("start")).toBeCloseTo(200 / 180, 5);
		expect(s.get("target")).toBeCloseTo(-20 / 180 - 1 / (1 + k * 20), 5);
		expect(s.get("q_max")).toBeCloseTo(-1, 5);
		expect(s.get("K_L")).toBeCloseTo(-1 / (1 + k * 20), 5);
		expect(
			tableText(
				doseForTarget(fit, { start: 200, target: 20 }).sensitivityTable,
			),
		).toContain("scatter of the flasks");
	});
});

describe("removal against dose", () => {
	test("the curve goes through what each flask should show, and the flasks stand where they were", () => {
		const curve = removalCurve(fit, { doses });
		curve.at.forEach((a, i) => {
			expect(a.residue).toBeCloseTo(fit.expected[i], 8);
			if (a.low.is !== "value" || a.high.is !== "value") throw new Error();
			expect(a.low.value).toBeLessThan(a.removal);
			expect(a.high.value).toBeGreaterThan(a.removal);
			expect(a.high.value).toBeLessThan(100);
		});
		const flasks = removalPoints(points);
		expect(flasks[2].dose).toBeCloseTo(1, 12);
		expect(flasks[2].removal).toBeCloseTo(
			100 * (1 - points.points[2].concentration / 200),
			10,
		);
		expect(tableText(removalTable(fit))).toContain("removal by the curve");
	});

	test("the curve brings its flasks and their table; starts and doses are above zero", () => {
		const curve = removalCurve(fit);
		expect(curve.flasks).toEqual(removalPoints(points));
		expect(tableText(curve.table)).toBe(tableText(removalTable(fit)));
		expect(() => removalCurve(fit, { start: -1 })).toThrow(
			/a start of -1 mg\/L; expected a concentration above 0/,
		);
		expect(() => removalCurve(fit, { doses: [1, 0, Number.NaN] })).toThrow(
			/doses of 0 g\/L, no number; expected doses of char above 0/,
		);
		expect(() => removalCurve(fit, { sart: 3 } as object)).toThrow(
			/Did you mean "start"/,
		);
	});

	test("plain points need a start", () => {
		const plain = fitIsotherm(freundlich, {
			...points,
			points: points.points.map((p) => ({
				...p,
				balance: notKnown("typed in"),
			})),
		});
		expect(() => removalCurve(plain)).toThrow(/Give \{ start/);
		expect(removalCurve(plain, { start: 200 }).at).toHaveLength(60);
	});
});
