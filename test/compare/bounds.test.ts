import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { marginOf, residueOf } from "../../kernel-lib/compare";
import {
	compareTreatments,
	type FlaskFixture,
	flasks,
	group,
	type ToldVerdict,
	verdictOf,
} from "./fixtures";

const margin = marginOf(25);
const water = group("water", "", [96, 100, 104], { reading: 1 });

function treated(
	values: readonly number[],
	limits: readonly number[],
	is: "at least" | "at most",
): FlaskFixture[] {
	return [
		...group("T", "water", values, { reading: 1 }),
		...limits.map((uptake, i) => ({
			flask: `T-bound${i + 1}`,
			treatment: "T",
			control: "water",
			soak: `bound${i + 1}`,
			uptake,
			is,
			reading: 1,
			residue: is === "at least" ? 5 : 300,
		})),
	];
}

function compared(
	fixtures: readonly FlaskFixture[],
): ReturnType<typeof compareTreatments> {
	return compareTreatments(flasks(fixtures), { margin });
}

function verdict(fixtures: readonly FlaskFixture[]): ToldVerdict {
	return verdictOf(compared(fixtures), "T");
}

test("a bound whose flask contradicts itself gives neither a word nor a limit of the difference", () => {
	const dry = {
		is: "at least",
		reading: 1,
		contradiction: "It read below zero.",
	} as const;
	const judged = (more: Partial<typeof dry>) =>
		compareTreatments(
			flasks([
				...group("water", "", [50, 51, 52], { reading: 1 }),
				...group("steam", "water", [90, 91, 92], more),
			]),
			{ margin: marginOf(8) },
		).verdicts[0];
	expect(judged({ ...dry, contradiction: undefined }).word).toBe("higher");
	const v = judged(dry);
	expect(v.word).toBe("cannot tell");
	expect(v.difference.is).toBe("not available");
	expect(v.sentence).toContain("cannot all be right");
	expect(v.reasons.join()).toContain("of flask steam1: It read below zero.");
	expect(v.reasons.join()).not.toMatch(/difference is known|The interval/);
});

describe("a group with some bounds", () => {
	test("bound flasks stay out of the pooled spread", () => {
		const c = compared([
			...water,
			...treated([196, 200, 204], [150], "at least"),
		]);
		expect(c.degreesOfFreedom).toBe(4);
		expect(c.pooledDeviation).toBeCloseTo(4, 10);
		expect(c.groups[1].boundFlasks).toEqual(["T-bound1"]);
		// the mean holds the flask at its limit
		expect(c.groups[1].mean).toBeCloseTo(187.5, 10);
	});

	test("at least: higher, where it holds without the flask and with it at its limit", () => {
		const v = verdict([
			...water,
			...treated([196, 200, 204], [190], "at least"),
		]);
		expect(v.word).toBe("higher");
		expect(v.difference.is).toBe("at least");
		expect(v.sentence).toMatch(
			/^"T": at 300 mg\/L iodine left, higher than its control by at least \d+ mg\/g, more than the 25 mg\/g that would matter\. Flask T-bound1 gave only a bound\. With 3 soaks against 3 this rests in part on soaks of all treatments scattering alike\.$/,
		);
		// t of 0.975 with 4 degrees of freedom 2.776445; standard error 4 sqrt(2/3); mean with the limit 197.5; expanded uncertainty of a quarter of u = 1
		if (v.difference.is !== "at least") throw new Error(v.difference.is);
		expect(v.difference.limit).toBeCloseTo(
			97.5 - 2.776445 * 4 * Math.sqrt(2 / 3) - 2 * 0.25,
			5,
		);
	});

	test("at least: not higher where the limit alone would not carry it", () => {
		const v = verdict([
			...water,
			...treated([126, 130, 134], [20], "at least"),
		]);
		expect(v.word).toBe("cannot tell");
		expect(v.sentence).toBe(
			'"T": at 300 mg/L iodine left, cannot tell: flask T-bound1 gave only a bound.',
		);
		expect(v.replicates.is).toBe("not given");
	});

	test("a bound never shows no difference, nor the other side", () => {
		expect(
			verdict([...water, ...treated([98, 100, 103], [101], "at least")]).word,
		).toBe("cannot tell");
		expect(
			verdict([...water, ...treated([46, 50, 54], [50], "at least")]).word,
		).toBe("cannot tell");
	});

	test("at most: lower only; carried up along the steepest slope, which says least", () => {
		const low = (residue: number) =>
			verdict([
				...water,
				...treated([6, 10, 14], [8], "at most").map((f) => ({
					...f,
					residue,
				})),
			]);
		expect(low(300).word).toBe("lower");
		expect(low(300).difference.is).toBe("at most");
		// 8 mg/g at 150 mg/L is at most 8 × 2^0.6 at 300.
		const limit = compared([
			...water,
			...treated([], [8], "at most").map((f) => ({ ...f, residue: 150 })),
		]).groups[1];
		expect(limit.is).toBe("at most");
		expect(limit.mean).toBeCloseTo(8 * 2 ** 0.6, 9);
		expect(
			verdict([...water, ...treated([196, 200, 204], [198], "at most")]).word,
		).toBe("cannot tell");
	});

	test("bounds of the control: at least shows lower, at most shows higher", () => {
		const bound = (
			is: "at least" | "at most",
			uptake: number,
		): FlaskFixture => ({
			flask: "water-bound",
			treatment: "water",
			soak: "bound",
			uptake,
			is,
			reading: 1,
		});
		const up = group("T", "water", [196, 200, 204], { reading: 1 });
		const down = group("T", "water", [6, 10, 14], { reading: 1 });
		expect(verdict([...water, bound("at most", 104), ...up]).word).toBe(
			"higher",
		);
		expect(verdict([...water, bound("at least", 100), ...up]).word).toBe(
			"cannot tell",
		);
		expect(verdict([...water, bound("at least", 100), ...down]).word).toBe(
			"lower",
		);
		expect(verdict([...water, bound("at most", 104), ...down]).word).toBe(
			"cannot tell",
		);
	});

	test("bounds that pull both ways leave nothing", () => {
		const v = verdict([
			...water,
			{
				flask: "wb",
				treatment: "water",
				soak: "wb",
				uptake: 100,
				is: "at least",
				reading: 1,
			},
			...treated([196, 200, 204], [190], "at least"),
		]);
		expect(v.word).toBe("cannot tell");
		expect(v.difference.is).toBe("not available");
	});
});

describe("a group of bounds alone", () => {
	test("at least, above what the control can reach: higher", () => {
		const c = compared([...water, ...treated([], [150, 151, 152], "at least")]);
		const v = verdictOf(c, "T");
		expect(v.word).toBe("higher");
		expect(v.exceedsMargin).toBe(true);
		expect(c.groups[1].is).toBe("at least");
		if (v.difference.is !== "at least") throw new Error(v.difference.is);
		// t of 0.975 with 2 degrees of freedom 4.302653; spread borrowed from the control
		expect(v.difference.limit).toBeCloseTo(
			51 - 4.302653 * 4 * Math.sqrt(2 / 3) - 2 / Math.sqrt(3),
			5,
		);
	});

	test("flasks that share q = dose/mass do not make the spread tiny", () => {
		const v = verdict([
			...water,
			...treated([], [112, 112, 112, 112], "at least"),
		]);
		expect(v.word).toBe("cannot tell");
	});

	test("the limit itself: 40 between the readings, less 1.96-odd standard errors and twice u of the bound", () => {
		const v = verdict([
			{ flask: "1", treatment: "water", uptake: 100, reading: 2 },
			{
				flask: "2",
				treatment: "T",
				control: "water",
				uptake: 140,
				reading: 2,
				is: "at least",
				residue: 20,
			},
		]);
		if (v.difference.is !== "at least") throw new Error(v.difference.is);
		expect(v.difference.limit).toBeCloseTo(
			40 - 1.959963985 * Math.sqrt(8) - 4,
			6,
		);
	});

	test("the commonest small trial: one flask each, one of them dry", () => {
		const c = compared([
			{ flask: "1", treatment: "water", uptake: 100, reading: 2 },
			{
				flask: "2",
				treatment: "T",
				control: "water",
				uptake: 140,
				reading: 2,
				is: "at least",
				residue: 20,
			},
			{
				flask: "3",
				treatment: "U",
				control: "water",
				uptake: 130,
				reading: 2,
				residue: 100,
			},
		]);
		expect(c.scope).toBe("measuring error only");
		expect(c.verdicts.map((v) => v.word)).toEqual(["higher", "higher"]);
		expect(verdictOf(c, "T").sentence).toMatch(
			/^"T": at 300 mg\/L iodine left, higher than measuring error explains, against its control by at least 29\.7 mg\/g/,
		);
	});

	test("the dry control of a measured treatment: only lower", () => {
		const dry = group("water", "", [150, 151, 152], {
			is: "at least",
			reading: 1,
			residue: 5,
		});
		expect(
			verdict([...dry, ...group("T", "water", [96, 100, 104], { reading: 1 })])
				.word,
		).toBe("lower");
		expect(
			verdict([...dry, ...group("T", "water", [196, 200, 204], { reading: 1 })])
				.word,
		).toBe("cannot tell");
	});

	test("nothing taken up by the control, everything by the treated", () => {
		expect(
			verdict([
				...group("water", "", [5, 6], { is: "at most", reading: 1 }),
				...treated([], [150, 151], "at least"),
			]).word,
		).toBe("higher");
	});

	test("day effects are taken from the flasks that gave values", () => {
		const byDay = (f: FlaskFixture, i: number): FlaskFixture => ({
			...f,
			day: i % 2 ? "2" : "1",
		});
		const values = [
			...group("water", "", [98, 198, 102, 202], { reading: 1 }).map(byDay),
			...group("U", "water", [99, 197, 101, 203], { reading: 1 }).map(byDay),
		];
		// on day 2 everything reads 100 higher: a limit of 180 on that day is below the control of that day
		const bounds = (day: string): FlaskFixture[] =>
			["T1", "T2"].map((name) => ({
				flask: name,
				treatment: "T",
				control: "water",
				soak: name,
				day,
				uptake: 180,
				is: "at least" as const,
				reading: 1,
				residue: 5,
			}));
		expect(verdict([...values, ...bounds("1")]).word).toBe("higher");
		expect(verdict([...values, ...bounds("2")]).word).toBe("cannot tell");
		expect(verdict([...values, ...bounds("3")]).sentence).toContain(
			"treatment and day cannot be distinguished",
		);
	});
});

test("a dry flask whose soak may consume iodine bounds nothing of the char", () => {
	const suspected = {
		is: "suspected",
		looksLike: "more uptake",
		because: "the sheet says that the soak consumes iodine",
	} as const;
	const soak = (name: string, uptake: number, is: "value" | "at least") => ({
		flask: name,
		treatment: "potash",
		control: "control",
		soak: name,
		uptake,
		is,
		demand: suspected,
	});
	const comparison = compareTreatments(
		flasks([
			...group("control", "", [300, 302, 298, 301]),
			soak("a", 400, "value"),
			soak("b", 402, "value"),
			soak("c", 350, "at least"),
		]),
		{ margin: marginOf(25) },
	);
	const verdict = verdictOf(comparison, "potash");
	expect(verdict.word).toBe("cannot tell");
	expect(verdict.difference.is).toBe("not available");
	expect(verdict.reasons.join(" ")).toMatch(/not known even as a bound/);
});

describe("one more flask that runs dry", () => {
	const options = {
		margin,
		residue: residueOf(60),
		slopes: { low: 0.2, high: 0.2 },
	};
	/** The known lower end of the difference. */
	const lowEnd = (fixtures: readonly FlaskFixture[]): number => {
		const { difference } = verdictOf(
			compareTreatments(flasks(fixtures), options),
			"T",
		);
		switch (difference.is) {
			case "estimate":
				return difference.low;
			case "at least":
				return difference.limit;
			default:
				throw new Error(difference.is);
		}
	};
	const near = { reading: 1, residue: 60, residueReading: 2 } as const;
	const control = group("water", "", [96, 100, 104], near);
	const others = group("T", "water", [196, 200, 204], near);
	const last = (residue: number, change: Partial<FlaskFixture> = {}) => ({
		...near,
		flask: "T9",
		treatment: "T",
		control: "water",
		soak: "T9",
		// The same char with a smaller dose.
		uptake: 200 * (residue / 60) ** 0.2,
		residue,
		...change,
	});

	test("is no cliff: the lower end falls by the flask's share of what carrying had added to it, and little more", () => {
		// A residue known to 2 mg/L is a value down to 8 mg/L.
		const ends = [12, 10, 8.01, 7.99, 6, 4, 2].map((residue) =>
			lowEnd([...control, ...others, last(residue)]),
		);
		const falls = ends.slice(1).map((end, i) => ends[i] - end);
		const added = 200 - 200 * (8 / 60) ** 0.2;
		expect(falls[2]).toBeGreaterThan(0);
		expect(falls[2]).toBeLessThan(added / 4 + 4);
		for (const fall of falls)
			expect(Math.abs(fall)).toBeLessThan(added / 4 + 4);
	});

	test("never raises the lower end that is known without it", () => {
		fc.assert(
			fc.property(
				fc.double({ min: 0, max: 400, noNaN: true }),
				fc.double({ min: 1, max: 7, noNaN: true }),
				(uptake, residue) => {
					const dry = last(residue, { uptake, is: "at least" });
					expect(lowEnd([...control, ...others, dry])).toBeLessThanOrEqual(
						lowEnd([...control, ...others]) + 1e-9,
					);
				},
			),
			{ numRuns: 20 },
		);
	});
});
