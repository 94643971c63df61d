import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	type Scheme,
	type Stage,
	stagesFor,
	totalDose,
} from "../../kernel-lib/dose/stages";
import {
	freundlich,
	type Isotherm,
	langmuir,
	sips,
	toth,
	uptakeAt,
} from "../../kernel-lib/isotherms/index";
import { residueByHalving } from "./flasks";

const schemes: readonly Scheme[] = [
	"cross-current",
	"cross-current, equal doses",
	"counter-current",
];
const between = (low: number, high: number) =>
	fc
		.double({ min: Math.log(low), max: Math.log(high), noNaN: true })
		.map(Math.exp);
/** A catalogue isotherm with parameters that a char may have, for starts near 100 mg/L. */
const curve: fc.Arbitrary<{ isotherm: Isotherm; theta: Float64Array }> =
	fc.oneof(
		fc
			.tuple(between(20, 500), between(1e-3, 1))
			.map((p) => ({ isotherm: langmuir, theta: Float64Array.from(p) })),
		fc
			.tuple(between(1, 100), between(0.15, 1.5))
			.map((p) => ({ isotherm: freundlich, theta: Float64Array.from(p) })),
		fc
			.tuple(between(20, 500), between(1e-3, 1), between(0.5, 1))
			.map((p) => ({ isotherm: sips, theta: Float64Array.from(p) })),
		fc
			.tuple(between(20, 500), between(1e-3, 1), between(0.4, 1))
			.map((p) => ({ isotherm: toth, theta: Float64Array.from(p) })),
	);
const task = fc.record({
	curve,
	start: between(20, 500),
	share: between(0.01, 0.9),
	count: fc.integer({ min: 1, max: 12 }),
	scheme: fc.constantFrom(...schemes),
});

/** Stages run through with fresh char by halving the balance of each. */
function forward(
	q: (c: number) => number,
	start: number,
	doses: readonly number[],
): number {
	return doses.reduce((c, d) => residueByHalving(q, c, d), start);
}

/** Water through stages, char the other way: the balances of all stages solved in turn, over and over, until nothing moves. */
function steadyCounterCurrent(
	q: (c: number) => number,
	start: number,
	dose: number,
	count: number,
): number {
	const c = new Array<number>(count).fill(start / 2);
	for (let round = 0; round < 4000; round++) {
		let moved = 0;
		for (let i = 0; i < count; i++) {
			const uptakeIn = i + 1 < count ? q(c[i + 1]) : 0;
			const next = residueByHalving(
				q,
				i === 0 ? start : c[i - 1],
				dose,
				uptakeIn,
			);
			moved = Math.max(moved, Math.abs(next - c[i]));
			c[i] = next;
		}
		if (moved < 1e-13 * start) break;
	}
	return c[count - 1];
}

const dosesOf = (stages: readonly Stage[]): number[] =>
	stages.map((s) => s.dose);

describe("stages", () => {
	test("what leaves the water is on the char, in every stage and over all of them, to 1e-9, for any number of stages", () => {
		fc.assert(
			fc.property(task, ({ curve, start, share, count, scheme }) => {
				const { isotherm, theta } = curve;
				const target = start * share;
				const stages = stagesFor(scheme, isotherm, theta, start, target, count);
				expect(stages).toHaveLength(count);
				expect(stages[0].residueIn).toBe(start);
				expect(stages[count - 1].residueOut).toBe(target);
				let onChar = 0;
				stages.forEach((s, i) => {
					if (i > 0) expect(s.residueIn).toBe(stages[i - 1].residueOut);
					expect(s.uptake).toBe(uptakeAt(isotherm, theta, s.residueOut));
					const taken = s.dose * (s.uptake - s.uptakeIn);
					expect(
						Math.abs(s.residueIn - s.residueOut - taken),
					).toBeLessThanOrEqual(1e-9 * start);
					onChar += taken;
				});
				expect(Math.abs(start - target - onChar)).toBeLessThanOrEqual(
					1e-9 * start,
				);
			}),
			{ numRuns: 600, seed: 5 },
		);
	});

	test("a direct solution of the balances, stage after stage by halving, ends at the target", () => {
		fc.assert(
			fc.property(task, ({ curve, start, share, count, scheme }) => {
				const { isotherm, theta } = curve;
				const q = (c: number): number =>
					c > 0 ? uptakeAt(isotherm, theta, c) : 0;
				const target = start * share;
				const stages = stagesFor(
					scheme,
					isotherm,
					theta,
					start,
					target,
					Math.min(count, 4),
				);
				const end =
					scheme === "counter-current"
						? steadyCounterCurrent(q, start, stages[0].dose, stages.length)
						: forward(q, start, dosesOf(stages));
				expect(Math.abs(end / target - 1)).toBeLessThan(1e-7);
			}),
			{ numRuns: 120, seed: 6 },
		);
	});

	test("no other split of the same char over the cross-current stages leaves less", () => {
		fc.assert(
			fc.property(
				curve,
				between(20, 500),
				between(0.02, 0.8),
				fc.array(fc.double({ min: 0.05, max: 1, noNaN: true }), {
					minLength: 2,
					maxLength: 5,
				}),
				({ isotherm, theta }, start, share, weights) => {
					const q = (c: number): number => uptakeAt(isotherm, theta, c);
					const target = start * share;
					const count = weights.length;
					const total = totalDose(
						"cross-current",
						stagesFor("cross-current", isotherm, theta, start, target, count),
					);
					const sum = weights.reduce((a, b) => a + b, 0);
					const end = forward(
						q,
						start,
						weights.map((w) => (total * w) / sum),
					);
					expect(end).toBeGreaterThan(target * (1 - 1e-9));
				},
			),
			{ numRuns: 300, seed: 7 },
		);
	});

	test("equal doses are equal; more stages never need more char; counter-current needs least", () => {
		fc.assert(
			fc.property(
				curve,
				between(20, 500),
				between(0.02, 0.8),
				({ isotherm, theta }, start, share) => {
					const total = (scheme: Scheme, n: number): number =>
						totalDose(
							scheme,
							stagesFor(scheme, isotherm, theta, start, start * share, n),
						);
					for (const scheme of schemes)
						for (let n = 1; n < 5; n++)
							expect(total(scheme, n + 1)).toBeLessThanOrEqual(
								total(scheme, n) * (1 + 1e-9),
							);
					const equal = stagesFor(
						"cross-current, equal doses",
						isotherm,
						theta,
						start,
						start * share,
						3,
					);
					for (const s of equal)
						expect(Math.abs(s.dose / equal[0].dose - 1)).toBeLessThan(1e-8);
					expect(total("counter-current", 3)).toBeLessThanOrEqual(
						total("cross-current", 3) * (1 + 1e-9),
					);
					expect(total("cross-current", 3)).toBeLessThanOrEqual(
						total("cross-current, equal doses", 3) * (1 + 1e-9),
					);
				},
			),
			{ numRuns: 100, seed: 8 },
		);
	});
});
