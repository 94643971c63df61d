import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
	chiSquareQuantile,
	type RandomLevel,
	type VarianceComponent,
	varianceComponents,
} from "../../kernel-lib/stats";
import { referenceJson, relativeError } from "./reference";

type Estimated = Extract<VarianceComponent, { readonly estimate: number }>;

function estimated(c: VarianceComponent): Estimated {
	if (c.is === "not known") throw new Error(c.why);
	return c;
}

/** Observations within units within groups, as levels "unit" and "single". */
function nested(groups: readonly (readonly (readonly number[])[])[]): {
	readonly values: number[];
	readonly fixed: string[];
	readonly levels: RandomLevel[];
} {
	const rows = groups.flatMap((units, g) =>
		units.flatMap((u, k) => u.map((y) => ({ y, g, k: `${g}.${k}` }))),
	);
	return {
		values: rows.map((r) => r.y),
		fixed: rows.map((r) => String(r.g)),
		levels: [
			{ name: "unit", groups: rows.map((r) => r.k) },
			{ name: "single", groups: rows.map((_, i) => String(i)) },
		],
	};
}

function componentsOf(
	groups: readonly (readonly (readonly number[])[])[],
): VarianceComponent[] {
	const { values, fixed, levels } = nested(groups);
	return varianceComponents(values, fixed, levels, 0.95);
}

describe("outside values", () => {
	const { machines } = referenceJson<{
		machines: {
			readonly groups: number[][][];
			readonly varianceBetween: number;
			readonly varianceWithin: number;
		};
	}>("means-of-groups.json");

	it("are those of restricted likelihood where all is balanced (nlme)", () => {
		const [unit, single] = componentsOf(machines.groups).map(estimated);
		expect(relativeError(unit.estimate, machines.varianceBetween)).toBeLessThan(
			1e-6,
		);
		expect(
			relativeError(single.estimate, machines.varianceWithin),
		).toBeLessThan(1e-6);
	});

	type Set = Readonly<Record<string, string[]>> & {
		readonly name: string;
		readonly values: number[];
		readonly degreesOfFreedom: number[];
		readonly components: number[];
	};
	const reference = referenceJson<{
		readonly levels: string[];
		readonly sets: readonly Set[];
	}>("variance-components.json");

	it.each(reference.sets)("crossed and nested, $name", (set) => {
		const found = varianceComponents(
			set.values,
			set.treatment,
			reference.levels.map((name) => ({
				name,
				groups: set[name] ?? set.values.map((_, i) => String(i)),
			})),
			0.95,
		).map(estimated);
		expect(found.map((c) => c.degreesOfFreedom)).toEqual(set.degreesOfFreedom);
		found.forEach((c, i) => {
			expect(relativeError(c.estimate, set.components[i])).toBeLessThan(1e-8);
		});
	});
});

describe("by hand", () => {
	// Two groups of two units of two: mean squares within 2, 8, 2, 0 / 4 units; between units of a group 2 (10 - 13)^2 / 2 ...
	const groups = [
		[
			[9, 11],
			[11, 15],
		],
		[
			[20, 22],
			[30, 30],
		],
	];

	it("balanced: (mean square between less within) / size, and within", () => {
		const within = (2 + 8 + 2 + 0) / 4;
		const between = (2 * (1.5 ** 2 * 2) + 2 * (4.5 ** 2 * 2)) / 2;
		const [unit, single] = componentsOf(groups).map(estimated);
		expect(single.estimate).toBeCloseTo(within, 10);
		expect(unit.estimate).toBeCloseTo((between - within) / 2, 10);
		expect([unit.degreesOfFreedom, single.degreesOfFreedom]).toEqual([2, 4]);
	});

	it("the same of thousands of units, in far less than a second", () => {
		const units = Array.from({ length: 2000 }, (_, k) => {
			const middle = Math.sin(7 * k);
			return [middle + Math.cos(3 * k), middle - Math.cos(3 * k)];
		});
		const mean = (list: readonly number[]): number =>
			list.reduce((a, b) => a + b, 0) / list.length;
		const whole = mean(units.flat());
		const within =
			units.reduce((sum, [a, b]) => sum + (a - b) ** 2 / 2, 0) / units.length;
		const between =
			units.reduce((sum, u) => sum + 2 * (mean(u) - whole) ** 2, 0) /
			(units.length - 1);
		const [unit, single] = componentsOf([units]).map(estimated);
		expect(single.estimate).toBeCloseTo(within, 8);
		expect(unit.estimate).toBeCloseTo((between - within) / 2, 8);
		expect([unit.degreesOfFreedom, single.degreesOfFreedom]).toEqual([
			1999, 2000,
		]);
	});

	it("a single mean square has the limits of chi-square", () => {
		const single = estimated(componentsOf(groups)[1]);
		expect(single.low).toBeCloseTo((4 * 3) / chiSquareQuantile(0.975, 4), 10);
		expect(single.high).toBeCloseTo((4 * 3) / chiSquareQuantile(0.025, 4), 10);
	});
});

describe("laws", () => {
	const number = fc.integer({ min: -500, max: 500 }).map((n) => n / 10);
	const trial = fc.array(
		fc.array(fc.array(number, { minLength: 1, maxLength: 3 }), {
			minLength: 1,
			maxLength: 3,
		}),
		{ minLength: 1, maxLength: 3 },
	);
	const numbers = (found: readonly VarianceComponent[]): number[] =>
		found.flatMap((c) =>
			c.is === "not known" ? [] : [c.estimate, c.low, c.high],
		);
	const close = (a: readonly number[], b: readonly number[], scale: number) => {
		expect(a).toHaveLength(b.length);
		a.forEach((x, i) => {
			expect(Math.abs(x - b[i])).toBeLessThan(1e-6 * scale);
		});
	};

	it("a constant added to every group changes nothing; a factor k is k^2", () => {
		fc.assert(
			fc.property(trial, number, fc.constantFrom(0.5, 2, 10), (t, more, k) => {
				const { values, fixed, levels } = nested(t);
				const at = (map: (y: number, g: number) => number): number[] =>
					numbers(
						varianceComponents(
							values.map((y, i) => map(y, Number(fixed[i]))),
							fixed,
							levels,
							0.95,
						),
					);
				const own = at((y) => y);
				const scale = 1 + Math.max(0, ...own.map(Math.abs));
				close(
					at((y, g) => y + more * (1 + g)),
					own,
					scale * 10,
				);
				close(
					at((y) => k * y),
					own.map((x) => k * k * x),
					scale * k * k,
				);
			}),
			{ numRuns: 40 },
		);
	});
});

describe("what is not known is not 0", () => {
	const words = (groups: readonly (readonly (readonly number[])[])[]) =>
		componentsOf(groups).map((c) => (c.is === "not known" ? c.why : c.is));

	it("one unit a group: nothing repeated", () => {
		expect(words([[[1, 2]], [[3, 5]]])).toEqual(["nothing repeated", "seen"]);
	});

	it("one observation a unit: it cannot be told from its unit", () => {
		expect(
			words([
				[[1], [2]],
				[[3], [5]],
			]),
		).toEqual(["confounded", "nothing repeated"]);
	});

	it("units that agree better than their observations: none seen, with an upper limit", () => {
		const [unit] = componentsOf([
			[
				[1, 5],
				[2, 5],
				[2, 4],
			],
		]).map(estimated);
		expect(unit.is).toBe("none seen");
		expect(unit.estimate).toBeLessThan(0);
		expect(unit.low).toBe(0);
		expect(unit.high).toBeGreaterThan(0);
	});

	it("just above and just below nothing between units", () => {
		// Within: mean square 2; means d apart: d^2 between.
		const at = (d: number) =>
			words([
				[
					[1, 3],
					[1 + d, 3 + d],
				],
			])[0];
		expect(at(Math.sqrt(2) - 0.01)).toBe("none seen");
		expect(at(Math.sqrt(2) + 0.01)).toBe("seen");
	});

	it("units that agree beyond chance contradict the model; no scatter at all tells nothing", () => {
		const same = Array.from({ length: 30 }, () => [1, 9]);
		expect(words([same])[0]).toBe("contradiction");
		expect(
			words([
				[
					[2, 2],
					[2, 2],
				],
			]),
		).toEqual(["agree exactly", "agree exactly"]);
	});
});

describe("covariates", () => {
	// y = 1.5 + 0.5 x leaves -0.5, 1, -0.5: 1.5 on one degree of freedom.
	const values = [1, 3, 2];
	const single: RandomLevel[] = [{ name: "single", groups: ["0", "1", "2"] }];
	const along = (...columns: Float64Array[]) =>
		estimated(
			varianceComponents(values, ["", "", ""], single, 0.95, columns)[0],
		);
	const x = Float64Array.of(0, 1, 2);

	it("take off what they explain, and a degree of freedom each", () => {
		expect(along()).toMatchObject({ degreesOfFreedom: 2 });
		expect(along().estimate).toBeCloseTo(1, 12);
		expect(along(x)).toMatchObject({ degreesOfFreedom: 1 });
		expect(along(x).estimate).toBeCloseTo(1.5, 12);
	});

	it("count once: one that is nothing, or that the fixed groups and others span, takes nothing", () => {
		const twice = Float64Array.from(x, (v) => 3 - 2 * v);
		expect(along(x, twice, new Float64Array(3))).toEqual(along(x));
	});
});
