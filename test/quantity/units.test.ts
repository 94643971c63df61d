import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	baseUnits,
	fromBase,
	input,
	type Kind,
	normal,
	ProblemError,
	per,
	type Quantity,
	readUnit,
	times,
	toBase,
	units,
} from "../../kernel-lib/quantity/index";
import {
	productKind,
	products,
	quotientKind,
} from "../../kernel-lib/quantity/kinds";

const kinds = Object.keys(baseUnits) as Kind[];
const pairs = kinds.flatMap((kind) =>
	Object.keys(units[kind]).map((unit) => ({ kind, unit })),
);
const value = fc
	.tuple(
		fc.double({ min: 1e-9, max: 1e6, noNaN: true }),
		fc.constantFrom(-1, 0, 1),
	)
	.map(([size, sign]) => size * sign);
const positive = fc.double({ min: 1e-3, max: 1e3, noNaN: true });

/** A quantity of a kind that only the run-time table knows. */
function some(kind: Kind, x: number, u = 0): Quantity {
	const unit = Object.keys(units[kind])[0] as never;
	return input(kind, x, unit, normal(u), { symbol: `${kind}` });
}

const product = (a: Quantity, b: Quantity): Quantity =>
	times(a as Quantity<"ratio">, b as Quantity<"ratio">);
const quotient = (a: Quantity, b: Quantity): Quantity =>
	per(a as Quantity<"ratio">, b as Quantity<"ratio">);

describe("conversions", () => {
	test.each(pairs)("$kind in $unit round-trips", ({ kind, unit }) => {
		fc.assert(
			fc.property(value, (x) => {
				const back = fromBase(kind, toBase(kind, x, unit), unit);
				// Temperatures lose digits to the offset.
				const lost = kind === "temperature" ? 1e-12 * 300 : 0;
				expect(Math.abs(back - x)).toBeLessThanOrEqual(
					1e-14 * Math.abs(x) + lost,
				);
			}),
		);
	});

	test.each(pairs)("$unit is read as a unit of $kind", ({ kind, unit }) => {
		expect(readUnit(kind, unit)).toEqual({ ok: true, value: unit });
	});

	test("known pairs", () => {
		const mass = input("mass", 250, "mg", normal(5), {});
		expect(mass.in("g")).toBeCloseTo(0.25, 15);
		expect(mass.to("g").standardUncertainty).toBeCloseTo(0.005, 15);
		const warm = input("temperature", 68, "°F", normal(1.8), {});
		expect(warm.in("°C")).toBeCloseTo(20, 10);
		// An uncertainty has no offset.
		expect(warm.to("°C").standardUncertainty).toBeCloseTo(1, 12);
	});

	test("a unit that a kind does not have is a problem that lists those it has", () => {
		const read = readUnit("mass", "mL");
		expect(read.ok).toBe(false);
		if (!read.ok) {
			expect(read.problems[0].found).toContain("mL");
			expect(read.problems[0].expected).toContain("g, mg");
		}
	});
});

describe("algebra of kinds", () => {
	test("a product does not care about the order, and dividing takes it back", () => {
		for (const [pair, result] of Object.entries(products)) {
			const [a, b] = pair.split("*") as [Kind, Kind];
			expect(productKind(a, b)).toBe(result);
			expect(productKind(b, a)).toBe(result);
			const back = quotientKind(result, a);
			expect(back).not.toBe("");
			expect(productKind(a, back as Kind)).toBe(result);
		}
	});

	test("values cancel: (a b) / a = b", () => {
		fc.assert(
			fc.property(
				fc.constantFrom(...Object.keys(products)),
				positive,
				positive,
				(pair, x, y) => {
					const [ka, kb] = pair.split("*") as [Kind, Kind];
					const a = some(ka, x);
					const b = some(kb, y);
					const ab = product(a, b);
					const back = quotient(ab, a);
					// g/L over L is a mass over a volume too: only the meant kind comes back.
					if (back.kind === b.kind)
						expect(back.in(b.unit as never) / b.value).toBeCloseTo(1, 12);
				},
			),
		);
	});

	test("products are associative wherever both orders exist", () => {
		const triples = kinds.flatMap((a) =>
			kinds.flatMap((b) =>
				kinds.flatMap((c) => {
					const ab = productKind(a, b);
					const bc = productKind(b, c);
					if (ab === "" || bc === "") return [];
					const left = productKind(ab, c);
					const right = productKind(a, bc);
					return left === "" || right === "" ? [] : [[a, b, c] as const];
				}),
			),
		);
		expect(triples.length).toBeGreaterThan(100);
		fc.assert(
			fc.property(
				fc.constantFrom(...triples),
				positive,
				positive,
				positive,
				([ka, kb, kc], x, y, z) => {
					const [a, b, c] = [some(ka, x), some(kb, y), some(kc, z)];
					const left = product(product(a, b), c);
					const right = product(a, product(b, c));
					expect(left.kind).toBe(right.kind);
					// Near 0 °C a reading in °C keeps few digits of what is known in K.
					const unit = right.kind === "temperature" ? "K" : right.unit;
					expect(left.in(unit as never) / right.in(unit as never)).toBeCloseTo(
						1,
						12,
					);
				},
			),
			{ numRuns: 300 },
		);
	});

	test("a divisor of zero and kinds that do not go together are refused", () => {
		expect(() => quotient(some("mass", 1), some("volume", 0))).toThrow(
			ProblemError,
		);
		expect(() => product(some("mass", 1), some("mass", 1))).toThrow(
			ProblemError,
		);
	});
});
