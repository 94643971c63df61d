import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as properties from "../../kernel-lib/properties/index";
import {
	correlation,
	input,
	minus,
	normal,
} from "../../kernel-lib/quantity/index";
import { charRow, steps } from "../uptake/sheets";
import { known, percent } from "./made";

const bases: readonly properties.Basis[] = [
	"as weighed",
	"dry",
	"dry, ash-free",
];
const content = fc.double({ min: 0, max: 95, noNaN: true });

describe("basis conversions", () => {
	test("there and back again is the same value, for every pair", () => {
		fc.assert(
			fc.property(
				fc.double({ min: 0.1, max: 2000, noNaN: true }),
				content,
				content,
				fc.constantFrom(...bases),
				fc.constantFrom(...bases),
				(value, moisture, ash, from, to) => {
					const contents = { moisture: percent(moisture), ash: percent(ash) };
					const q = known("uptake", value, "mg/g");
					const back = properties.toBasis(
						properties.toBasis(q, from, to, contents),
						to,
						from,
						contents,
					);
					expect(back.in("mg/g") / value).toBeCloseTo(1, 10);
				},
			),
		);
	});

	test("by way of another basis is the same as straight", () => {
		fc.assert(
			fc.property(
				content,
				content,
				fc.constantFrom(...bases),
				fc.constantFrom(...bases),
				fc.constantFrom(...bases),
				(moisture, ash, from, by, to) => {
					const contents = { moisture: percent(moisture), ash: percent(ash) };
					const q = known("uptake", 100, "mg/g");
					const straight = properties.toBasis(q, from, to, contents);
					const round = properties.toBasis(
						properties.toBasis(q, from, by, contents),
						by,
						to,
						contents,
					);
					expect(round.in("mg/g") / straight.in("mg/g")).toBeCloseTo(1, 10);
				},
			),
		);
	});

	test("moisture on the dry basis and back", () => {
		fc.assert(
			fc.property(content, (w) => {
				const dry = properties.moistureOnDryBasis(percent(w));
				expect(properties.moistureOnWetBasis(dry).in("%")).toBeCloseTo(w, 9);
			}),
		);
		expect(properties.moistureOnDryBasis(percent(50)).in("%")).toBeCloseTo(
			100,
			9,
		);
	});

	test("per gram of less, more: dry above as weighed, ash-free above dry", () => {
		const contents = { moisture: percent(6), ash: percent(10) };
		const q = known("uptake", 100, "mg/g");
		expect(
			properties.toBasis(q, "as weighed", "dry", contents).in("mg/g"),
		).toBeCloseTo(100 / 0.94, 9);
		expect(
			properties.toBasis(q, "as weighed", "dry, ash-free", contents).in("mg/g"),
		).toBeCloseTo(100 / 0.94 / 0.9, 9);
	});

	test("a content that is missing, or is the whole, is refused in words", () => {
		const q = known("uptake", 100, "mg/g");
		expect(() => properties.toBasis(q, "as weighed", "dry", {})).toThrow(
			'found no moisture of the char; expected its moisture, to go from "as weighed" to "dry". Give { moisture: ... }.',
		);
		expect(() =>
			properties.toBasis(q, "dry", "dry, ash-free", { ash: percent(100) }),
		).toThrow(/from 0 to below 100 %/);
		expect(properties.toBasis(q, "dry", "dry", {})).toBe(q);
	});
});

describe("uptake of a flask on a basis", () => {
	const moisture = input("ratio", 6, "%", normal(0.5), {
		symbol: "W",
		meaning: "moisture",
	});
	const ash = input("ratio", 8, "%", normal(0.4), {
		symbol: "A",
		meaning: "ash",
	});
	const { uptakes } = steps([
		charRow("1"),
		charRow("2", { "char mass (g)": 1.1 }),
	]);

	test("per gram of dry char: the uptake over 1 - W, its uncertainty with that of the moisture", () => {
		const [flask] = uptakes;
		expect(flask.perGram).toBe("char as weighed");
		const dry = properties.uptakeOnBasis(flask, "dry", { moisture });
		expect(dry.basis).toBe("dry");
		expect(dry.of).toBe(flask);
		const q = flask.uptake.quantity;
		expect(dry.uptake.quantity.in("mg/g")).toBeCloseTo(q.in("mg/g") / 0.94, 9);
		// relative variances add: (u(q)/q)² + (u(W)/(1 - W))²
		expect(
			dry.uptake.quantity.standardUncertainty / dry.uptake.quantity.value,
		).toBeCloseTo(Math.hypot(q.standardUncertainty / q.value, 0.005 / 0.94), 9);
	});

	test("two flasks of one char share the error of its moisture and ash; their difference hardly has it", () => {
		const [a, b] = uptakes.map(
			(u) =>
				properties.uptakeOnBasis(u, "dry, ash-free", { moisture, ash }).uptake
					.quantity,
		);
		const [plainA, plainB] = uptakes.map((u) => u.uptake.quantity);
		expect(correlation(a, b)).toBeGreaterThan(correlation(plainA, plainB));
		const factor = 1 / 0.94 / 0.92;
		const apart = minus(plainA, plainB);
		const difference = minus(a, b);
		expect(difference.in("mg/g")).toBeCloseTo(apart.in("mg/g") * factor, 9);
		const shared =
			(apart.in("mg/g") * factor) ** 2 *
			((0.005 / 0.94) ** 2 + (0.004 / 0.92) ** 2);
		expect(difference.to("mg/g").standardUncertainty ** 2).toBeCloseTo(
			(apart.to("mg/g").standardUncertainty * factor) ** 2 + shared,
			6,
		);
	});

	test("a bound stays a bound, with its reason", () => {
		const [dry] = steps([charRow("dry", { "titre (mL)": 0 })]).uptakes;
		const on = properties.uptakeOnBasis(dry, "dry", { moisture });
		expect(on.uptake.is).toBe("at least");
		expect(on.uptake.is !== "value" && on.uptake.because).toBe(
			dry.uptake.is !== "value" && dry.uptake.because,
		);
	});
});
