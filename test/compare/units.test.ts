import { describe, expect, test } from "vitest";
import { marginOf } from "../../kernel-lib/compare";
import {
	compareTreatments,
	type FlaskFixture,
	flasks,
	group,
	verdictOf,
} from "./fixtures";

const margin = marginOf(25);

function run(
	fixtures: readonly FlaskFixture[],
): ReturnType<typeof compareTreatments> {
	return compareTreatments(flasks(fixtures), { margin });
}

/** JSON writes null for NaN and Infinity. */
function expectPlain(c: ReturnType<typeof compareTreatments>): void {
	const {
		margin: _,
		trial: _trial,
		flasks: _flasks,
		compared: _compared,
		at: _at,
		...rest
	} = c;
	expect(JSON.stringify(rest)).not.toMatch(/null|NaN|Infinity|undefined/);
}

describe("what counts as a unit", () => {
	test("soaks, where several were made: flasks of a soak are averaged and count once", () => {
		const two = (treatment: string, control: string, means: number[]) =>
			means.flatMap((m, s) =>
				[-1, 1].map((d) => ({
					flask: `${treatment}${s}${d}`,
					treatment,
					control,
					soak: `s${s}`,
					uptake: m + d,
				})),
			);
		const c = run([
			...two("water", "", [100, 110, 120]),
			...two("potash", "water", [200, 210, 220]),
		]);
		expect(c.scope).toBe("treatment");
		expect(c.degreesOfFreedom).toBe(4);
		expect(c.pooledDeviation).toBeCloseTo(10, 10);
		expect(c.groups.map((g) => [g.units, g.flasks])).toEqual([
			[3, 6],
			[3, 6],
		]);
		expect(verdictOf(c, "potash").sentence).toMatch(
			/^"potash": at 300 mg\/L iodine left, higher than its control by 100 mg\/g/,
		);
	});

	test("one soak a treatment: the flasks, about these lots, and it says so", () => {
		const c = run([
			...group("water", "", [100, 101, 99], { soak: "1" }),
			...group("potash", "water", [200, 202, 198], { soak: "1" }),
		]);
		expect(c.scope).toBe("these lots");
		expect(c.degreesOfFreedom).toBe(4);
		const v = verdictOf(c, "potash");
		expect(v.word).toBe("higher");
		expect(v.sentence).toBe(
			'"potash": in these lots, at 300 mg/L iodine left, higher than its control by 100.0 mg/g (95 % interval 95.8 to 104.2), more than the 25 mg/g that would matter. The treatment was made once, so that nothing is said about making it again.',
		);
		expect(v.reasons.join(" ")).toContain(
			"flasks of one soak are not replicates of the treatment",
		);
		expect(c.methodSaid.join(" ")).toContain("these lots");
	});

	test("soaks not recorded: these lots", () => {
		const c = run([
			...group("water", "", [100, 101, 99], { soak: "" }),
			...group("potash", "water", [200, 202, 198], { soak: "" }),
		]);
		expect(c.scope).toBe("these lots");
		expect(c.methodSaid.join(" ")).toContain("soaks are not recorded");
	});

	test("a treatment with a single soak borrows the spread and says so", () => {
		const c = run([
			...group("water", "", [100, 110, 120]),
			...group("potash", "water", [200]),
			...group("soda", "water", [100, 104, 111]),
		]);
		expect(c.scope).toBe("treatment");
		expect(verdictOf(c, "potash").reasons).toContain(
			'"potash" has a single soak: its spread is borrowed from the treatments with several.',
		);
		expect(verdictOf(c, "soda").reasons.join(" ")).not.toContain("borrowed");
	});

	test("flasks without a recorded soak are one soak of their treatment, beside recorded ones", () => {
		const c = run([
			...group("water", "", [100, 110, 120, 130], { soak: "" }),
			...group("potash", "water", [200, 210, 220]),
		]);
		expect(c.scope).toBe("treatment");
		expect(c.groups[0].units).toBe(1);
		expect(c.degreesOfFreedom).toBe(2);
		expect(c.methodSaid.join(" ")).toContain("No soak is recorded for flasks");
	});

	test("one flask each: only the measuring error, own and shared, with the normal distribution", () => {
		const c = run([
			...group("water", "", [100], { reading: 3, shared: { titrant: 1 } }),
			...group("potash", "water", [160], {
				reading: 4,
				shared: { titrant: 1.6 },
			}),
		]);
		expect(c.scope).toBe("measuring error only");
		expect(c.degreesOfFreedom).toBe(0);
		const v = verdictOf(c, "potash");
		expect(v.word).toBe("higher");
		expect(v.sentence).toBe(
			'"potash": at 300 mg/L iodine left, higher than measuring error explains, against its control by 60.0 mg/g (95 % interval of the measuring error 50.1 to 69.9), more than the 25 mg/g that would matter. Nothing is said about the treatment, for its spread was not seen.',
		);
		if (v.difference.is !== "estimate") throw new Error(v.difference.is);
		expect(v.difference.standardError).toBeCloseTo(
			Math.sqrt(3 ** 2 + 4 ** 2 + 0.6 ** 2),
			10,
		);
		// two-sided 95 % point of the normal distribution
		expect(v.difference.high - v.difference.estimate).toBeCloseTo(
			1.959963985 * v.difference.standardError,
			6,
		);
		expectPlain(c);
	});

	test("several firings of one batch: the verdict names the batch; different batches are said aloud", () => {
		const one = run([
			...group("water", "", [100, 102, 98], { batch: "A" }),
			...group("fired", "water", [200, 202, 198], { batch: "A" }),
		]);
		expect(verdictOf(one, "fired").sentence).toMatch(
			/This is about char batch "A"\. With 3 soaks against 3/,
		);
		const apart = run([
			...group("water", "", [100, 102, 98], { batch: "A" }),
			...group("fired", "water", [200, 202, 198], { batch: "B" }),
		]);
		expect(verdictOf(apart, "fired").word).toBe("cannot tell");
		expect(verdictOf(apart, "fired").sentence).toContain(
			'cannot tell: all of the control is batch "A", all of the treated batch "B"',
		);
		expect(verdictOf(apart, "fired").reasons.join(" ")).toContain(
			'different batches ("B" against "A")',
		);
		const shared = run([
			...group("water", "", [100, 102, 98], { batch: "A" }),
			...group("fired", "water", [200, 202], { batch: "B" }),
			...group("fired", "water", [198], { batch: "A" }).map((f) => ({
				...f,
				flask: "fired9",
				soak: "9",
			})),
		]);
		expect(verdictOf(shared, "fired").word).toBe("higher");
	});
});

describe("scatter and shared errors", () => {
	const base = [
		...group("water", "", [90, 100, 110]),
		...group("potash", "water", [190, 200, 210]),
	];
	const standardError = (fixtures: readonly FlaskFixture[]): number => {
		const d = verdictOf(run(fixtures), "potash").difference;
		if (d.is !== "estimate") throw new Error(d.is);
		return d.standardError;
	};
	const scatter = Math.sqrt(100 * (2 / 3));

	test("reading errors are in the scatter already and are not added again", () => {
		expect(standardError(base.map((f) => ({ ...f, reading: 6 })))).toBeCloseTo(
			scatter,
			10,
		);
	});

	test("what moves treated and control alike cancels; what moves one of them is added once", () => {
		expect(
			standardError(base.map((f) => ({ ...f, shared: { titrant: 7 } }))),
		).toBeCloseTo(scatter, 10);
		expect(
			standardError(
				base.map((f) => ({
					...f,
					shared: { titrant: f.treatment === "potash" ? 7 : 2 },
				})),
			),
		).toBeCloseTo(Math.hypot(scatter, 5), 10);
	});

	test("a blank of one day touches the flasks of that day only", () => {
		const effect = (f: FlaskFixture, i: number): FlaskFixture => ({
			...f,
			shared: f.treatment === "potash" && i % 3 === 0 ? { blank: 6 } : {},
		});
		expect(standardError(base.map(effect))).toBeCloseTo(
			Math.hypot(scatter, 2),
			10,
		);
	});

	test("degrees of freedom by Welch and Satterthwaite, each difference with its own", () => {
		const c = run(
			base.map((f) => ({
				...f,
				shared: { titrant: f.treatment === "potash" ? 7 : 2 },
			})),
		);
		const d = verdictOf(c, "potash").difference;
		if (d.is !== "estimate") throw new Error(d.is);
		expect(d.degreesOfFreedom).toBeCloseTo(
			(200 / 3 + 25) ** 2 / ((200 / 3) ** 2 / 4),
			8,
		);
		const two = run([
			...base.map((f) => ({
				...f,
				shared: { titrant: f.treatment === "potash" ? 7 : 2 },
			})),
			...group("soda", "water", [100, 110, 120], { shared: { titrant: 2 } }),
		]);
		const joint = verdictOf(two, "potash").difference;
		if (joint.is !== "estimate") throw new Error(joint.is);
		// Three treatments of three soaks and equal spread: each variance is a third pooled, so that the two of a pair count 8/27 and the third 2/27 of it.
		const scatterDegrees =
			(2 / 3) ** 2 / ((2 * (8 / 27) ** 2 + (2 / 27) ** 2) / 2);
		expect(joint.degreesOfFreedom).toBeCloseTo(
			(200 / 3 + 25) ** 2 / ((200 / 3) ** 2 / scatterDegrees),
			8,
		);
	});

	test("units that agree better than their readings allow get the reading errors for a spread", () => {
		const c = run([
			...group("water", "", [100, 100, 100], { reading: 3 }),
			...group("potash", "water", [110, 110, 110], { reading: 3 }),
		]);
		expect(c.pooledDeviation).toBeCloseTo(3, 10);
		expect(c.methodSaid.join(" ")).toContain("reading errors were taken");
	});
});

describe("whatever is missing gets words, not exceptions", () => {
	test("identical values without any error: nothing to judge by", () => {
		const c = run([
			...group("water", "", [100, 100]),
			...group("potash", "water", [110, 110]),
		]);
		const v = verdictOf(c, "potash");
		expect(v.word).toBe("cannot tell");
		expect(v.sentence).toContain("there is nothing to judge the difference by");
		expectPlain(c);
	});

	test("one group only, or no control named", () => {
		const c = run(group("potash", "", [100, 110, 120]));
		expect(verdictOf(c, "potash").sentence).toBe(
			'"potash": at 300 mg/L iodine left, cannot tell: there is no control to compare it with.',
		);
		const two = run([
			...group("potash", "", [100, 110, 120]),
			...group("soda", "", [100, 110, 120]),
		]);
		expect(two.verdicts.map((v) => v.word)).toEqual([
			"cannot tell",
			"cannot tell",
		]);
	});

	test("every flask ran dry", () => {
		const c = run([
			...group("water", "", [100, 101], { is: "at least", reading: 1 }),
			...group("potash", "water", [100, 101], { is: "at least", reading: 1 }),
		]);
		const v = verdictOf(c, "potash");
		expect(v.word).toBe("cannot tell");
		expect(v.sentence).toContain("bounds on both sides");
		expect(c.groups.map((g) => g.is)).toEqual(["at least", "at least"]);
		expectPlain(c);
	});

	test("several controls: each treatment against its own, a control may have one itself", () => {
		const c = run([
			...group("water", "", [100, 102, 98]),
			...group("fired", "water", [150, 152, 148]),
			...group("fired twice", "fired", [150, 153, 147]),
		]);
		expect(c.verdicts.map((v) => [v.treatment, v.control, v.word])).toEqual([
			["fired", "water", "higher"],
			["fired twice", "fired", "no difference that matters"],
		]);
	});

	test("what cannot be used at all is refused, all of it at once", () => {
		const broken = flasks([
			{ flask: "1", treatment: "", uptake: 1 },
			{ flask: "2", treatment: "potash", control: "watr", uptake: 1 },
			{ flask: "2", treatment: "soda", control: "soda", uptake: 1 },
			{ flask: "3", treatment: "ash", control: "potash", uptake: 1 },
			{ flask: "4", treatment: "ash", control: "soda", uptake: 1 },
		]);
		let message = "";
		try {
			compareTreatments(broken, { margin: marginOf(0) });
		} catch (error) {
			message = String(error);
		}
		expect(message).toContain("6 problems");
		for (const part of [
			"a margin of 0 mg/g",
			'no treatment for flask "1"',
			'the flask "2" more than once',
			'the control "watr"',
			'"soda" as its own control',
			'2 controls ("potash", "soda")',
		])
			expect(message).toContain(part);
		expect(() => compareTreatments([], { margin })).toThrow("no char flasks");
	});
});
