/** The uptake of one curve at the residue of a comparison: which scatter counts, and when there is none. */
import { describe, expect, test } from "vitest";
import {
	type CurveEstimate,
	carriesCurve,
	curveEstimate,
	fitter,
} from "../../kernel-lib/compare/curve-estimate";
import type { CurveGroup } from "../../kernel-lib/compare/soak-groups";
import { unevenScatterVariance } from "../../kernel-lib/compare/uneven-scatter";
import {
	fitIsotherm,
	freundlich,
	type IsothermFit,
	langmuir,
	pointsOfUptakes,
	uptakeAtResidue,
} from "../../kernel-lib/isotherms";
import { studentTQuantile } from "../../kernel-lib/stats";
import { type FlaskFixture, flasks } from "./fixtures";

const residues = [100, 250, 600, 1200, 2500, 4000];
const fixtures = (
	off: readonly number[],
	more: Partial<FlaskFixture> = {},
): FlaskFixture[] =>
	residues.map((c, i) => ({
		flask: `w${i}`,
		treatment: "water",
		residue: c + off[i % off.length],
		uptake: 60 * c ** 0.25 - 0.1 * off[i % off.length],
		reading: 0.3,
		residueReading: 3,
		...more,
	}));
const uptakes = flasks(fixtures([4, -9, 2, 7, -12, 5]));
const group = { name: "water", flasks: uptakes } as unknown as CurveGroup;
const fit = fitIsotherm(freundlich, pointsOfUptakes(uptakes)[0]);

const estimateOf = (f: IsothermFit, at = 1500): CurveEstimate => {
	const found = curveEstimate(f, at);
	if (found.is === "none") throw new Error("no estimate");
	return found.estimate;
};
/** Its standard error from the scatter, squared. */
const about = (f: IsothermFit, at = 1500): number => {
	const [{ scatter }] = uptakeAtResidue(f, at);
	if (scatter.is === "not known") throw new Error(scatter.because);
	return scatter.value ** 2;
};
/** Residuals so small that no single flask counts. */
const even = {
	...fit,
	used: fit.used.map((p, i) =>
		p.is === "reading" ? { ...p, concentration: fit.expected[i] } : p,
	),
} as IsothermFit;

describe("scatter", () => {
	test("about the curve, where points lie as far from it as their readings allow or farther", () => {
		for (const scale of [1, 2.5]) {
			const found = estimateOf({ ...even, scale });
			expect(found.scatterFrom).toBe("curve");
			expect(found.scatterVariance).toBeCloseTo(about(even), 12);
		}
	});

	test("their readings, where they lie closer", () => {
		const found = estimateOf({ ...even, scale: 0.5 });
		expect(found.scatterFrom).toBe("readings");
		expect(found.scatterVariance).toBeCloseTo(about(even) / 0.25, 10);
		// A scale of nothing is taken as a millionth.
		expect(
			estimateOf({ ...even, scale: 0 }).scatterVariance / about(even),
		).toBeCloseTo(1e12, -6);
	});

	test("not their readings where these were given, or are not known", () => {
		for (const other of [
			{ scaleFrom: "reading errors" },
			{ weights: even.weights.map(() => 1) },
		]) {
			const found = estimateOf({
				...even,
				scale: 0.5,
				...other,
			} as IsothermFit);
			expect(found.scatterFrom).toBe("curve");
			expect(found.scatterVariance).toBeCloseTo(about(even), 12);
		}
		// One weight that is known is enough.
		expect(
			estimateOf({
				...even,
				scale: 0.5,
				weights: even.weights.map((_, i) => (i === 2 ? 3 : 1)),
			}).scatterFrom,
		).toBe("readings");
	});

	test("single flasks, where their own residuals give more", () => {
		const far = {
			...fit,
			used: fit.used.map((p, i) =>
				p.is === "reading" && i === 4
					? { ...p, concentration: p.concentration + 400 }
					: p,
			),
		} as IsothermFit;
		const found = estimateOf(far);
		expect(found.scatterFrom).toBe("single flasks");
		expect(found.scatterVariance).toBe(unevenScatterVariance(far, 1500));
		expect(found.scatterVariance).toBeGreaterThan(about(far));
	});
});

describe("an estimate", () => {
	test("is the uptake on the curve, with the degrees of freedom of the fit", () => {
		const found = estimateOf(fit);
		const [at] = uptakeAtResidue(fit, 1500);
		expect(found).toMatchObject({
			treatment: "water",
			fits: [fit],
			uptake: at.uptake,
			degreesOfFreedom: fit.degreesOfFreedom,
			spread: "about its curve",
			soaks: 1,
		});
	});

	test("shared errors that are known from three readings count t(0.975; 2)/1.96 times", () => {
		const shifted = {
			...fit,
			sharedShifts: [Number.POSITIVE_INFINITY, 2].map((df, k) => ({
				key: `input ${k}`,
				what: "",
				degreesOfFreedom: df,
				effect: Float64Array.of(1, 0),
			})),
		};
		const shared = estimateOf(shifted).shared;
		const one = shared.get("input 0") as number;
		expect(one).not.toBe(0);
		expect((shared.get("input 1") as number) / one).toBeCloseTo(
			studentTQuantile(0.975, 2) / 1.959964,
			5,
		);
	});

	test("at the ends of the range that was read, and not beyond", () => {
		expect(curveEstimate(fit, fit.range.low).is).toBe("estimate");
		expect(curveEstimate(fit, fit.range.high).is).toBe("estimate");
		expect(curveEstimate(fit, fit.range.low * 0.999).is).toBe("none");
		expect(curveEstimate(fit, fit.range.high * 1.001).is).toBe("none");
	});

	test("none, and why, where the fit settled nowhere or has no errors", () => {
		const nowhere = {
			...fit,
			fit: { ...fit.fit, converged: { holds: false, reason: "it ran off" } },
		} as IsothermFit;
		expect(JSON.stringify(curveEstimate(nowhere, 1500))).toContain(
			"it ran off",
		);
		const without = {
			...fit,
			scatterCovariance: { is: "not known", because: "too few points" },
		} as IsothermFit;
		expect(JSON.stringify(curveEstimate(without, 1500))).toContain(
			"too few points",
		);
	});
});

describe("flasks that can carry a curve", () => {
	test("those of four clearly different residues", () => {
		expect(carriesCurve(group, 1500)).toEqual({ ok: true });
		const few = { ...group, flasks: uptakes.slice(0, 3) };
		expect(carriesCurve(few, 1500)).toMatchObject({ ok: false });
	});
	test("not those per gram of dry char beside those as weighed", () => {
		const mixed = uptakes.map((u, i) =>
			i === 0
				? {
						...u,
						perGram: u.perGram === "dry char" ? "char as weighed" : "dry char",
					}
				: u,
		) as typeof uptakes;
		expect(carriesCurve({ ...group, flasks: mixed }, 1500)).toMatchObject({
			ok: false,
		});
	});
});

describe("a fitter", () => {
	const plain = () => 1;

	test("fits the same flasks once for each isotherm", () => {
		const fitOf = fitter();
		const first = fitOf(freundlich, group, plain);
		expect(fitOf(freundlich, { ...group }, plain)).toBe(first);
		expect(fitOf(langmuir, group, plain)).not.toBe(first);
		expect(first.points.name).toBe("water");
		expect([...first.theta]).toEqual([...fit.theta]);
	});

	test("anew where a factor, an uptake or its error is another", () => {
		const fitOf = fitter();
		const first = fitOf(freundlich, group, plain);
		const halved = fitOf(freundlich, group, () => 2);
		// Uptakes of half the size: K_F halves.
		expect(halved.theta[0] / first.theta[0]).toBeCloseTo(0.5, 1);
		expect(halved).not.toBe(first);
		for (const more of [
			{ reading: 0.6 },
			{ shared: { titrant: 2 } },
		] as Partial<FlaskFixture>[]) {
			const others = flasks(fixtures([4, -9, 2, 7, -12, 5], more));
			expect(fitOf(freundlich, { ...group, flasks: others }, plain)).not.toBe(
				first,
			);
		}
	});

	test("each flask by its own factor", () => {
		const one = fitter()(freundlich, group, (u) =>
			u.flask.name === "w0" ? 2 : 1,
		);
		const [changed, same] = [0, 1].map(
			(i) => one.points.points[i].uptake / fit.points.points[i].uptake,
		);
		expect(changed).toBeCloseTo(0.5, 9);
		expect(same).toBeCloseTo(1, 9);
	});
});
