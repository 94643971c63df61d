import { describe, expect, test } from "vitest";
import {
	defineModel,
	type Fit,
	fit as fitCurve,
	profileIntervals,
} from "../../kernel-lib/fit";
import { createRandom } from "../../kernel-lib/stats";
import { referenceData } from "../reference/check";
import {
	closed,
	hyperbola,
	level,
	line,
	standardErrors,
	tenDoses,
	valueIn,
} from "./fixtures";

const x = [1, 2, 3, 4, 5, 6, 7, 8];
const y = [2.2, 4.1, 5.7, 8.4, 9.9, 12.3, 13.8, 16.1];
const straight = fitCurve(line, { x, y });

interface HardCase {
	readonly id: string;
	readonly x: number[];
	readonly y: number[];
	readonly profileCI95_tBased_qm?: [number, number | null];
}
const { cases } = referenceData<{ cases: HardCase[] }>("hard-cases.json");
const caseOf = (id: string): HardCase => {
	const found = cases.find((c) => c.id === id);
	if (found === undefined) throw new Error(id);
	return found;
};
const fitted = ({ x, y }: { x: number[]; y: number[] }): Fit =>
	fitCurve(hyperbola, { x, y }, { start: { k: 0.002 } });

describe("profile intervals", () => {
	test("of a curve straight in its parameters are the t intervals", () => {
		profileIntervals(straight).forEach((p, j) => {
			const { low, high } = valueIn(p.interval);
			const half = 2.4469118511449692 * standardErrors(straight)[j]; // t(0.975; 6)
			expect(closed(low)).toBeCloseTo(straight.theta[j] - half, 7);
			expect(closed(high)).toBeCloseTo(straight.theta[j] + half, 7);
		});
	});

	test("end where the least sum of squares over the others has risen by F/(n - p), found here by a plain scan", () => {
		const random = createRandom(2);
		const y = tenDoses.map(
			(c) => (200 * 0.05 * c) / (1 + 0.05 * c) + 8 * random.normal(),
		);
		const found = fitted({ x: [...tenDoses], y });
		const ends = valueIn(profileIntervals(found)[1].interval);
		for (const end of [ends.low, ends.high]) {
			const k = closed(end);
			const g = tenDoses.map((c) => (k * c) / (1 + k * c));
			const q =
				g.reduce((s, v, i) => s + v * y[i], 0) /
				g.reduce((s, v) => s + v * v, 0);
			const rss = g.reduce((s, v, i) => s + (y[i] - q * v) ** 2, 0);
			// F(0.95; 1, 8) = 5.317655
			expect(rss / found.residualSumOfSquares).toBeCloseTo(
				1 + 5.317655071578714 / 8,
				7,
			);
		}
		const [low, high] = [closed(ends.low), closed(ends.high)];
		expect(high - found.theta[1]).toBeGreaterThan(
			1.05 * (found.theta[1] - low),
		);
	});

	test("with absolute sigmas the rise allowed is chi-square, whatever the scatter", () => {
		const found = fitCurve(level, {
			x,
			y,
			sigmaY: 0.3,
			sigmaIsAbsolute: true,
		});
		const { low, high } = valueIn(profileIntervals(found)[0].interval);
		const half = (1.959963984540054 * 0.3) / Math.sqrt(8);
		expect(closed(high) - closed(low)).toBeCloseTo(2 * half, 7);
	});

	test("by the likelihood ratio they are those of n ln(RSS ratio)", () => {
		const [a] = profileIntervals(fitCurve(level, { x, y }), {
			rule: "likelihood ratio",
		});
		const mean = y.reduce((s, v) => s + v, 0) / 8;
		const rss = y.reduce((s, v) => s + (v - mean) ** 2, 0);
		// rss + 8 h^2 = rss exp(3.841459 / 8)
		const half = Math.sqrt((rss * (Math.exp(3.841458820694124 / 8) - 1)) / 8);
		expect(closed(valueIn(a.interval).high) - mean).toBeCloseTo(half, 7);
	});

	test("follow the level of confidence asked for", () => {
		const wide = fitCurve(line, { x, y }, { confidence: 0.99 });
		const { low, high, confidence } = valueIn(
			profileIntervals(wide, { parameters: ["b"] })[0].interval,
		);
		expect(confidence).toBe(0.99);
		expect(closed(high) - closed(low)).toBeCloseTo(
			2 * 3.707428021324907 * standardErrors(straight)[1], // t(0.995; 6)
			7,
		);
	});

	test.each([
		"langmuir-barely-curved-a",
		"langmuir-barely-curved-b",
		"langmuir-barely-curved-c",
	])("are as lopsided as SciPy finds them: %s", (id) => {
		const hard = caseOf(id);
		const [low, high] = hard.profileCI95_tBased_qm as [number, number];
		const ends = valueIn(profileIntervals(fitted(hard))[0].interval);
		expect(closed(ends.low) / low).toBeCloseTo(1, 5);
		expect(closed(ends.high) / high).toBeCloseTo(1, 5);
	});

	test("where the data set no end the interval is open and says how far was looked", () => {
		const hard = caseOf("langmuir-open-upper");
		const { low, high } = valueIn(profileIntervals(fitted(hard))[0].interval);
		expect(closed(low) / (hard.profileCI95_tBased_qm?.[0] ?? 0)).toBeCloseTo(
			1,
			5,
		);
		expect(high).toEqual({
			kind: "open",
			reason: expect.stringMatching(
				/^the sum of squares stays below the allowed rise from 90 to beyond \d.*no end on this side$/,
			),
		});
		const plateau = fitted(caseOf("langmuir-on-plateau"));
		const k = valueIn(profileIntervals(plateau)[1].interval);
		expect(closed(k.low)).toBeCloseTo(0.1487209708055199, 5);
		expect(k.high.kind).toBe("open");
	});

	test("an interval that runs into a parameter's own limit says that", () => {
		const capped = fitCurve(
			line,
			{ x, y },
			{ upper: { a: straight.theta[0] + 0.01 } },
		);
		const { low, high } = valueIn(profileIntervals(capped)[0].interval);
		expect(high).toEqual({
			kind: "at its limit",
			value: straight.theta[0] + 0.01,
		});
		closed(low);
	});

	test("an end far out, where the rise creeps towards its allowed value, is found and not called open", () => {
		const { x, y } = caseOf("langmuir-barely-curved-b");
		const found = fitCurve(
			hyperbola,
			{ x, y },
			{ start: { k: 0.002 }, confidence: 0.983 },
		);
		const { high } = valueIn(profileIntervals(found)[0].interval);
		const q = closed(high);
		expect(q).toBeGreaterThan(5000);
		// The least sum of squares with q held there, by bisection of its slope in k; F(0.983; 1, 6) by SciPy.
		const rssAt = (k: number): number =>
			x.reduce((s, c, i) => s + (y[i] - (q * k * c) / (1 + k * c)) ** 2, 0);
		let [a, b] = [0.4 / q, 0.6 / q];
		for (let round = 0; round < 100; round++) {
			const [c, d] = [a + (b - a) / 3, b - (b - a) / 3];
			if (rssAt(c) < rssAt(d)) b = d;
			else a = c;
		}
		const rise = rssAt((a + b) / 2) / found.residualSumOfSquares - 1;
		expect(rise * 6).toBeCloseTo(10.703419259569484, 4);
	});

	test("down to a limit at which the curve would vanish: the affinity may be as small as one likes", () => {
		const found = fitted(caseOf("langmuir-open-upper"));
		const { low, high } = valueIn(profileIntervals(found)[1].interval);
		expect(low).toEqual({ kind: "at its limit", value: 0 });
		expect(closed(high)).toBeGreaterThan(found.theta[1]);
	});

	test("where the curve can be computed no farther, the data set no end either", () => {
		const found = fitCurve(
			defineModel({
				name: "edge",
				parameters: ["a"],
				curve: (x, a) => (a < 2.15 ? a * x : Number.NaN),
			}),
			{ x, y: x.map((v, i) => 2 * v + (i % 2)) },
			{ start: { a: 1 } },
		);
		const { low, high } = valueIn(profileIntervals(found)[0].interval);
		closed(low);
		expect(high).toEqual({
			kind: "open",
			reason: expect.stringContaining("to beyond 2."),
		});
	});

	test("an end thirteen decades below the best value is found between the two", () => {
		const { x, y } = caseOf("toth-on-freundlich-n5");
		const found = fitCurve(
			defineModel({
				name: "Toth",
				parameters: ["q", "k", "t"].map((name) => ({ name, lower: 0 })),
				curve: (c, q, k, t) => (q * k * c) / (1 + (k * c) ** t) ** (1 / t),
			}),
			{ x, y },
			{ start: { k: 2.47e9, t: 0.0187 }, search: "never" },
		);
		expect(found.theta[0]).toBeGreaterThan(1e12);
		const { low, high } = valueIn(
			profileIntervals(found, { parameters: ["q"] })[0].interval,
		);
		expect(high.kind).toBe("open");
		// There the least sum of squares over k and t, by a plain search, has risen by F(0.95; 1, 2) / 2.
		const q = closed(low);
		const rssAt = (logK: number, t: number): number => {
			const k = Math.exp(logK);
			return x.reduce(
				(s, c, i) =>
					s + (y[i] - (q * k * c) / (1 + (k * c) ** t) ** (1 / t)) ** 2,
				0,
			);
		};
		let at = [Math.log(10), 0.1];
		let least = rssAt(at[0], at[1]);
		for (let size = 0.5; size > 1e-9; ) {
			const next = [-1, 0, 1]
				.flatMap((a) => [-1, 0, 1].map((b) => [a, b]))
				.map(([a, b]) => [at[0] + a * size, at[1] + 0.05 * b * size])
				.map((p) => ({ p, rss: rssAt(p[0], p[1]) }))
				.reduce((m, e) => (e.rss < m.rss ? e : m));
			if (next.rss < least) {
				least = next.rss;
				at = next.p;
			} else size /= 2;
		}
		expect(least / found.residualSumOfSquares).toBeCloseTo(
			1 + 18.512820512820515 / 2,
			2,
		);
	});

	test("over 1000 simulated trials the 95 % interval holds the truth 95 % of the time, where the t interval of a bent parameter may not", () => {
		const trials = 1000;
		let held = 0;
		const x = [20, 40, 60, 80, 100, 120];
		for (let seed = 0; seed < trials; seed++) {
			const random = createRandom(seed);
			const y = x.map(
				(c) => (200 * 0.01 * c) / (1 + 0.01 * c) + 2 * random.normal(),
			);
			const interval = valueIn(
				profileIntervals(fitted({ x, y }), { parameters: ["q"] })[0].interval,
			);
			const { low, high } = interval;
			if (
				(low.kind !== "closed" || low.value <= 200) &&
				(high.kind !== "closed" || high.value >= 200)
			)
				held++;
		}
		// Four binomial standard deviations either way.
		expect(held / trials).toBeGreaterThan(0.922);
		expect(held / trials).toBeLessThan(0.978);
	});

	test("is refused with a reason where it has no meaning", () => {
		const reasonOf = (fit: Fit): string => {
			const { interval } = profileIntervals(fit)[0];
			return interval.is === "not known" ? interval.because : "";
		};
		expect(reasonOf(fitCurve(line, { x: [1, 2], y: [3, 5] }))).toContain(
			"as many free parameters as points",
		);
		expect(reasonOf(fitCurve(line, { x, y }, { loss: "Cauchy" }))).toContain(
			"Cauchy",
		);
		const exact = fitCurve(level, { x: [1, 2, 3], y: [4, 4, 4] });
		expect(
			profileIntervals(exact, { rule: "likelihood ratio" })[0].interval,
		).toMatchObject({ is: "not known" });
		// A fit that settled in the higher of two wells is found out where its profile comes through the lower one: with b held lower, a slides over.
		const wells = defineModel({
			name: "two wells",
			parameters: ["a", "b"],
			curve: (x, a, b) =>
				x === 1 ? a * a - 1 : x === 2 ? 0.6 * (a + 1) - b : x === 3 ? b : 0,
		});
		const points = { x: [1, 2, 3, 4], y: [0, 0, 0, 0.66] };
		const upper = fitCurve(wells, points, {
			start: { a: 1 },
			search: "never",
			confidence: 0.8,
		});
		expect(upper.converged.holds).toBe(true);
		expect(upper.theta[0]).toBeGreaterThan(0.5);
		expect(
			profileIntervals(upper, { parameters: ["b"] })[0].interval,
		).toMatchObject({
			is: "not known",
			because: expect.stringContaining("lower sum of squares than the fit"),
		});
		// With the search that every fit gets, it does not come to that.
		const lowest = fitCurve(wells, points, { start: { a: 1 } });
		expect(lowest.theta[0]).toBeCloseTo(-1, 6);
	});
});
