import { describe, expect, test } from "vitest";
import {
	defineModel,
	type Fit,
	fit as fitCurve,
	profileIntervals,
} from "../../kernel-lib/fit";
import {
	dualSiteLangmuir,
	langmuir,
	sips,
	toth,
} from "../../kernel-lib/isotherms/catalogue/index";
import { createRandom } from "../../kernel-lib/stats";
import { referenceData } from "../reference/check";
import { fitNist, nistSets } from "../reference/nist-nonlinear.checks";
import { apart, closed, hyperbola, line, tenDoses, valueIn } from "./fixtures";

interface HardCase {
	readonly id: string;
	readonly model: string;
	readonly x: number[];
	readonly y: number[];
	/** Not given where there is no minimum, or none that the points tell apart. */
	readonly bestParams?: number[];
	readonly ssr?: number;
}
const { cases } = referenceData<{ cases: HardCase[] }>("hard-cases.json");
const models: Readonly<Record<string, typeof langmuir>> = {
	langmuir,
	dualSiteLangmuir,
	sips,
	toth,
};

/** What each hard case must be flagged with. A parameter named here must be said not to be settled. */
const expected: Readonly<
	Record<
		string,
		{
			readonly converged: boolean;
			readonly unsettled: readonly string[];
			readonly open: readonly string[];
		}
	>
> = {
	"langmuir-in-henry-range": {
		converged: false,
		unsettled: ["q_max", "K_L"],
		open: [],
	},
	"langmuir-barely-curved-a": { converged: true, unsettled: [], open: [] },
	"langmuir-barely-curved-b": {
		converged: true,
		unsettled: ["q_max", "K_L"],
		open: [],
	},
	"langmuir-barely-curved-c": { converged: true, unsettled: [], open: [] },
	"langmuir-open-upper": {
		converged: true,
		unsettled: ["q_max", "K_L"],
		open: ["q_max"],
	},
	"langmuir-on-plateau": { converged: true, unsettled: ["K_L"], open: ["K_L"] },
	"dual-site-on-exact-single-site": {
		converged: false,
		unsettled: ["q_2", "b_2"],
		open: [],
	},
	"sips-on-freundlich-n5": {
		converged: true,
		unsettled: ["q_max", "K_S"],
		open: ["q_max"],
	},
	"toth-on-freundlich-n5": {
		converged: true,
		unsettled: ["q_max", "K_T", "t"],
		open: ["q_max", "K_T"],
	},
};

describe("the hard cases: none is fitted with a straight face", () => {
	test.each(cases.map((c) => [c.id, c] as const))("%s", (id, hard) => {
		const fit = fitCurve(models[hard.model].model, { x: hard.x, y: hard.y });
		const { converged, unsettled, open } = expected[id];
		expect(fit.converged.holds).toBe(converged);
		expect(fit.determined.holds).toBe(unsettled.length === 0);
		for (const name of unsettled) {
			expect(fit.determined.reason).toContain(name);
			expect(fit.cautions.join(" ")).toContain(name);
		}
		expect(fit.cautions.length).toBeGreaterThan(0);
		if (converged) {
			// A minimum that is called one is the one that SciPy found from many starts.
			const { ssr = Number.NaN, bestParams = [] } = hard;
			expect(fit.residualSumOfSquares / ssr).toBeCloseTo(1, 8);
			expect(bestParams).toHaveLength(fit.theta.length);
			expect(apart(fit.theta, bestParams)).toBeLessThan(1e-4);
			const openEnds = profileIntervals(fit).flatMap((p) => {
				const { low, high } = valueIn(p.interval);
				return [low, high].some((e) => e.kind === "open") ? [p.name] : [];
			});
			expect(openEnds).toEqual(expect.arrayContaining([...open]));
			if (id.startsWith("langmuir-barely-curved"))
				expect(fit.cautions.join(" ")).toContain("Strongly correlated");
		} else {
			expect(fit.errorsAvailable.holds).toBe(false);
			expect(
				fit.parameters.every((p) => p.standardError.is === "not known"),
			).toBe(true);
		}
	});

	test("as many parameters as points: no error, no AICc, no interval, and it is said", () => {
		const fit = fitCurve(line, { x: [1, 2], y: [3, 5] });
		expect(fit.errorsAvailable).toEqual({
			holds: false,
			reason: "2 points for 2 free parameters leave none to show the scatter",
		});
		expect(fit.criteria.aicc.is).toBe("not known");
		expect(fit.parameters[0].interval.is).toBe("not known");
		expect(profileIntervals(fit)[0].interval.is).toBe("not known");
		expect(fit.cautions.join(" ")).toContain("No standard errors");
	});
});

describe("a value near zero is no sign of data that settle nothing", () => {
	const x = Array.from({ length: 12 }, (_, i) => i + 1);

	test("an intercept: over 200 lines through the origin there is no alarm", () => {
		let alarms = 0;
		let wouldHaveBeen = 0;
		for (let seed = 0; seed < 200; seed++) {
			const random = createRandom(seed);
			const fit = fitCurve(line, {
				x,
				y: x.map((v) => 5 * v + random.normal()),
			});
			if (!fit.determined.holds) alarms++;
			const { standardError, value } = fit.parameters[0];
			if (valueIn(standardError) > 0.25 * Math.abs(value)) wouldHaveBeen++;
		}
		expect(alarms).toBe(0);
		expect(wouldHaveBeen).toBeGreaterThan(180);
	});

	test("an exponent of 0, which rounding moves by 1e-17, still has its error", () => {
		const fit = fitCurve(
			defineModel({
				name: "exponent",
				parameters: ["c"],
				curve: (v, c) => v * Math.exp(c),
			}),
			{ x: [1, 1], y: [1, 1], sigmaY: 0.1, sigmaIsAbsolute: true },
			{ start: { c: 0.1 } },
		);
		expect(fit.theta[0]).toBeCloseTo(0, 9);
		// The derivative by c is 1, so the error is that of a mean of two readings.
		expect(valueIn(fit.parameters[0].standardError)).toBeCloseTo(
			0.1 / Math.SQRT2,
			9,
		);
		expect(fit.determined.holds).toBe(true);
	});

	test("but one that is looked for far from every point is not settled", () => {
		const random = createRandom(1);
		const fit = fitCurve(line, {
			x: x.map((v) => 1000 + v / 100),
			y: x.map((v) => 50 + 0.01 * v + random.normal()),
		});
		expect(fit.determined).toEqual({
			holds: false,
			reason: expect.stringMatching(
				/^the standard error of a .*; the standard error of b /,
			),
		});
	});

	test("a shift that may have either sign, where its interval closes evenly", () => {
		const peak = defineModel({
			name: "peak",
			parameters: ["height", "centre", { name: "width", lower: 0 }],
			curve: (x, h, c, w) => h * Math.exp(-(((x - c) / w) ** 2)),
		});
		const at = Array.from({ length: 21 }, (_, i) => (i - 10) / 2);
		const random = createRandom(6);
		const y = at.map(
			(v) => 10 * Math.exp(-((v / 2) ** 2)) + 0.3 * random.normal(),
		);
		const fit = fitCurve(
			peak,
			{ x: at, y },
			{ start: { centre: 0.5, width: 1 } },
		);
		const centre = fit.parameters[1];
		expect(valueIn(centre.standardError)).toBeGreaterThan(
			0.25 * Math.abs(centre.value),
		);
		expect(fit.determined.holds).toBe(true);
	});

	test("a rate near 0, though its interval is a little longer on one side", () => {
		const fading = defineModel({
			name: "fading",
			parameters: ["a", "k"],
			curve: (t, a, k) => a * Math.exp(-k * t),
		});
		const random = createRandom(3);
		const y = x.map(() => 10 + 0.8 * random.normal());
		const fit = fitCurve(fading, { x, y }, { start: { k: 0.1 } });
		const rate = fit.parameters[1];
		expect(valueIn(rate.standardError)).toBeGreaterThan(
			0.25 * Math.abs(rate.value),
		);
		const { low, high } = valueIn(profileIntervals(fit)[1].interval);
		const arms = [rate.value - closed(low), closed(high) - rate.value];
		expect(Math.max(...arms) / Math.min(...arms)).toBeGreaterThan(1.002);
		expect(fit.determined.holds).toBe(true);
	});

	test("small amplitudes among the cycles of a long series (ENSO) do not alarm; an ill-determined curve (MGH09) does", () => {
		const of = (name: string): Fit => {
			const set = nistSets.find((s) => s.name === name);
			if (set === undefined) throw new Error(name);
			return fitNist(set, set.start2);
		};
		expect(of("ENSO").determined.holds).toBe(true);
		const mgh09 = of("MGH09").determined;
		expect(mgh09.holds).toBe(false);
		for (const name of ["b2", "b3", "b4"]) expect(mgh09.reason).toContain(name);
		expect(of("Misra1a").determined.holds).toBe(true);
	});
});

describe("data that settle nothing raise the alarm, data that settle it do not", () => {
	/** Share of 300 trials in which the flag says "not settled". */
	function alarms(doses: readonly number[], k: number, sd: number): number {
		let count = 0;
		for (let seed = 0; seed < 300; seed++) {
			const random = createRandom(seed);
			const y = doses.map(
				(c) => (200 * k * c) / (1 + k * c) + sd * random.normal(),
			);
			const fit = fitCurve(hyperbola, { x: doses, y }, { start: { k } });
			if (!fit.determined.holds) count++;
		}
		return count / 300;
	}

	test("a plateau in sight, 2 % of scatter: hardly ever an alarm", () => {
		expect(alarms(tenDoses, 0.05, 4)).toBeLessThan(0.01);
	});

	test("the highest point at a tenth of the plateau: an alarm almost always", () => {
		expect(
			alarms(
				tenDoses.map((c) => c / 10),
				0.005,
				1,
			),
		).toBeGreaterThan(0.95);
	});

	test("every point on the plateau: an alarm almost always", () => {
		expect(
			alarms(
				tenDoses.map((c) => 50 + c),
				1,
				4,
			),
		).toBeGreaterThan(0.95);
	});
});

describe("two answers to one question", () => {
	test("values that fit equally well are told, and the fit is not called converged", () => {
		const folded = defineModel({
			name: "folded",
			parameters: ["a", "b"],
			curve: (x, a, b) => (a * a - 6 * a) * x + Math.exp(-b * x),
		});
		const x = Array.from({ length: 12 }, (_, i) => i / 4);
		const random = createRandom(8);
		const y = x.map((v) => -8 * v + Math.exp(-2 * v) + 0.02 * random.normal());
		// a = 2 and a = 4 give the same curve.
		const fit = fitCurve(folded, { x, y }, { start: { a: 1, b: 1 } });
		expect(fit.converged).toEqual({
			holds: false,
			reason: expect.stringMatching(/^other values fit equally well: a = /),
		});
		expect(fit.cautions[0]).toContain("other values fit equally well");
	});
});
