import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { carriableOf, readWell } from "../../kernel-lib/compare/carriable";
import { atMiddle, carriedTo } from "../../kernel-lib/compare/carry";
import { commonResidue } from "../../kernel-lib/compare/common-residue";
import { slopesOf } from "../../kernel-lib/compare/measured-slope";
import { drawnFlasks } from "../../kernel-lib/compare/observations";
import { endsOf, middleOf, type Slope } from "../../kernel-lib/compare/slope";
import {
	slopeRange,
	typicalSlopes,
} from "../../kernel-lib/compare/slope-range";
import { scaled } from "../../kernel-lib/quantity";
import { createRandom } from "../../kernel-lib/stats";
import { flasks, flaskUptake, group } from "./fixtures";

const along = (value: number, high = 0.6) =>
	new Map([
		[
			"steam",
			{
				slope: { is: "range", low: 0, high } as Slope,
				near: value,
				beyond: value,
			},
		],
	]);

const steam = (uptake: number, residue: number, more = {}) =>
	flaskUptake({ flask: "1", treatment: "steam", uptake, residue, ...more });

/** 1/n of a treatment. */
function slopeOf(uptakes: ReturnType<typeof flasks>, at: number): Slope {
	const [slope] = slopesOf(carriableOf(uptakes, at), at, 0.95).values();
	return slope;
}

describe("carrying a flask to another residue", () => {
	test("q (C*/C)^s, and there and back again is where it was", () => {
		fc.assert(
			fc.property(
				fc.double({ min: -50, max: 500, noNaN: true }),
				fc.double({ min: 100, max: 3000, noNaN: true }),
				fc.double({ min: 100, max: 3000, noNaN: true }),
				fc.double({ min: 0, max: 1, noNaN: true }),
				(q, c, at, s) => {
					const carried = carriedTo(
						carriableOf([steam(q, c)], at),
						at,
						along(s),
					).list[0].value;
					expect(carried).toBeCloseTo(q * (at / c) ** s, 6);
					const back = carriedTo(
						carriableOf([steam(carried, at)], c),
						c,
						along(s),
					).list[0].value;
					expect(back).toBeCloseTo(q, 6);
				},
			),
		);
	});

	test("the errors of uptake and residue are carried together, by hand", () => {
		// q* = q (C*/C)^s: dq* = (C*/C)^s (dq - s q dC/C); here independent, 3 mg/g and 10 mg/L.
		const carried = carriedTo(
			carriableOf([steam(200, 500, { reading: 3, residueReading: 10 })], 1000),
			1000,
			along(0.5),
		);
		const factor = Math.SQRT2;
		const byHand = factor * Math.hypot(3, (0.5 * 200 * 10) / 500);
		expect(Math.sqrt(carried.errors.ownVariance[0])).toBeCloseTo(byHand, 9);
		expect(drawnFlasks(carried)[0].uncertainty).toBeCloseTo(byHand, 9);
	});

	test("an error of the titre that moves uptake and residue against each other adds up", () => {
		const plain = carriableOf([steam(200, 500)], 1000);
		// 3 mg/g less taken up where 10 mg/L more is left
		const own = [
			{
				input: { scope: "reading", degreesOfFreedom: Number.POSITIVE_INFINITY },
				at: 0,
				first: -3,
				second: 10,
			},
		] as unknown as typeof plain.errors.own;
		const carried = carriedTo(
			{ ...plain, errors: { own, shared: [] } },
			1000,
			along(0.5),
		);
		expect(Math.sqrt(carried.errors.ownVariance[0])).toBeCloseTo(
			Math.SQRT2 * (3 + (0.5 * 200 * 10) / 500),
			9,
		);
	});

	test("a bound is not raised by carrying: at least holds above its residue, at most below, else the steepest slope", () => {
		const bound = (is: "at least" | "at most", c: number, at: number) =>
			carriedTo(carriableOf([steam(100, c, { is })], at), at, along(0.3, 0.6))
				.list[0].value;
		expect(bound("at least", 500, 1000)).toBe(100);
		expect(bound("at least", 1000, 500)).toBeCloseTo(100 * 0.5 ** 0.6, 9);
		expect(bound("at most", 1000, 500)).toBe(100);
		expect(bound("at most", 500, 1000)).toBeCloseTo(100 * 2 ** 0.6, 9);
	});

	test("beyond the edge another slope may be taken", () => {
		const taken = new Map([
			[
				"steam",
				{
					slope: { is: "range", low: 0, high: 1 } as Slope,
					near: 0.5,
					beyond: 0.1,
				},
			],
		]);
		const [o] = carriedTo(
			carriableOf([steam(100, 400)], 1600),
			1600,
			taken,
			800,
		).list;
		expect(o.value).toBeCloseTo(100 * 2 ** 0.5 * 2 ** 0.1, 9);
	});

	test("a residue is read well enough up to a quarter of itself", () => {
		expect(readWell(steam(100, 400, { residueReading: 99 }))).toBe(true);
		expect(readWell(steam(100, 400, { residueReading: 100 }))).toBe(true);
		expect(readWell(steam(100, 400, { residueReading: 101 }))).toBe(false);
		expect(readWell(steam(100, 0))).toBe(false);
		expect(readWell(steam(100, -1))).toBe(false);
		expect(readWell(steam(100, 400, { is: "at most" }))).toBe(false);
		const { residue, ...rest } = steam(100, 400);
		const unread = { ...residue, is: "at least", because: "" } as const;
		expect(readWell({ ...rest, residue: unread })).toBe(false);
	});

	test("a flask with a badly read residue says on which side of its uptake the char lies, by the side of its residue", () => {
		const sideOf = (at: number, more = {}) =>
			carriableOf([steam(100, 400, { residueReading: 200, ...more })], at)
				.list[0].side;
		expect(sideOf(401)).toBe("at least");
		expect(sideOf(400)).toBe("at least");
		expect(sideOf(399)).toBe("at most");
		expect(sideOf(401, { residueReading: 10 })).toBe("value");
		expect(sideOf(401, { is: "at most" })).toBe("at most");
		expect(sideOf(399, { is: "at least" })).toBe("at least");
	});

	test("a dose counts per gram of char", () => {
		const light = { ...steam(100, 400, { dose: 60 }) };
		const half = { ...light, charMass: scaled(light.charMass, 0.5) };
		expect(carriableOf([light, half], 400).list.map((f) => f.dose)).toEqual([
			60, 120,
		]);
	});
});

describe("carrying along a measured slope", () => {
	const measured = (value: number, standardUncertainty = 0.1) => {
		const slope: Slope = {
			is: "measured",
			value,
			standardUncertainty,
			degreesOfFreedom: 5,
			// Half of the mean of the two flasks of steam
			response: Float64Array.of(0.25, 0.25, 0),
			withinSoaks: true,
		};
		return new Map([["steam", { slope, near: value, beyond: value }]]);
	};
	const water = {
		slope: { is: "range", low: 0, high: 1 } as Slope,
		near: 0,
		beyond: 0,
	};
	const three = (shared: readonly number[]) =>
		carriedTo(
			carriableOf(
				flasks(
					[
						{ treatment: "steam", uptake: 100, residue: 500 },
						{ treatment: "steam", uptake: 200, residue: 4000 },
						{ treatment: "water", uptake: 50, residue: 500 },
					].map((f, i) => ({
						...f,
						flask: String(i),
						shared: { titrant: shared[i] },
					})),
				),
				1000,
			),
			1000,
			new Map([...measured(0.5), ["water", water]]),
		);

	test("its error moves every flask of its treatment by q* ln(C*/C), and no other", () => {
		const { slopes, list } = three([0, 0, 0]);
		expect(slopes).toHaveLength(1);
		expect(slopes[0]).toMatchObject({
			treatment: "steam",
			degreesOfFreedom: 5,
		});
		// q* = 100 sqrt(2) and 200 sqrt(1/4); 0.1 of a slope
		expect([...slopes[0].effect]).toEqual([
			expect.closeTo(10 * Math.SQRT2 * Math.log(2), 10),
			expect.closeTo(10 * Math.log(1 / 4), 10),
			0,
		]);
		expect(list.map((o) => o.value)).toEqual([
			expect.closeTo(100 * Math.SQRT2, 10),
			expect.closeTo(100, 10),
			50,
		]);
	});

	test("what a shared error does to the slope it does to all that is carried along it", () => {
		const [{ effect }] = three([1, 2, 3]).errors.shared;
		// Carried: sqrt(2) and 1 (2 times a half); a quarter of both moves the slope.
		const moved = (Math.SQRT2 + 1) / 4;
		expect([...effect]).toEqual([
			expect.closeTo(Math.SQRT2 + 100 * Math.SQRT2 * Math.log(2) * moved, 9),
			expect.closeTo(1 + 100 * Math.log(1 / 4) * moved, 9),
			expect.closeTo(3, 10),
		]);
	});

	test("a bound goes along two standard uncertainties more, and never along a curve that falls", () => {
		const bound = (value: number, c = 2000) =>
			carriedTo(
				carriableOf([steam(100, c, { is: "at least" })], 1000),
				1000,
				measured(value),
			).list[0].value;
		expect(bound(0.5)).toBeCloseTo(100 * 0.5 ** 0.7, 9);
		expect(bound(-0.3)).toBe(100);
		expect(bound(0.5, 1000)).toBe(100);
		expect(bound(0.5, 0)).toBe(100);
		expect(bound(0.5, -1)).toBe(100);
		const [atMost] = carriedTo(
			carriableOf([steam(100, 0, { is: "at most" })], 1000),
			1000,
			measured(0.5),
		).list;
		expect(atMost.value).toBe(100);
	});

	test("what the residue of a bound is known to adds nothing", () => {
		const bound = carriedTo(
			carriableOf(
				[
					steam(100, 2000, {
						is: "at most",
						reading: 3,
						residueReading: 10,
					}),
				],
				1000,
			),
			1000,
			measured(0.5),
		);
		expect(bound.list[0]).toMatchObject({ value: 100, side: "at most" });
		expect(bound.errors.ownVariance[0]).toBeCloseTo(9, 10);
		expect(bound.slopes[0].effect[0]).toBe(0);
	});
});

describe("a slope's middle and ends", () => {
	const range: Slope = { is: "range", low: 0.1, high: 0.5 };
	const measured: Slope = {
		is: "measured",
		value: 0.25,
		standardUncertainty: 0.01,
		degreesOfFreedom: 3,
		response: new Float64Array(1),
		withinSoaks: true,
	};
	test("of a range its middle and both ends, of a measured one its value", () => {
		expect(middleOf(range)).toBeCloseTo(0.3, 12);
		expect(endsOf(range)).toEqual([0.1, 0.5]);
		expect(middleOf(measured)).toBe(0.25);
		expect(endsOf(measured)).toEqual([0.25]);
	});
	test("in the middle it is taken near and beyond alike", () => {
		const taken = atMiddle(new Map([["steam", range]]));
		expect([...taken]).toEqual([
			[
				"steam",
				{
					slope: range,
					near: expect.closeTo(0.3, 12),
					beyond: expect.closeTo(0.3, 12),
				},
			],
		]);
	});
});

describe("the slope", () => {
	test("of iodine lies mostly between 0.1 and 0.5, of a dye that is strongly held below 0.25", () => {
		expect(typicalSlopes("iodine")).toEqual({ low: 0.1, high: 0.5 });
		expect(typicalSlopes("methylene blue")).toEqual({ low: 0, high: 0.25 });
	});

	test("may be as steep as a dye's where any flask was dosed with one", () => {
		const { high } = slopeRange(
			carriableOf(
				[steam(100, 400), { ...steam(100, 400), probe: "methylene blue" }],
				400,
			).list,
		);
		expect(high).toBe(1);
	});

	test("not measured: 0 to 0.6 for iodine, to 1 where under a tenth is left", () => {
		const range = (left: number) =>
			slopeRange(
				carriableOf(
					[
						{
							...steam(100, 400),
							balance: {
								...steam(100, 400).balance,
								left: steam(1, 1, { dose: 2 * left }).balance.left,
								added: steam(1, 1, { dose: 100 }).balance.added,
							},
						},
					],
					400,
				).list,
			);
		expect(range(10.1).high).toBe(0.6);
		expect(range(9.9).high).toBe(1);
		expect(range(50).low).toBe(0);
		const dye = { ...steam(100, 400), probe: "methylene blue" };
		expect(slopeRange(carriableOf([dye], 400).list).high).toBe(1);
	});

	/** Soaks of two flasks on q = q* (C/1000)^s, whose doses differ by a factor. */
	const twoDoses = (s: number, apart: number, scatter = 1) => {
		const random = createRandom(`two doses ${s}`);
		return flasks(
			[0, 1, 2, 3].flatMap((soak) => {
				const level = 300 + 5 * random.normal();
				return [500, 1600].map((residue, i) => ({
					flask: `${soak}${i}`,
					treatment: "steam",
					soak: String(soak),
					dose: i === 0 ? 400 : 400 * apart,
					residue,
					uptake: level * (residue / 1000) ** s + scatter * random.normal(),
				}));
			}),
		);
	};

	test("measured from doses that differ by 1.5 times within soaks, and not below", () => {
		expect(slopeOf(twoDoses(0.25, 1.49), 1000).is).toBe("range");
		const slope = slopeOf(twoDoses(0.25, 1.5), 1000);
		if (slope.is !== "measured") throw new Error(slope.is);
		expect(Math.abs(slope.value - 0.25)).toBeLessThan(
			4 * slope.standardUncertainty,
		);
		expect(slope.standardUncertainty).toBeLessThan(0.02);
		expect(slope.degreesOfFreedom).toBe(8 - 4 - 1);
		expect(slope.withinSoaks).toBe(true);
	});

	test("measured between soaks of different doses, one of their degrees of freedom used up; and not where the doses are one", () => {
		const soaks = (apart: number): Slope => {
			const random = createRandom("doses between soaks");
			return slopeOf(
				flasks(
					[0, 1, 2, 3, 4, 5].map((i) => {
						const residue = i % 2 === 0 ? 500 : 1600;
						return {
							flask: String(i),
							treatment: "steam",
							soak: String(i),
							dose: i % 2 === 0 ? 400 : 400 * apart,
							residue,
							uptake: 300 * (residue / 1000) ** 0.25 + random.normal(),
						};
					}),
				),
				1000,
			);
		};
		const slope = soaks(1.6);
		if (slope.is !== "measured") throw new Error(slope.is);
		expect(Math.abs(slope.value - 0.25)).toBeLessThan(
			4 * slope.standardUncertainty,
		);
		expect(slope.degreesOfFreedom).toBe(6 - 1 - 1);
		expect(slope.withinSoaks).toBe(false);
		expect(soaks(1.4).is).toBe("range");
	});

	test("a slope known no better than the range is not used", () => {
		expect(slopeOf(twoDoses(0.25, 1.5, 150), 1000).is).toBe("range");
	});

	test("the scatter of residues at one dose gives no slope", () => {
		// At one dose what is taken up is not left: residue falls as uptake rises, which looks like a falling curve.
		const random = createRandom("one dose");
		const one = flasks(
			[0, 1, 2, 3, 4, 5].map((i) => {
				const uptake = 300 + 20 * random.normal();
				return {
					flask: String(i),
					treatment: "steam",
					soak: String(i % 3),
					dose: 400 * (1 + 0.02 * random.normal()),
					uptake,
					residue: 1000 - 5 * (uptake - 300),
				};
			}),
		);
		expect(slopeOf(one, 1000).is).toBe("range");
	});
});

describe("the residue of a comparison where none was stated", () => {
	test("the geometric middle of the treatments, each counting once, in two digits", () => {
		const uptakes = flasks([
			...group("water", "", [100, 100, 100], { residue: 400 }),
			...group("steam", "water", [100], { residue: 100 }),
		]);
		expect(commonResidue(uptakes)).toBe(200);
		expect(
			commonResidue(flasks(group("water", "", [100], { residue: 1234 }))),
		).toBe(1200);
	});

	test("of bounds alone: the largest limit", () => {
		expect(
			commonResidue(
				flasks(group("w", "", [100], { is: "at least", residue: 8 })),
			),
		).toBe(8);
	});
});
