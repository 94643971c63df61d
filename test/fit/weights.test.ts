import { describe, expect, test } from "vitest";
import { type Fit, fit as fitCurve } from "../../kernel-lib/fit";
import { referenceData } from "../reference/check";
import {
	apart,
	generalisedLeastSquares,
	hyperbola,
	inverse,
	level,
	line,
	standardErrors,
	valueIn,
} from "./fixtures";

const x = [1, 2, 3, 5, 8, 13];
const y = [2.9, 5.2, 6.7, 11.4, 16.6, 27.9];
const design = x.map((v) => [1, v]);

describe("errors of the points", () => {
	const own = [0.3, 0.2, 0.4, 0.5, 0.6, 1.1];
	// Every point shares one error of 0.7 and has one of its own; the last two share another.
	const covariance = own.map((s, i) =>
		own.map(
			(_, j) => 0.49 + (i === j ? s * s : 0) + (i > 3 && j > 3 ? 0.2 : 0),
		),
	);

	test("a full covariance gives generalised least squares, estimate and errors", () => {
		const exact = generalisedLeastSquares(design, y, inverse(covariance));
		const result = fitCurve(line, {
			x,
			y,
			covarianceY: covariance,
			sigmaIsAbsolute: true,
		});
		expect(apart(result.theta, exact.estimate)).toBeLessThan(1e-10);
		expect(
			apart(valueIn(result.covariance), exact.covariance.flat()),
		).toBeLessThan(1e-10);
	});

	test("the residual sum of squares is r' C^-1 r", () => {
		const weight = inverse(covariance);
		const result = fitCurve(line, {
			x,
			y,
			covarianceY: covariance,
			sigmaIsAbsolute: true,
		});
		const r = Array.from(result.residuals);
		const form = r.reduce(
			(sum, a, i) => sum + r.reduce((s, b, j) => s + a * weight[i][j] * b, 0),
			0,
		);
		expect(result.residualSumOfSquares / form).toBeCloseTo(1, 10);
	});

	test("relative errors are scaled by the scatter, absolute ones are not", () => {
		for (const errors of [{ sigmaY: own }, { covarianceY: covariance }]) {
			const absolute = fitCurve(line, {
				x,
				y,
				...errors,
				sigmaIsAbsolute: true,
			});
			const relative = fitCurve(line, {
				x,
				y,
				...errors,
				sigmaIsAbsolute: false,
			});
			expect(apart(relative.theta, absolute.theta)).toBeLessThan(1e-12);
			const scatter = Math.sqrt(
				absolute.residualSumOfSquares / absolute.degreesOfFreedom,
			);
			expect(Math.abs(scatter - 1)).toBeGreaterThan(0.05);
			expect(
				apart(
					standardErrors(relative),
					standardErrors(absolute).map((s) => s * scatter),
				),
			).toBeLessThan(1e-12);
		}
	});

	test("sigmas give weighted least squares: the mean weighted by 1/sigma^2", () => {
		const result = fitCurve(level, {
			x,
			y,
			sigmaY: own,
			sigmaIsAbsolute: true,
		});
		const weights = own.map((s) => 1 / s ** 2);
		const total = weights.reduce((s, w) => s + w, 0);
		expect(result.theta[0]).toBeCloseTo(
			weights.reduce((s, w, i) => s + w * y[i], 0) / total,
			10,
		);
		expect(standardErrors(result)[0]).toBeCloseTo(Math.sqrt(1 / total), 12);
	});

	test("a diagonal covariance is the same as its sigmas", () => {
		const diagonal = own.map((s, i) =>
			own.map((_, j) => (i === j ? s * s : 0)),
		);
		const a = fitCurve(
			hyperbola,
			{ x, y, sigmaY: own, sigmaIsAbsolute: true },
			from,
		);
		const b = fitCurve(
			hyperbola,
			{ x, y, covarianceY: diagonal, sigmaIsAbsolute: true },
			from,
		);
		expect(apart(a.theta, b.theta)).toBeLessThan(1e-8);
		expect(apart(standardErrors(a), standardErrors(b))).toBeLessThan(1e-8);
	});

	test("one sigma for all points leaves the estimate where it was; as absolute it sets the errors", () => {
		const plain = fitCurve(line, { x, y });
		const same = fitCurve(line, { x, y, sigmaY: 0.5, sigmaIsAbsolute: false });
		expect(apart(same.theta, plain.theta)).toBeLessThan(1e-12);
		expect(apart(standardErrors(same), standardErrors(plain))).toBeLessThan(
			1e-12,
		);
		const absolute = fitCurve(line, {
			x,
			y,
			sigmaY: 0.5,
			sigmaIsAbsolute: true,
		});
		const exact = inverse(
			generalisedLeastSquares(
				design,
				y,
				x.map((_, i) => x.map((__, j) => (i === j ? 4 : 0))),
			).covariance,
		);
		expect(
			apart(valueIn(absolute.covariance), inverse(exact).flat()),
		).toBeLessThan(1e-10);
	});
});

const from = { start: { k: 0.05 } };

interface Fitted {
	readonly sigmaIsAbsolute: boolean;
	readonly parameters: readonly number[];
	readonly standardErrors: readonly number[];
}

const checks = referenceData<{
	weightedHyperbola: {
		x: number[];
		y: number[];
		sigmaY: number[];
		fits: Fitted[];
	};
	correlatedHyperbola: {
		x: number[];
		y: number[];
		ownSigma: number;
		commonSigma: number;
		fits: Fitted[];
	};
}>("fit-checks.json");

function agrees(result: Fit, expected: Fitted): void {
	expect(apart(result.theta, expected.parameters)).toBeLessThan(1e-6);
	expect(apart(standardErrors(result), expected.standardErrors)).toBeLessThan(
		1e-5,
	);
}

describe("against SciPy", () => {
	test("sigmas, absolute and relative", () => {
		const { x, y, sigmaY, fits } = checks.weightedHyperbola;
		for (const expected of fits)
			agrees(
				fitCurve(
					hyperbola,
					{ x, y, sigmaY, sigmaIsAbsolute: expected.sigmaIsAbsolute },
					from,
				),
				expected,
			);
	});

	test("a common error beside each point's own, absolute and relative", () => {
		const { x, y, ownSigma, commonSigma, fits } = checks.correlatedHyperbola;
		const covarianceY = x.map((_, i) =>
			x.map((__, j) => commonSigma ** 2 + (i === j ? ownSigma ** 2 : 0)),
		);
		for (const expected of fits)
			agrees(
				fitCurve(
					hyperbola,
					{ x, y, covarianceY, sigmaIsAbsolute: expected.sigmaIsAbsolute },
					from,
				),
				expected,
			);
	});
});
