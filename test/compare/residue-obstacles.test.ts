/** Doses that would do, by hand: what stays in solution and what the char holds. */
import { describe, expect, test } from "vitest";
import {
	doseFor,
	dosingOf,
	meanFlask,
	tooFewObstacle,
	undeterminedObstacle,
} from "../../kernel-lib/compare/residue-obstacles";
import { dosesOfCurve } from "../../kernel-lib/compare/several-doses";
import type { IsothermFit } from "../../kernel-lib/isotherms";
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
