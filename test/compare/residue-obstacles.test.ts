/** Doses that would do, by hand: what stays in solution and what the char holds. */
import { describe, expect, test } from "vitest";
import {
	doseFor,
	dosingOf,
	meanFlask,
	outsideObstacle,
	tooFewObstacle,
	undeterminedObstacle,
} from "../../kernel-lib/compare/residue-obstacles";
import { dosesOfCurve } from "../../kernel-lib/compare/several-doses";
import {
	freundlich,
	type Isotherm,
	type IsothermFit,
} from "../../kernel-lib/isotherms";
import { scaled } from "../../kernel-lib/quantity";
import { flasks } from "./fixtures";

const [one, two] = flasks([
	{ flask: "a", treatment: "steam", uptake: 100, liquid: 100, residue: 100 },
	{
		flask: "b",
		treatment: "steam",
		uptake: 200,
		liquid: 300,
		residue: 400,
		ammonia: "named",
	},
]);
const heavy = { ...two, charMass: scaled(two.charMass, 3) };

test("a dose leaves so much in solution, and the char holds the rest; never less than nothing", () => {
	const flask = { char: 2, liquid: 0.1 };
	expect(doseFor(flask, 300, 50)).toBe(30 + 100);
	expect(doseFor(flask, 300, -50)).toBe(30);
});

test("a flask like those that there are", () => {
	expect(meanFlask([one, heavy])).toEqual({
		char: 2,
		liquid: expect.closeTo(0.2, 12),
	});
	expect(dosingOf([one, heavy], { char: 2, liquid: 0.2 })).toEqual({
		probe: "iodine",
		ammonia: "named",
		flask: { char: 2, liquid: 0.2 },
	});
	expect(dosingOf([], { char: 1, liquid: 1 }).probe).toBe("iodine");
	const dye = { ...one, probe: "methylene blue" } as typeof one;
	expect(dosingOf([dye], { char: 1, liquid: 1 }).probe).toBe("methylene blue");
});

describe("too few doses", () => {
	const doses = dosesOfCurve("steam", [one, two]);
	test("from a third of the stated residue to twice that, as if each gram took up the mean", () => {
		expect(tooFewObstacle(doses, [one, heavy], 300)).toEqual({
			is: "too few doses",
			doses,
			residue: 300,
			// 0.2 L at 100 and at 600 mg/L, 2 g at 150 mg/g
			from: expect.closeTo(20 + 300, 9),
			to: expect.closeTo(120 + 300, 9),
			uptake: 150,
			dosing: {
				probe: "iodine",
				ammonia: "named",
				flask: { char: 2, liquid: expect.closeTo(0.2, 12) },
			},
		});
	});
	test("doses enough and still no curve: the grams are unlike; no flask: none is left", () => {
		expect(tooFewObstacle({ ...doses, enough: true }, [one], 300)).toEqual({
			is: "unlike grams",
			treatments: ["steam"],
		});
		expect(tooFewObstacle(doses, [], 300)).toEqual({
			is: "no flask left",
			treatment: "steam",
		});
	});
});

describe("a residue that the flasks did not reach", () => {
	/** q = C/2, and flasks that left 100 and 400 mg/L; the far one last and first. */
	const outside = (
		residue: number,
		isotherm: Isotherm = freundlich,
		list = [one, two],
	) => {
		const fit = {
			range: { low: 100, high: 400 },
			points: { name: "steam", flasks: list },
			isotherm,
			theta: Float64Array.of(0.5, 1),
		} as unknown as IsothermFit;
		return outsideObstacle(fit, residue);
	};
	test("beyond: a tenth more than it in the flask that came nearest, and what the curve holds there", () => {
		expect(outside(600)).toEqual({
			is: "residue not reached",
			treatment: "steam",
			residue: 600,
			range: { low: 100, high: 400 },
			otherUnit: false,
			// 0.3 L at 660 mg/L, 1 g at 300 mg/g
			dose: expect.closeTo(0.3 * 660 + 300, 9),
			dosing: {
				probe: "iodine",
				ammonia: "named",
				flask: { char: 1, liquid: expect.closeTo(0.3, 12) },
			},
		});
	});
	test("below: a tenth less, in the flask that left least, in whatever order they stand", () => {
		for (const list of [
			[one, two],
			[two, one],
		]) {
			expect(outside(60, freundlich, list)).toMatchObject({
				dose: expect.closeTo(0.1 * 54 + 30, 9),
			});
			expect(outside(600, freundlich, list)).toMatchObject({
				dose: expect.closeTo(0.3 * 660 + 300, 9),
			});
		}
	});
	test("not beyond where a curve ends: half its end at most, and at the edge of the flasks where that is no number", () => {
		const ending = { ...freundlich, highestConcentration: 800 };
		expect(outside(600, ending)).toMatchObject({
			dose: expect.closeTo(0.3 * 660 + 200, 9),
		});
		expect(outside(60, ending)).toMatchObject({
			dose: expect.closeTo(0.1 * 54 + 30, 9),
		});
		const { model } = freundlich;
		const nowhere: Isotherm = {
			...freundlich,
			model: {
				...model,
				evaluate: (p, x, out) => {
					model.evaluate(p, x, out);
					// Not defined but at the two edges of what was measured
					for (let i = 0; i < out.length; i++)
						if (out[i] > 201 || out[i] < 49) out[i] = Number.NaN;
				},
			},
		};
		expect(outside(600, nowhere)).toMatchObject({
			dose: expect.closeTo(0.3 * 660 + 200, 9),
		});
		expect(outside(60, nowhere)).toMatchObject({
			dose: expect.closeTo(0.1 * 54 + 50, 9),
		});
	});
	test("the other unit, where the number would lie in the range in it", () => {
		const other = (residue: number) =>
			(outside(residue) as { otherUnit: boolean }).otherUnit;
		expect([0.1, 0.25, 0.4].map(other)).toEqual([true, true, true]);
		expect([0.09, 0.41].map(other)).toEqual([false, false]);
		expect([100_000, 400_000].map(other)).toEqual([true, true]);
		expect([99_000, 401_000].map(other)).toEqual([false, false]);
	});
});

test("an isotherm that is not determined is named, with the reason", () => {
	const fit = {
		points: { name: "steam, soak 1" },
		isotherm: { name: "Sips" },
	} as unknown as IsothermFit;
	expect(undeterminedObstacle(fit, "the plateau is not reached")).toEqual({
		is: "isotherm not determined",
		treatment: "steam, soak 1",
		isotherm: "Sips",
		because: "the plateau is not reached",
	});
});
