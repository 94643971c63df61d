import { describe, expect, test } from "vitest";
import type { Interval } from "../../kernel-lib/fit/index";
import {
	fitIsotherm,
	fitIsothermTogether,
	freundlich,
	henry,
	type Isotherm,
	type IsothermFit,
	type IsothermPoints,
	langmuir,
	plainPoints,
	rankIsotherms,
	type SharedEffect,
	sips,
} from "../../kernel-lib/isotherms/index";
import type { MaybeKnown } from "../../kernel-lib/quantity";
import { normalCdf, studentTQuantile } from "../../kernel-lib/stats/index";
import { goodLines, pointsOn } from "./plain-lines";

const known = <T>(value: MaybeKnown<T>): T => {
	if (value.is === "not known") throw new Error(value.because);
	return value.value;
};

const ends = (interval: MaybeKnown<Interval>): [number, number] => {
	const { low, high } = known(interval);
	if (low.kind === "open" || high.kind === "open")
		throw new Error("an open end");
	return [low.value, high.value];
};

/** Errors without a pattern, mg/L. */
const errors = [3, -4, 1, 5, -2, -5, 4, 2, -3];

describe("options", () => {
	test("are checked by name and by kind, all at once", () => {
		const points = pointsOn(langmuir, [350, 0.01], goodLines);
		const wrong = { confidnce: 0.9, method: "by eye" } as object;
		expect(() => fitIsotherm(langmuir, points, wrong)).toThrow(
			/2 problems.*"confidnce".*Did you mean "confidence".*one of "balance lines"/s,
		);
		expect(() => rankIsotherms(points, { start: { n: 1 } } as object)).toThrow(
			/the option "start", which rankIsotherms does not have/,
		);
		expect(() =>
			fitIsothermTogether(langmuir, [points], { shared: "K_L" } as never),
		).toThrow(/"shared" of fitIsothermTogether; expected a list/);
	});

	test("a confidence lies above 0.5 and below 1", () => {
		const points = pointsOn(langmuir, [350, 0.01], goodLines);
		for (const confidence of [0.5, 1])
			expect(() => fitIsotherm(langmuir, points, { confidence })).toThrow(
				/a number above 0.5 and below 1/,
			);
		for (const confidence of [0.501, 0.999])
			expect(fitIsotherm(langmuir, points, { confidence }).confidence).toBe(
				confidence,
			);
	});
});

describe("fits on balance lines", () => {
	test.each([
		["Langmuir", langmuir, [350, 0.01]],
		["Freundlich", freundlich, [80, 0.2]],
		["Sips", sips, [350, 0.008, 0.7]],
	] as const)(
		"%s: points without errors give the isotherm back",
		(_, isotherm, theta) => {
			const fit = fitIsotherm(isotherm, pointsOn(isotherm, theta, goodLines));
			expect(fit.method).toBe("balance lines");
			theta.forEach((t, j) => {
				expect(fit.theta[j] / t).toBeCloseTo(1, 7);
			});
		},
	);

	test("flasks that ran dry as the isotherm says move nothing", () => {
		const theta = [350, 0.02];
		const lines = [
			{ intercept: 20, slope: 0.1 },
			{ intercept: 25, slope: 0.1 },
			...goodLines,
		];
		const points = pointsOn(langmuir, theta, lines, {
			errors: [0, 0, ...errors],
			limit: 20,
		});
		expect(points.points.map((p) => p.is).slice(0, 3)).toEqual([
			"below detection",
			"below detection",
			"reading",
		]);
		const fit = fitIsotherm(langmuir, points);
		const without = fitIsotherm(langmuir, {
			...points,
			points: points.points.slice(2),
		});
		expect(fit.theta[0] / without.theta[0]).toBeCloseTo(1, 3);
		expect(Math.abs(fit.theta[1] / without.theta[1] - 1)).toBeLessThan(0.02);
		expect(fit.opinion).toContain(
			"Ran dry and counted as bounds: flasks 1 and 2.",
		);
	});

	test("the bound's probability is in the likelihood: one parameter, against a fine grid", () => {
		// q = K C on the line a - b C: C = a / (K + b). Two readings say K = 0.9, a dry flask says more.
		const lines = [
			{ intercept: 100, slope: 0.1 },
			{ intercept: 200, slope: 0.1 },
			{ intercept: 50, slope: 0.1 },
		];
		const points = pointsOn(henry, [0.9], lines, { deviation: 4 });
		const limit = 47;
		const dry: IsothermPoints = {
			...points,
			points: points.points.map((p, i) =>
				i === 2
					? {
							...p,
							is: "below detection",
							concentration: limit,
							uptake: 50 - 0.1 * limit,
						}
					: p,
			),
		};
		const fit = fitIsotherm(henry, dry, { sigmaIsAbsolute: true });
		// The deviation of a residue that comes from the titre alone is that of the titre, whatever the slope.
		const minusLogLikelihood = (k: number): number =>
			lines.reduce((sum, l, i) => {
				const expected = l.intercept / (k + l.slope);
				return i === 2
					? sum - 2 * Math.log(normalCdf((limit - expected) / 4))
					: sum + ((points.points[i].concentration - expected) / 4) ** 2;
			}, 0);
		let best = 0.5;
		for (let k = 0.5; k < 1.5; k += 1e-5)
			if (minusLogLikelihood(k) < minusLogLikelihood(best)) best = k;
		expect(best).toBeGreaterThan(0.9005);
		expect(Math.abs(fit.theta[0] - best)).toBeLessThan(3e-5);
		expect(fit.aicc.is).toBe("not known");
	});

	test("AICc counts bounds by their probability", () => {
		const lines = [{ intercept: 30, slope: 0.1 }, ...goodLines];
		const fit = fitIsotherm(
			langmuir,
			pointsOn(langmuir, [350, 0.02], lines, {
				errors: [0, ...errors],
				limit: 5,
			}),
		);
		expect(fit.used[0].is).toBe("below detection");
		let squares = 0;
		let bounds = 0;
		fit.used.forEach((p, i) => {
			const miss = p.concentration - fit.expected[i];
			if (p.is === "reading") squares += (miss / fit.weights[i]) ** 2;
			else
				bounds -= 2 * Math.log(normalCdf(miss / (fit.weights[i] * fit.scale)));
		});
		const [n, k] = [9, 3];
		expect(bounds).toBeGreaterThan(0);
		expect(known(fit.aicc)).toBeCloseTo(
			n * Math.log(squares / n) +
				bounds +
				2 * k +
				(2 * k * (k + 1)) / (n - k - 1),
			6,
		);
	});

	test("weights follow the flask's own errors: a sloppy flask counts for little", () => {
		const points = pointsOn(langmuir, [350, 0.01], goodLines, {
			errors: [0, 0, 0, 400, 0, 0, 0, 0, 0],
		});
		const sloppy: IsothermPoints = {
			...points,
			points: points.points.map((p, i) =>
				i === 3
					? {
							...p,
							own: {
								concentration: 1e6 * p.own.concentration,
								uptake: 1e6 * p.own.uptake,
								covariance: 1e6 * p.own.covariance,
							},
						}
					: p,
			),
		};
		expect(fitIsotherm(langmuir, sloppy).theta[1] / 0.01).toBeCloseTo(1, 4);
		expect(
			Math.abs(fitIsotherm(langmuir, points).theta[1] / 0.01 - 1),
		).toBeGreaterThan(0.02);
	});

	test("what cannot be fitted is said, all at once", () => {
		const none: IsothermPoints = {
			...pointsOn(langmuir, [350, 0.01], goodLines, { limit: 1e6 }),
		};
		expect(() => fitIsotherm(langmuir, none)).toThrow(
			/no flask with a residue that could be read/,
		);
		expect(() =>
			fitIsotherm(langmuir, plainPoints("p", [1, 2, 3], [1, 2, 3]), {
				method: "balance lines",
			}),
		).toThrow(/3 points without a mass balance/);
	});
});

/** One standard uncertainty moves every residue by a share of itself, as a titrant does. */
const titrant = (points: IsothermPoints, share: number): SharedEffect => ({
	key: "titrant",
	what: "concentration of thiosulfate",
	degreesOfFreedom: Number.POSITIVE_INFINITY,
	concentration: Float64Array.from(
		points.points,
		(p) => share * p.concentration,
	),
	uptake: Float64Array.from(points.points, (p) =>
		p.balance.is === "known" ? -share * p.balance.slope * p.concentration : 0,
	),
});

const withTitrant = (
	isotherm: Isotherm,
	theta: readonly number[],
	share: number,
): IsothermPoints => {
	const points = pointsOn(isotherm, theta, goodLines, { errors });
	return { ...points, shared: [titrant(points, share)] };
};

describe("errors that all flasks share", () => {
	test("their effect on the parameters is that of moving the points", () => {
		const share = 1e-4;
		const points = withTitrant(langmuir, [350, 0.01], share);
		const fit = fitIsotherm(langmuir, points);
		const moved = fitIsotherm(langmuir, {
			...points,
			points: points.points.map((p, i) => ({
				...p,
				concentration: p.concentration + points.shared[0].concentration[i],
				uptake: p.uptake + points.shared[0].uptake[i],
			})),
		});
		fit.theta.forEach((t, j) => {
			expect(fit.sharedShifts[0].effect[j] / (moved.theta[j] - t)).toBeCloseTo(
				1,
				2,
			);
			expect(known(fit.parameters[j].shared)).toBeCloseTo(
				Math.abs(fit.sharedShifts[0].effect[j]),
				12,
			);
		});
	});

	test("they are beside the scatter, not in it", () => {
		const share = 0.01;
		const clean = pointsOn(langmuir, [350, 0.01], goodLines, { errors });
		const effect = titrant(clean, share);
		const moved: IsothermPoints = {
			...clean,
			points: clean.points.map((p, i) => ({
				...p,
				concentration: p.concentration + 1.5 * effect.concentration[i],
				uptake: p.uptake + 1.5 * effect.uptake[i],
			})),
		};
		const expected = fitIsotherm(langmuir, clean).scale;
		const unaware = fitIsotherm(langmuir, moved);
		const aware = fitIsotherm(langmuir, { ...moved, shared: [effect] });
		expect(unaware.scale).toBeGreaterThan(2 * expected);
		expect(aware.scale / expected).toBeGreaterThan(0.8);
		expect(aware.scale / expected).toBeLessThan(1.25);
		expect(aware.degreesOfFreedom).toBeLessThan(unaware.degreesOfFreedom);
		const p = aware.parameters[1];
		expect(known(p.standardError)).toBeCloseTo(
			Math.hypot(known(p.scatter), known(p.shared)),
			12,
		);
	});

	test("an interval over a straight curve is the quantile times both together", () => {
		// the ordinary fit of a line through the origin: q moved by a share of itself
		const c = [10, 20, 40, 80, 160];
		const q = [9.1, 17.8, 36.4, 71.5, 144.6];
		const points: IsothermPoints = {
			...plainPoints("p", c, q),
			shared: [
				{
					key: "balance",
					what: "balance",
					degreesOfFreedom: Number.POSITIVE_INFINITY,
					concentration: new Float64Array(5),
					uptake: Float64Array.from(q, (v) => 0.01 * v),
				},
			],
		};
		const [p] = fitIsotherm(henry, points).parameters;
		const sxx = c.reduce((s, v) => s + v * v, 0);
		const k = c.reduce((s, v, i) => s + v * q[i], 0) / sxx;
		const rss = c.reduce((s, v, i) => s + (q[i] - k * v) ** 2, 0);
		const scatter = Math.sqrt(rss / 4 / sxx);
		const total = Math.hypot(scatter, 0.01 * k);
		// Welch-Satterthwaite with four degrees of freedom in the scatter and infinitely many in the balance
		const half =
			studentTQuantile(0.975, (4 * total ** 4) / scatter ** 4) * total;
		expect(p.value).toBeCloseTo(k, 10);
		expect(known(p.shared)).toBeCloseTo(0.01 * k, 10);
		for (const [low, high] of [ends(p.interval), ends(p.profile)]) {
			expect(low).toBeCloseTo(k - half, 6);
			expect(high).toBeCloseTo(k + half, 6);
		}
	});

	test("on a bent curve the ends lie where moving the points by the shared error puts them", () => {
		const clean = pointsOn(langmuir, [350, 0.01], goodLines, {
			errors: errors.map((e) => e / 1000),
			deviation: 0.004,
		});
		const effect = titrant(clean, 0.01);
		const movedBy = (amount: number): number =>
			fitIsotherm(langmuir, {
				...clean,
				points: clean.points.map((p, i) => {
					const concentration = amount * effect.concentration[i];
					const uptake = amount * effect.uptake[i];
					return {
						...p,
						concentration: p.concentration + concentration,
						uptake: p.uptake + uptake,
					};
				}),
			}).theta[1];
		const fit = fitIsotherm(langmuir, { ...clean, shared: [effect] });
		const k = fit.parameters[1];
		const [low, high] = ends(k.profile);
		const [one, other] = [movedBy(-1.96), movedBy(1.96)].sort((a, b) => a - b);
		expect(low / one).toBeCloseTo(1, 2);
		expect(high / other).toBeCloseTo(1, 2);
		// what a symmetric interval would not have
		expect(Math.abs((high - k.value) / (k.value - low) - 1)).toBeGreaterThan(
			0.05,
		);
	});
});

describe("treatments fitted together", () => {
	const treatments = [
		pointsOn(langmuir, [350, 0.01], goodLines, { name: "control", errors }),
		pointsOn(langmuir, [420, 0.01], goodLines, {
			name: "steam",
			errors: [...errors].reverse(),
		}),
	];
	const alone = treatments.map((t) => fitIsotherm(langmuir, t));
	const together = fitIsothermTogether(langmuir, treatments, {
		shared: ["K_L"],
	});
	const errorOf = (fit: IsothermFit, j: number): number =>
		known(fit.parameters[j].standardError);

	test("what they share is one value, better known than from either alone", () => {
		expect(together[0].theta[1]).toBe(together[1].theta[1]);
		for (const one of alone)
			expect(errorOf(together[0], 1)).toBeLessThan(errorOf(one, 1));
		expect(together[0].theta[0] / 350).toBeCloseTo(1, 2);
		expect(together[1].theta[0] / 420).toBeCloseTo(1, 2);
	});

	test("each keeps its own points, name and range", () => {
		expect(together.map((f) => f.points.name)).toEqual(["control", "steam"]);
		together.forEach((f, k) => {
			expect(f.used).toEqual(treatments[k].points);
			f.expected.forEach((e, i) => {
				expect(
					Math.abs(treatments[k].points[i].concentration - e),
				).toBeLessThan(10);
			});
		});
	});

	test("nothing in common is each alone, but for a scatter in common", () => {
		const separate = fitIsothermTogether(langmuir, treatments, { shared: [] });
		separate.forEach((f, k) => {
			expect(f.theta[0] / alone[k].theta[0]).toBeCloseTo(1, 6);
			expect(f.theta[1] / alone[k].theta[1]).toBeCloseTo(1, 6);
		});
		expect(separate[0].degreesOfFreedom).toBe(14);
	});

	test("a parameter that the isotherm does not have is named", () => {
		expect(() =>
			fitIsothermTogether(langmuir, treatments, { shared: ["K_F"] }),
		).toThrow(/K_F.*q_max, K_L/s);
	});
});
