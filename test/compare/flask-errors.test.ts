/** Errors of numbers that move with an uptake and a residue together, by hand. */
import { expect, test } from "vitest";
import { flaskErrorsOf } from "../../kernel-lib/compare/flask-errors";
import type { LinkedErrors } from "../../kernel-lib/quantity";

const known = Number.POSITIVE_INFINITY;
const own = (
	at: number,
	first: number,
	second: number,
	scope = "reading",
	degreesOfFreedom = known,
) => ({ input: { scope, degreesOfFreedom }, at, first, second });
const errorsOf = (
	list: readonly ReturnType<typeof own>[],
	shared: readonly {
		first: readonly number[];
		second: readonly number[];
	}[] = [],
) =>
	// Two flasks: 2 and 3 times the uptake, 5 and -7 times the residue.
	flaskErrorsOf(
		{ own: list, shared } as unknown as LinkedErrors,
		Float64Array.of(2, 3),
		Float64Array.of(5, -7),
	);

test("one error that moves both is added up before it is squared; errors of one flask after", () => {
	const { ownVariance, replicateVariance, aloneVariance } = errorsOf([
		own(0, 1, 2),
		own(0, 1, 0),
		own(1, 4, 1),
	]);
	expect([...ownVariance]).toEqual([12 ** 2 + 2 ** 2, 5 ** 2]);
	expect([...replicateVariance]).toEqual([0, 0]);
	expect([...aloneVariance]).toEqual([148, 25]);
});

test("what differs from one replicate to the next stands by itself, and counts where nothing holds it", () => {
	const { ownVariance, replicateVariance, aloneVariance } = errorsOf([
		own(0, 1, 0),
		own(0, 0, 1, "replicate"),
	]);
	expect(ownVariance[0]).toBe(4);
	expect(replicateVariance[0]).toBe(25);
	expect(aloneVariance[0]).toBe(29);
});

test("a size known from three readings has t(0.975; 2)/1.96 of room where it stands alone", () => {
	const { ownVariance, aloneVariance } = errorsOf([own(1, 1, 0, "reading", 2)]);
	expect(ownVariance[1]).toBe(9);
	expect(aloneVariance[1]).toBeCloseTo(9 * (4.302653 / 1.959964) ** 2, 4);
});

test("a shared one moves each flask by its uptake and its residue", () => {
	const { shared } = errorsOf([], [{ first: [10, 1], second: [2, 3] }]);
	expect([...shared[0].effect]).toEqual([20 + 10, 3 - 21]);
	const apart = errorsOf([], [{ first: [10, 0], second: [0, 3] }]);
	expect([...apart.shared[0].effect]).toEqual([20, -21]);
	const one = errorsOf([], [{ first: [0, 1], second: [0, 0] }]);
	expect([...one.shared[0].effect]).toEqual([0, 3]);
});
