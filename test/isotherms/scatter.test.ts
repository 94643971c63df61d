import { describe, expect, test } from "vitest";
import { scatterBesideShared } from "../../kernel-lib/isotherms/scatter";
import {
	dot,
	eigenOfSymmetric,
	orthonormalBasis,
	withoutDirections,
} from "../../kernel-lib/linear/index";
import { createRandom, studentTQuantile } from "../../kernel-lib/stats/index";

/** A straight line through ten places. */
const places = Array.from({ length: 10 }, (_, i) => i);
const gradients = places.map((x) => Float64Array.of(1, x));

describe("scatter beside shared errors", () => {
	const residuals = Float64Array.from(places, (x) => Math.sin(2.3 * x));

	test("without shared errors it is the residual standard deviation", () => {
		// Sum of squares about the least-squares line through the residuals, by the textbook formula.
		const n = places.length;
		const mx = places.reduce((a, b) => a + b) / n;
		const my = residuals.reduce((a, b) => a + b) / n;
		const sxx = places.reduce((s, x) => s + (x - mx) ** 2, 0);
		const sxy = places.reduce((s, x, i) => s + (x - mx) * residuals[i], 0);
		const syy = residuals.reduce((s, y) => s + (y - my) ** 2, 0);
		const found = scatterBesideShared(gradients, residuals, []);
		expect(found.degreesOfFreedom).toBe(n - 2);
		expect(found.scale).toBeCloseTo(
			Math.sqrt((syy - sxy ** 2 / sxx) / (n - 2)),
			12,
		);
	});

	test("an error that moves the points along the curve takes nothing away", () => {
		const along = Float64Array.from(places, (x) => 40 - 7 * x);
		const plain = scatterBesideShared(gradients, residuals, []);
		const found = scatterBesideShared(gradients, residuals, [along]);
		expect(found.scale).toBeCloseTo(plain.scale, 6);
		expect(found.degreesOfFreedom).toBeCloseTo(plain.degreesOfFreedom, 6);
	});

	test("an error far larger than the scatter takes one degree of freedom and leaves the rest as it is", () => {
		const bend = Float64Array.from(places, (x) => 1e4 * (x - 4.5) ** 2);
		const moved = residuals.map((r, i) => r + 0.8 * bend[i]);
		const bent = places.map((x) => Float64Array.of(1, x, (x - 4.5) ** 2));
		const found = scatterBesideShared(gradients, moved, [bend]);
		const free = scatterBesideShared(bent, moved, []);
		expect(found.degreesOfFreedom).toBeCloseTo(7, 5);
		expect(found.scale).toBeCloseTo(free.scale, 5);
	});

	test("over many trials its square is right on average and Student's t with its degrees of freedom covers", () => {
		const random = createRandom(20_260);
		const bends = [1.5, 0.8, 0.3].map((size, k) =>
			Float64Array.from(places, (x) => size * Math.cos(((k + 2) * x) / 3)),
		);
		const trials = 4000;
		let squares = 0;
		let held = 0;
		for (let t = 0; t < trials; t++) {
			const amounts = bends.map(() => random.normal());
			const noise = Float64Array.from(places, () => 2 * random.normal());
			const moved = noise.map((e, i) =>
				bends.reduce((sum, b, k) => sum + amounts[k] * b[i], e),
			);
			const { scale, degreesOfFreedom } = scatterBesideShared(
				gradients,
				moved,
				bends,
			);
			squares += scale ** 2 / trials;
			// A quantity with this standard deviation that owes nothing to the residuals.
			const quantile = studentTQuantile(0.975, degreesOfFreedom);
			if (Math.abs(2 * random.normal()) <= quantile * scale) held += 1;
		}
		expect(Math.abs(squares / 4 - 1)).toBeLessThan(0.05);
		expect(Math.abs(held / trials - 0.95)).toBeLessThan(0.012);
	});

	/** The covariance of all points diagonalised whole, n x n, beside the few directions that errors span: the derivative of the likelihood by the variance (over the size of its terms), and the degrees of freedom, at a scale. */
	function dense(scale: number, shared: readonly Float64Array[]) {
		const basis = orthonormalBasis(
			[0, 1].map((j) => Float64Array.from(gradients, (g) => g[j])),
		);
		const moved = shared.map((w) => withoutDirections(basis, w));
		const left = withoutDirections(basis, residuals);
		const { values, vectors } = eigenOfSymmetric(
			places.map((i) =>
				places.map((j) => moved.reduce((sum, w) => sum + w[i] * w[j], 0)),
			),
		);
		const v = scale ** 2;
		const along = vectors.map((u) => dot(u, left) ** 2);
		// The directions of the parameters are among those of eigenvalue 0: they tell nothing of the scatter.
		const trace =
			values.reduce((sum, l) => sum + 1 / (v + l), 0) - basis.length / v;
		const squares = values.reduce(
			(sum, l, k) => sum + along[k] / (v + l) ** 2,
			0,
		);
		return {
			derivative: trace / squares - 1,
			degreesOfFreedom:
				values.reduce((sum, l) => sum + (v / (v + l)) ** 2, 0) - basis.length,
		};
	}

	test.each([1, 3, 7, 14])(
		"%s shared errors: the same as by the covariance of all points",
		(count) => {
			const random = createRandom(`dense ${count}`);
			const shared = Array.from({ length: count }, (_, k) =>
				Float64Array.from(places, () => random.normal() * 0.4 ** k),
			);
			const { scale, degreesOfFreedom } = scatterBesideShared(
				gradients,
				residuals,
				shared,
			);
			const expected = dense(scale, shared);
			expect(Math.abs(expected.derivative)).toBeLessThan(1e-6);
			expect(degreesOfFreedom).toBeCloseTo(expected.degreesOfFreedom, 9);
		},
	);

	test("residuals that the shared errors explain wholly are taken as they are", () => {
		const bend = Float64Array.from(places, (x) => 100 * Math.cos(x));
		const spare = [0, 1, 2, 3].map((i) => Float64Array.of(1, i));
		const few = Float64Array.of(0.1, -0.1, -0.1, 0.1);
		const both = [
			bend.slice(0, 4),
			Float64Array.from([0, 1, 2, 3], (x) => 100 * x ** 2),
		];
		expect(scatterBesideShared(spare, few, both)).toEqual(
			scatterBesideShared(spare, few, []),
		);
	});
});
