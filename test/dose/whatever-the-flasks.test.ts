import fc from "fast-check";
import { expect, test } from "vitest";
import {
	charFor,
	doseForTarget,
	doseSentence,
	naturalBackground,
	removalCurve,
	removalTable,
	stageTable,
} from "../../kernel-lib/dose/index";
import {
	doseAndRemoval,
	isotherms as isothermFigure,
} from "../../kernel-lib/figures/index";
import {
	betLiquid,
	fitIsotherm,
	freundlich,
	type IsothermFit,
	langmuir,
	sips,
	temkin,
	toth,
} from "../../kernel-lib/isotherms/index";
import { ProblemError, tableText } from "../../kernel-lib/quantity/index";
import { flasksOf } from "./flasks";

const isotherms = [langmuir, freundlich, temkin, sips, toth, betLiquid(400)];

/** Flasks of a water that may follow no isotherm at all: large errors, few doses, doses all alike. */
const flasks = fc
	.record({
		start: fc.double({ min: 20, max: 500, noNaN: true }),
		plateau: fc.double({ min: 1, max: 300, noNaN: true }),
		affinity: fc.double({ min: 1e-4, max: 5, noNaN: true }),
		doses: fc.array(fc.double({ min: 0.02, max: 20, noNaN: true }), {
			minLength: 1,
			maxLength: 7,
		}),
		alike: fc.boolean(),
		noise: fc.double({ min: 0, max: 0.3, noNaN: true }),
		errors: fc.array(fc.double({ min: -1, max: 1, noNaN: true }), {
			minLength: 7,
			maxLength: 7,
		}),
	})
	.map(({ start, plateau, affinity, doses, alike, noise, errors }) =>
		flasksOf(
			(c) => (c > 0 ? (plateau * affinity * c) / (1 + affinity * c) : 0),
			start,
			alike ? doses.map(() => doses[0]) : doses,
			errors.map((e) => e * noise * start),
			0.01 * start,
			[{ key: "titrant", relative: 0.01 }],
		),
	);

/** The fit, or nothing where the flasks cannot be fitted at all (which is said by an error of its own). */
function fitted(make: () => IsothermFit): IsothermFit[] {
	try {
		return [make()];
	} catch (error) {
		if (error instanceof ProblemError) return [];
		throw error;
	}
}

test("whatever the flasks, there is an answer or a reason, and no number that is none", () => {
	fc.assert(
		fc.property(
			flasks,
			fc.constantFrom(...isotherms),
			fc.boolean(),
			fc.double({ min: 1, max: 600, noNaN: true }),
			fc.double({ min: 0.01, max: 600, noNaN: true }),
			fc.integer({ min: 1, max: 4 }),
			fc.constantFrom(
				"cross-current" as const,
				"cross-current, equal doses" as const,
				"counter-current" as const,
			),
			fc.constantFrom("refuse" as const, "mark" as const),
			(
				points,
				isotherm,
				withBackground,
				start,
				target,
				stages,
				scheme,
				beyond,
			) => {
				for (const fit of fitted(() =>
					withBackground
						? naturalBackground(isotherm, points).fit
						: fitIsotherm(isotherm, points),
				)) {
					const question = { start, target, stages, scheme, beyond };
					const answer = doseForTarget(fit, question);
					const texts = [
						doseSentence(answer),
						charFor([answer], 200).finding,
						tableText(charFor([answer], 200).table),
						...[
							answer.table,
							stageTable(answer),
							answer.planTable,
							answer.sensitivityTable,
							removalTable(fit),
						].map(tableText),
					].join("\n");
					expect(texts).not.toMatch(
						/\bNaN\b|\bundefined\b|Infinity|not a number/,
					);
					if (answer.is === "no dose") {
						expect(answer.because.length).toBeGreaterThan(20);
						expect(answer.wouldTell.length).toBeGreaterThan(20);
					} else {
						expect(answer.dose.value).toBeGreaterThan(0);
						isothermFigure([fit], { stages: answer });
					}
					doseAndRemoval(
						[removalCurve(fit, { start, doses: [0.1, 1, 10] })],
						[],
						{
							answers: [answer],
						},
					);
				}
			},
		),
		{ numRuns: 80, seed: 11, endOnFailure: true },
	);
}, 240_000);
