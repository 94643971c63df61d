import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { FittedWashout, Washout } from "../../kernel-lib/activation/index";
import {
	agentLeft,
	rinsesNeeded,
	washCurve,
	washout,
	washouts,
} from "../../kernel-lib/activation/index";
import type { TypedRow } from "../../kernel-lib/bench/index";
import {
	exact,
	input,
	type MaybeKnown,
	type Quantity,
	tableText,
} from "../../kernel-lib/quantity/index";
import { createRandom } from "../../kernel-lib/stats/index";
import { firingOf, kilnOf } from "./firings";
import { massesOf, rowOf, type Truth, usualTruth } from "./made-up-firing";

const conductivity = (value: number): Quantity<"conductivity"> =>
	input("conductivity", value, "µS/cm", exact, {});
const pH = (value: number): Quantity<"pH"> =>
	input("pH", value, "pH", exact, {});

function washOf(
	row: TypedRow,
	...more: Parameters<typeof washout> extends [unknown, ...infer R] ? R : never
): Washout {
	return washout(firingOf(row), ...more);
}
function fitted(w: Washout): FittedWashout {
	if (w.is === "not known") throw new Error(w.because);
	return w;
}
const refusal = (w: Washout): string => (w.is === "not known" ? w.because : "");
/** An end that is not known limits nothing. */
const endOf = (end: MaybeKnown<number>): number =>
	end.is === "value" ? end.value : Number.POSITIVE_INFINITY;
function needed(
	w: Washout,
	target: Parameters<typeof rinsesNeeded>[1],
): Extract<ReturnType<typeof rinsesNeeded>, { is: "foretold" }> {
	const n = rinsesNeeded(fitted(w), target);
	if (n.is === "not known") throw new Error(n.because);
	return n;
}

/** Rinses until the true curve is at or below a target, by counting. */
function trueCount(t: Truth, target: number, next: number): number {
	let excess = ((1000 * t.agentFired) / t.retained) * t.conducts;
	let n = 0;
	while (t.water + excess > target) {
		excess *= t.retained / (t.retained + (t.volumes[n] ?? next));
		n += 1;
	}
	return n;
}

test("a target of no conductivity is refused, in words, at the target", () => {
	for (const target of [0, -5]) {
		const n = rinsesNeeded(
			fitted(washOf(rowOf(usualTruth))),
			conductivity(target),
		);
		expect(n.is).toBe("not known");
		expect(n.sentence).toContain("no water conducts so little");
		expect(n.sentence).toContain("12 µS/cm");
	}
});

describe("readings without error give the truth back", () => {
	test("retained volume, count of rinses, agent left", () => {
		fc.assert(
			fc.property(
				fc.record({
					retained: fc.double({ min: 20, max: 200, noNaN: true }),
					agentFired: fc.double({ min: 1, max: 20, noNaN: true }),
					volumes: fc.array(fc.integer({ min: 100, max: 400 }), {
						minLength: 3,
						maxLength: 6,
					}),
					target: fc.double({ min: 30, max: 500, noNaN: true }),
				}),
				({ target, ...change }) => {
					const truth = { ...usualTruth, ...change };
					const w = fitted(washOf(rowOf(truth)));
					expect(w.retained / truth.retained).toBeCloseTo(1, 4);
					const next = truth.volumes[truth.volumes.length - 1];
					const count = trueCount(truth, target, next);
					const found = needed(w, conductivity(target));
					// At a target that the curve touches, rounding decides.
					expect(Math.abs(found.total - count)).toBeLessThanOrEqual(
						Math.abs(
							trueCount(truth, target * (1 + 1e-6), next) -
								trueCount(truth, target * (1 - 1e-6), next),
						),
					);
					const left = agentLeft(w).mass;
					expect(left.is).toBe("at least");
					if (left.is !== "not known")
						expect(
							left.quantity.in("g") / massesOf(truth).agentLeft,
						).toBeCloseTo(1, 3);
				},
			),
			{ numRuns: 40 },
		);
	});

	test("rinses of another size still to come", () => {
		const next = 1000;
		const w = washOf(
			rowOf(usualTruth),
			"conductivity",
			input("volume", next, "mL", exact, {}),
		);
		expect(needed(w, conductivity(20)).total).toBe(
			trueCount(usualTruth, 20, next),
		);
		expect(trueCount(usualTruth, 20, next)).not.toBe(
			trueCount(usualTruth, 20, 200),
		);
	});

	test("a rinse that was not read still dilutes", () => {
		const { "rinse 2 conductivity (µS/cm)": _, ...row } = rowOf(usualTruth);
		expect(fitted(washOf(row)).retained).toBeCloseTo(usualTruth.retained, 3);
	});

	test("a reading of the diluted rinse counts for the rinse itself", () => {
		const row = rowOf(usualTruth);
		const first = row["rinse 1 conductivity (µS/cm)"] as number;
		expect(
			fitted(
				washOf({
					...row,
					"rinse 1 conductivity (µS/cm)":
						usualTruth.water + (first - usualTruth.water) / 20,
					"rinse 1 diluted": 20,
				}),
			).retained,
		).toBeCloseTo(usualTruth.retained, 3);
	});

	test("the floor is found where the water was not read and the readings reach it", () => {
		const truth = { ...usualTruth, water: 150, volumes: Array(8).fill(200) };
		const { "rinse water conductivity (µS/cm)": _, ...row } = rowOf(truth);
		const w = fitted(washOf(row));
		expect([w.floorIs, w.floor]).toEqual(["fitted", expect.closeTo(150, 1)]);
	});
});

describe("pH", () => {
	/** A rinse of a strong alkali by the ion product of water, worked out here by itself. */
	function pHRow(strengths: readonly number[], agent: string): TypedRow {
		return {
			firing: "P",
			agent,
			"precursor mass (g)": 40,
			"rinse water pH": 7,
			...Object.fromEntries(
				strengths.flatMap((c, i): [string, number][] => [
					[`rinse ${i + 1} (mL)`, 200],
					[`rinse ${i + 1} pH`, Number(c.toFixed(6))],
				]),
			),
		};
	}
	/** [OH] - [H] = c, [OH][H] = 1e-14. */
	const strong = (c: number): number =>
		14 + Math.log10((c + Math.sqrt(c * c + 4e-14)) / 2);
	const alkali = (n: number): number => 0.02 * (40 / 240) ** n;

	test("strong alkali: pH falls by log10(1 + V/V_r) a rinse", () => {
		const w = fitted(
			washOf(
				pHRow(
					[1, 2, 3, 4].map((n) => strong(alkali(n))),
					"KOH",
				),
				"pH",
			),
		);
		expect(w.retained).toBeCloseTo(40, 2);
		let n = 0;
		while (strong(alkali(n)) > 8) n += 1;
		expect(needed(w, pH(8)).total).toBe(n);
	});

	test("a carbonate's pH falls half as fast, for its hydroxide goes with the root of its strength", () => {
		const root = (n: number): number => strong(1e-3 * (40 / 240) ** (n / 2));
		const w = fitted(washOf(pHRow([1, 2, 3, 4].map(root), "K2CO3"), "pH"));
		expect(w.retained).toBeCloseTo(40, 2);
	});

	test("acid comes up from below", () => {
		const acid = [1, 2, 3, 4].map((n) => 14 - strong(alkali(n)));
		const w = fitted(washOf(pHRow(acid, "H3PO4"), "pH"));
		expect(w.retained).toBeCloseTo(40, 2);
		let n = 0;
		while (14 - strong(alkali(n)) < 6) n += 1;
		expect(needed(w, pH(6)).total).toBe(n);
	});

	test("it tells no grams, and a conductivity is no target for it", () => {
		const w = fitted(
			washOf(
				pHRow(
					[1, 2, 3, 4].map((n) => strong(alkali(n))),
					"KOH",
				),
				"pH",
			),
		);
		expect(agentLeft(w).mass.is).toBe("not known");
		expect(() => rinsesNeeded(w, conductivity(50))).toThrow(/as a pH/);
	});
});

describe("refusals say why", () => {
	const row = rowOf(usualTruth);
	const first = (n: number): TypedRow =>
		rowOf({ ...usualTruth, volumes: Array(n).fill(200) });

	test("no reading, one, two", () => {
		expect(refusal(washOf(first(2)))).toContain("at least three");
		expect(refusal(washOf(row, "pH"))).toContain("no readings of the pH");
	});

	test("readings that do not fall", () => {
		const flat = Object.fromEntries(
			Object.entries(row).map(([head, v]) => [
				head,
				/rinse \d conductivity/.test(head) ? 500 : v,
			]),
		);
		expect(refusal(washOf(flat))).toContain("nothing can be foretold");
	});

	test("readings that set no upper limit to the liquor say so, and give no infinite one", () => {
		const wild = rowOf({ ...usualTruth, volumes: [0.1, 0.1, 0.1] });
		const [found] = washouts(
			kilnOf([
				{
					...wild,
					"rinse water conductivity (µS/cm)": "",
					"rinse 1 conductivity (µS/cm)": 529.1195465497954,
					"rinse 2 conductivity (µS/cm)": 2.4703e-320,
					"rinse 3 conductivity (µS/cm)": 500,
				},
			]),
		);
		expect(tableText(found.table)).not.toMatch(/Infinity/);
	});

	test("a rinse that conducts nothing, or less than its water after dilution", () => {
		expect(
			refusal(washOf({ ...row, "rinse 3 conductivity (µS/cm)": 0 })),
		).toContain("rinse 3 comes out at no conductivity");
		expect(
			refusal(
				washOf({
					...row,
					"rinse 4 conductivity (µS/cm)": 10,
					"rinse 4 diluted": 50,
				}),
			),
		).toContain("rinse 4 comes out at no conductivity");
	});

	test("whatever was read: a model or a reason, and never NaN", () => {
		const reading = fc.oneof(
			fc.double({ min: 0, max: 1e5, noNaN: true }),
			fc.constantFrom(0, 12, 500),
		);
		fc.assert(
			fc.property(
				fc.array(
					fc.record({
						volume: fc.double({ min: 0.1, max: 5000, noNaN: true }),
						conductivity: reading,
						pH: fc.double({ min: -1, max: 15, noNaN: true }),
					}),
					{ maxLength: 6 },
				),
				fc.option(fc.double({ min: 0, max: 500, noNaN: true }), { nil: "" }),
				fc.double({ min: 1, max: 2000, noNaN: true }),
				fc.double({ min: 0, max: 14, noNaN: true }),
				(rinses, water, target, aim) => {
					const any: TypedRow = {
						firing: "any",
						agent: "KOH",
						"precursor mass (g)": 40,
						"rinse water conductivity (µS/cm)": water,
						...Object.fromEntries(
							rinses.flatMap((r, i): [string, number][] => [
								[`rinse ${i + 1} (mL)`, r.volume],
								[`rinse ${i + 1} conductivity (µS/cm)`, r.conductivity],
								[`rinse ${i + 1} pH`, r.pH],
							]),
						),
					};
					const unread = Object.fromEntries(
						Object.entries(any).filter(
							([head]) => !/^rinse \d+ conductivity/.test(head),
						),
					);
					for (const w of washouts(kilnOf([any, { ...unread, firing: "pH" }]), {
						conductivity: conductivity(target),
						pH: pH(aim),
					})) {
						const text = [
							tableText(w.table),
							...w.sentences,
							"because" in w.washout ? w.washout.because : "",
						].join();
						expect(text).not.toMatch(/NaN|undefined|Infinity/);
					}
				},
			),
			{ numRuns: 80 },
		);
	});

	test("a target below the water's own", () => {
		const n = rinsesNeeded(fitted(washOf(row)), conductivity(10));
		expect(n.is === "not known" && n.because).toContain(
			"the rinse water itself stands at 12 µS/cm",
		);
	});

	test("the table says it in words, without NaN", () => {
		for (const w of washouts(kilnOf([{ ...first(2), firing: "two" }, row]), {
			conductivity: conductivity(50),
		}))
			expect(tableText(w.table)).not.toMatch(/NaN|undefined|Infinity/);
	});
});

describe("pores that give agent up late", () => {
	/** Half of the agent comes into the liquor only by a twentieth a rinse; the readings of that, worked out rinse by rinse. */
	function lagging(error: () => number): TypedRow {
		let [liquor, pores] = [5, 5];
		const readings = Array.from({ length: 6 }, () => {
			const moved = 0.05 * pores;
			pores -= moved;
			liquor = (liquor + moved) * (40 / 240);
			return (12 + (1500 * 1000 * liquor) / 40) * (1 + error());
		});
		return {
			firing: "slow",
			agent: "K2CO3",
			"precursor mass (g)": 40,
			"rinse water conductivity (µS/cm)": 12,
			...Object.fromEntries(
				readings.flatMap((value, i): [string, number][] => [
					[`rinse ${i + 1} (mL)`, 200],
					[`rinse ${i + 1} conductivity (µS/cm)`, value],
				]),
			),
		};
	}
	const told = (row: TypedRow): boolean => fitted(washOf(row)).slowsDown;

	test("are told of, and seldom where there are none", () => {
		let seen = 0;
		let falsely = 0;
		const truth = { ...usualTruth, volumes: Array(6).fill(200) };
		for (let seed = 1; seed <= 200; seed++) {
			const random = createRandom(seed);
			const error = (): number => 0.02 * random.normal();
			if (told(lagging(error))) seen += 1;
			if (
				told(rowOf(truth, (head) => (head.startsWith("rinse") ? error() : 0)))
			)
				falsely += 1;
		}
		expect(seen).toBeGreaterThan(100);
		expect(falsely).toBeLessThan(12);
	});

	test("then the count has no upper limit, and the sentence says why", () => {
		const n = needed(washOf(lagging(() => 0)), conductivity(50));
		expect(n.totalHigh.is).toBe("not known");
		expect(n.sentence).toContain("or more: the washing slows down");
	});

	test("what an agent's rinses do not show is said", () => {
		const zinc = fitted(washOf({ ...rowOf(usualTruth), agent: "ZnCl2" }));
		expect(zinc.cautions.join()).toContain("falls out as a basic salt");
	});
});

describe("over many made-up washings with readings to 3 %", () => {
	// Small rinses of a much-holding char: dozens are needed, so that a whole number of rinses is a fine measure.
	const truth = {
		...usualTruth,
		retained: 300,
		volumes: Array(8).fill(25),
		agentFired: 4,
	};
	const target = 200;
	const count = trueCount(truth, target, 25);
	let inCount = 0;
	let inRetained = 0;
	let inLeft = 0;
	let told = 0;
	const runs = 400;
	for (let seed = 1; seed <= runs; seed++) {
		const random = createRandom(seed);
		const w = washOf(
			rowOf(truth, (head) =>
				head.startsWith("rinse") ? 0.03 * random.normal() : 0,
			),
		);
		if (w.is === "not known") continue;
		const n = rinsesNeeded(w, conductivity(target));
		if (n.is === "not known") continue;
		told += 1;
		if (n.totalLow <= count && count <= endOf(n.totalHigh)) inCount += 1;
		const { low, high } = w.retainedInterval;
		if (low <= truth.retained && truth.retained <= endOf(high)) inRetained += 1;
		const band = washCurve(w, [truth.volumes.length])[0];
		const excess =
			((1000 * truth.agentFired) / 300) *
			truth.conducts *
			(300 / 325) ** truth.volumes.length;
		if (band.low <= excess + 12 && excess + 12 <= band.high) inLeft += 1;
	}

	test("the rinses still needed lie in their 95 % interval in 93 to 98 %", () => {
		expect(count).toBeGreaterThan(20);
		expect(told).toBeGreaterThan(0.97 * runs);
		expect(inCount / told).toBeGreaterThan(0.93);
		expect(inCount / told).toBeLessThan(0.985);
	});

	test("so do the retained volume and the last reading's true value", () => {
		for (const hits of [inRetained, inLeft]) {
			expect(hits / told).toBeGreaterThan(0.92);
			expect(hits / told).toBeLessThan(0.98);
		}
	});
});

test("the rinses still needed by pH lie in their interval too", () => {
	const strong = (c: number): number =>
		14 + Math.log10((c + Math.sqrt(c * c + 4e-14)) / 2);
	const alkali = (n: number): number => 0.05 * (300 / 340) ** n;
	let count = 0;
	while (strong(alkali(count)) > 10.5) count += 1;
	let told = 0;
	let hits = 0;
	for (let seed = 1; seed <= 300; seed++) {
		const random = createRandom(seed + 700);
		const w = washOf(
			{
				firing: "P",
				agent: "KOH",
				"precursor mass (g)": 40,
				"rinse water pH": 7,
				...Object.fromEntries(
					Array.from({ length: 7 }, (_, i) => i + 1).flatMap(
						(n): [string, number][] => [
							[`rinse ${n} (mL)`, 40],
							[`rinse ${n} pH`, strong(alkali(n)) + 0.03 * random.normal()],
						],
					),
				),
			},
			"pH",
		);
		if (w.is === "not known" || w.slowsDown) continue;
		const n = rinsesNeeded(w, pH(10.5));
		if (n.is === "not known") continue;
		told += 1;
		if (n.totalLow <= count && count <= endOf(n.totalHigh)) hits += 1;
	}
	expect(count).toBeGreaterThan(15);
	expect(told).toBeGreaterThan(280);
	expect(hits / told).toBeGreaterThan(0.93);
	expect(hits / told).toBeLessThan(0.995);
});

describe("the washings of a trial", () => {
	const row = rowOf(usualTruth);
	const target = { conductivity: conductivity(50) };

	test("those that were rinsed, with the rinses needed and the agent left", () => {
		const [w, ...others] = washouts(
			kilnOf([row, { firing: "dry", "precursor mass (g)": 40 }]),
			target,
		);
		expect(others).toEqual([]);
		expect(w.needed.is).toBe("foretold");
		expect(w.sentences).toHaveLength(2);
	});

	test("without a target no rinses are counted", () => {
		const [w] = washouts(kilnOf([row]));
		expect(w.needed).toEqual({
			is: "not known",
			because: "no target for the conductivity is set",
		});
		expect(w.sentences).toHaveLength(1);
	});

	test("by pH where no conductivity was read", () => {
		const read = {
			firing: "P",
			"precursor mass (g)": 40,
			"rinse 1 (mL)": 100,
			"rinse 1 pH": 11,
		};
		expect(washouts(kilnOf([read]))[0].washout.reading).toBe("pH");
	});

	test("what was read on a rinse that is left out is out; its volume stays", () => {
		const wrong = { ...row, "rinse 2 conductivity (µS/cm)": 9_000 };
		const [w] = washouts(
			kilnOf([wrong], {
				deviations: [
					{
						firing: "made up",
						part: "rinse 2",
						"what happened": "the meter was not rinsed",
					},
				],
			}),
			target,
		);
		expect(w.washout.points.map((p) => p.rinse)).toEqual([1, 3, 4]);
		expect(fitted(w.washout).retained).toBeCloseTo(usualTruth.retained, 3);
		expect(tableText(w.table)).toContain(
			"Left out: what was read on rinse 2 (the meter was not rinsed).",
		);
	});

	test("a target of another kind is refused, with its name", () => {
		expect(() =>
			washouts(kilnOf([row]), { conductivity: pH(6) as never }),
		).toThrow(/option "conductivity" of washouts/);
	});
});

describe("decisions of ours, on both sides", () => {
	test("a reading up to 1.05 times the reference solution's counts, beyond it is cautioned", () => {
		const row = rowOf(usualTruth);
		const first = row["rinse 1 conductivity (µS/cm)"] as number;
		const cautions = (reference: number): string =>
			fitted(
				washOf({ ...row, "reference conductivity (µS/cm)": reference }),
			).cautions.join();
		expect(cautions(first / 1.04)).not.toContain("above the reference");
		expect(cautions(first / 1.06)).toContain("above the reference");
	});

	test("five readings fit the floor where the water was not read; four do not", () => {
		const floorIs = (n: number): string => {
			const truth = { ...usualTruth, water: 150, volumes: Array(n).fill(200) };
			const { "rinse water conductivity (µS/cm)": _, ...row } = rowOf(truth);
			return fitted(washOf(row)).floorIs;
		};
		expect([floorIs(4), floorIs(5)]).toEqual(["assumed", "fitted"]);
	});

	test("more than 300 further rinses are not counted", () => {
		// A liquor 40 times the rinse falls by 1/41 a rinse: ln(excess/38)/ln(41/40) rinses to 50 µS/cm.
		const truth = { ...usualTruth, retained: 8000, agentFired: 400 };
		const w = fitted(washOf(rowOf(truth)));
		const still = (target: number): number =>
			trueCount(truth, target, 200) - truth.volumes.length;
		let target = 13;
		while (still(target) > 299) target *= 1.01;
		expect(rinsesNeeded(w, conductivity(target)).is).toBe("foretold");
		while (still(target) < 302) target /= 1.001;
		const n = rinsesNeeded(w, conductivity(target));
		expect(n.is === "not known" && n.because).toContain("more than 300");
	});
});
