import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Comparison, marginOf } from "../../kernel-lib/compare";
import {
	compareTreatments,
	deviation,
	type FlaskFixture,
	flasks,
} from "./fixtures";

const treatments = ["water", "potash", "soda", "fired"];

/** Any small trial: values, bounds, days, soaks, errors as they come. */
const trial: fc.Arbitrary<FlaskFixture[]> = fc
	.array(
		fc.record({
			treatment: fc.integer({ min: 0, max: 3 }),
			soak: fc.constantFrom("", "1", "2", "3"),
			day: fc.constantFrom("", "Monday", "Tuesday"),
			uptake: fc.integer({ min: -20, max: 300 }),
			is: fc.constantFrom("value", "value", "value", "at least", "at most"),
			reading: fc.constantFrom(0, 1, 5),
			titrant: fc.constantFrom(0, 1, 2),
			residue: fc.constantFrom(0, 10, 300, 350),
			dry: fc.boolean(),
			suspected: fc.boolean(),
		}),
		{ minLength: 1, maxLength: 12 },
	)
	.map((rows) => {
		const control = treatments.find((_, t) =>
			rows.some((r) => r.treatment === t),
		);
		return rows.map(
			(r, i): FlaskFixture => ({
				flask: `${i}`,
				treatment: treatments[r.treatment],
				control: treatments[r.treatment] === control ? "" : (control as string),
				soak: r.soak,
				day: r.day,
				uptake: r.uptake,
				is: r.is as FlaskFixture["is"],
				reading: r.reading,
				shared: { titrant: r.titrant },
				residue: r.residue,
				perGram: r.dry ? "dry char" : "char as weighed",
				demand: r.suspected
					? { is: "suspected", looksLike: "more uptake", because: "alkali" }
					: { is: "none expected" },
			}),
		);
	});

function withoutMargin(c: Comparison): string {
	const {
		margin: _,
		trial: _trial,
		flasks: _flasks,
		compared: _compared,
		at: _at,
		...rest
	} = c;
	return JSON.stringify(rest);
}

describe("laws of a comparison", () => {
	test("any small trial gets words and reasons, and no number that is none", () => {
		fc.assert(
			fc.property(trial, (rows) => {
				const c = compareTreatments(flasks(rows), {
					margin: marginOf(25),
					deviations: [
						deviation(
							rows.filter((r) => r.uptake % 3 === 0).map((r) => r.flask),
							"spilt",
							rows.length % 2 ? "keep" : "leave out",
						),
					],
				});
				expect(withoutMargin(c)).not.toMatch(/null|NaN|Infinity|undefined/);
				for (const v of c.verdicts) {
					expect(v.sentence).toMatch(/^"[a-z]+": .*\.$/);
					expect(v.reasons.length).toBeGreaterThan(0);
				}
			}),
			{ numRuns: 80, seed: 1 },
		);
	}, 300_000);

	test("the order of the rows changes nothing", () => {
		fc.assert(
			fc.property(trial, fc.integer(), (rows, seed) => {
				const shuffled = [...rows].sort(
					(a, b) =>
						((Number(a.flask) * 7919 + seed) % 31) -
						((Number(b.flask) * 7919 + seed) % 31),
				);
				const a = compareTreatments(flasks(rows), { margin: marginOf(25) });
				const b = compareTreatments(flasks(shuffled), {
					margin: marginOf(25),
				});
				expect(b.scope).toBe(a.scope);
				expect(b.pooledDeviation).toBeCloseTo(a.pooledDeviation, 8);
				for (const v of a.verdicts) {
					const w = b.verdicts.find((x) => x.treatment === v.treatment);
					expect(w?.word).toBe(v.word);
					expect(w?.difference.is).toBe(v.difference.is);
					if (
						v.difference.is === "estimate" &&
						w?.difference.is === "estimate"
					) {
						expect(w.difference.estimate).toBeCloseTo(v.difference.estimate, 8);
						// correlations without product form are integrated by sampling, good to about 1e-4
						expect(w.difference.low / 100).toBeCloseTo(
							v.difference.low / 100,
							3,
						);
						expect(w.difference.adjustedP).toBeCloseTo(
							v.difference.adjustedP,
							3,
						);
					}
				}
			}),
			{ numRuns: 40, seed: 2 },
		);
	}, 300_000);

	test("the unit of the margin changes nothing", () => {
		fc.assert(
			fc.property(trial, (rows) => {
				const list = flasks(rows);
				const a = compareTreatments(list, { margin: marginOf(25) });
				const b = compareTreatments(list, {
					margin: marginOf(25).to("g/g"),
				});
				expect(b.verdicts).toEqual(a.verdicts);
			}),
			{ numRuns: 20, seed: 3 },
		);
	}, 300_000);
});
