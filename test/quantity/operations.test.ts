import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Operation } from "../../kernel-lib/quantity/operations";
import * as operations from "../../kernel-lib/quantity/operations";

/** Every operation of the graph: one that is added must be added here, or the first test fails. */
const all: readonly { operation: Operation; operands: number }[] = [
	{ operation: operations.sum, operands: 3 },
	{ operation: operations.difference, operands: 2 },
	{ operation: operations.product, operands: 2 },
	{ operation: operations.quotient, operands: 2 },
	{ operation: operations.scaling, operands: 1 },
	{ operation: operations.computedScaling, operands: 1 },
	{ operation: operations.average, operands: 4 },
	{ operation: operations.power, operands: 1 },
	{ operation: operations.logarithm, operands: 1 },
	{ operation: operations.exponential, operands: 1 },
	{ operation: operations.cosine, operands: 1 },
	{ operation: operations.sine, operands: 1 },
];

const number = fc.double({ min: 0.3, max: 3, noNaN: true });

test("no operation is left out of these tests", () => {
	const ids = Object.values(operations)
		.filter((x): x is Operation => typeof x === "object" && "evaluate" in x)
		.map((x) => x.id);
	expect(all.map((x) => x.operation.id).sort()).toEqual(ids.sort());
});

describe.each(all)("$operation.id", ({ operation, operands }) => {
	const operandsOf = fc.array(number, {
		minLength: operands,
		maxLength: operands,
	});

	test("exact derivatives agree with central differences", () => {
		fc.assert(
			fc.property(operandsOf, number, (x, parameter) => {
				for (let i = 0; i < operands; i++) {
					const h = 1e-5 * x[i];
					const shifted = (by: number): number[] =>
						x.map((v, j) => (j === i ? v + by : v));
					const difference =
						(operation.evaluate(shifted(h), parameter) -
							operation.evaluate(shifted(-h), parameter)) /
						(2 * h);
					const exact = operation.derivative(x, parameter, i);
					expect(Math.abs(exact - difference)).toBeLessThanOrEqual(
						1e-7 * Math.max(1, Math.abs(exact)),
					);
				}
			}),
		);
	});

	test("a block gives what single evaluations give", () => {
		fc.assert(
			fc.property(
				fc.array(operandsOf, { minLength: 1, maxLength: 20 }),
				number,
				(rows, parameter) => {
					const columns = Array.from({ length: operands }, (_, i) =>
						Float64Array.from(rows, (row) => row[i]),
					);
					const out = new Float64Array(rows.length);
					operation.evaluateBlock(columns, parameter, out);
					rows.forEach((row, j) => {
						expect(out[j]).toBeCloseTo(operation.evaluate(row, parameter), 12);
					});
				},
			),
		);
	});
});
