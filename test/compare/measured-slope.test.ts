/** The slope from doses that differ by design, with its error, by hand. */
import { describe, expect, test } from "vitest";
import { carriableOf } from "../../kernel-lib/compare/carriable";
import { slopesOf } from "../../kernel-lib/compare/measured-slope";
import { scaled } from "../../kernel-lib/quantity";
import { type FlaskFixture, flasks } from "./fixtures";

/** t of 0.975 with 2 and 4 degrees of freedom (tables). */
const t2 = 4.302653;
const t4 = 2.776445;

/**
 * Three soaks of two doses. The small dose leaves each flask at 1000 mg/L, where the comparison is, so that it stays as it is; the large one at e times that, so that its uptake is divided by exp(s). The
 * uptakes of the large dose are such that s = 0.25 brings them to 100 + d, 100 and 100 - d, and those of the small one to 100.
 */
const twoDoses = (
	d: number,
	treatment = "steam",
	s = 0.25,
	soaks = [d, 0, -d],
): FlaskFixture[] =>
	soaks.flatMap((off, soak) => [
		{
			flask: `${treatment}${soak}a`,
			treatment,
			soak: String(soak),
			dose: 400,
			residue: 1000,
			uptake: 100,
		},
		{
			flask: `${treatment}${soak}b`,
			treatment,
			soak: String(soak),
			dose: 800,
			residue: 1000 * Math.E,
			uptake: (100 + off) * Math.exp(s),
		},
	]);

function slopes(
	fixtures: readonly FlaskFixture[],
	unmeasured?: Parameters<typeof slopesOf>[3],
) {
	return slopesOf(carriableOf(flasks(fixtures), 1000), 1000, 0.95, unmeasured);
}
function measured(fixtures: readonly FlaskFixture[], treatment = "steam") {
	const slope = slopes(fixtures).get(treatment);
	if (slope?.is !== "measured") throw new Error(slope?.is);
	return slope;
}
const isOf = (fixtures: readonly FlaskFixture[]) =>
	slopes(fixtures).get("steam")?.is;

describe("doses that differ within soaks", () => {
	test("the slope at which carried uptakes do not go with the dose; its error from what is left between the doses of each soak", () => {
		const slope = measured(twoDoses(6));
		expect(slope.value).toBeCloseTo(0.25, 10);
		// Left: 6²/2 twice, over 6 flasks less 3 soaks less the slope: 18; the three large doses pull with 100 each.
		expect(slope.degreesOfFreedom).toBe(2);
		expect(slope.standardUncertainty).toBeCloseTo(Math.sqrt(18 * 6) / 300, 10);
		expect(slope.withinSoaks).toBe(true);
		// One mg/g more in all the large doses moves exp(s) by 1/100 of itself, a third of it each.
		expect([...slope.response]).toEqual(
			[-1, 1, -1, 1, -1, 1].map((sign) => expect.closeTo(sign / 300, 10)),
		);
	});

	test("flasks that left less than the residue of the comparison likewise", () => {
		const below = twoDoses(6).map((f) => ({
			...f,
			residue: (f.residue as number) / Math.E,
			uptake: f.uptake * Math.exp(-0.25),
		}));
		expect(measured(below).value).toBeCloseTo(0.25, 10);
	});

	test("a soak of one dose says nothing of the slope, whatever its dose", () => {
		const single: FlaskFixture = {
			flask: "x",
			treatment: "steam",
			soak: "single",
			dose: 3200,
			residue: 9000,
			uptake: 900,
		};
		const slope = measured([single, ...twoDoses(6)]);
		expect(slope.value).toBeCloseTo(0.25, 10);
		expect(slope.degreesOfFreedom).toBe(2);
		expect(slope.standardUncertainty).toBeCloseTo(Math.sqrt(18 * 6) / 300, 10);
		expect(slope.response[0]).toBe(0);
	});

	test("a treatment without a degree of freedom of its own has no slope; with one each, two treatments have two", () => {
		const smoke = (...soaks: number[]) => twoDoses(0, "smoke", 0.25, soaks);
		const found = slopes([...twoDoses(6), ...smoke(0)]);
		expect(found.get("steam")?.is).toBe("measured");
		expect(found.get("smoke")?.is).toBe("range");
		const both = [...twoDoses(0, "steam", 0.25, [3, -3]), ...smoke(3, -3)];
		expect(measured(both).degreesOfFreedom).toBe(2);
		expect(measured(both, "smoke").degreesOfFreedom).toBe(2);
	});

	test("not with one degree of freedom", () => {
		expect(isOf(twoDoses(0.01, "steam", 0.25, [0.01, -0.01]))).toBe("range");
		expect(isOf(twoDoses(0.01))).toBe("measured");
	});

	test("known no better than the range, from flat to 0.6, it is not used", () => {
		// d²/2 in all, sqrt(6 d²/2)/300 times t on each side
		const limit = (0.3 / t2) * (300 / Math.sqrt(3));
		expect(isOf(twoDoses(limit * 0.99))).toBe("measured");
		expect(isOf(twoDoses(limit * 1.01))).toBe("range");
	});

	test("the scatter is that of all treatments so dosed, each with a slope of its own", () => {
		const both = [
			...twoDoses(6),
			...twoDoses(12, "smoke", 0.4),
			...betweenSoaks(1000),
		];
		const [steam, smoke] = ["steam", "smoke"].map((t) => measured(both, t));
		expect(steam.value).toBeCloseTo(0.25, 10);
		expect(smoke.value).toBeCloseTo(0.4, 10);
		// (36 + 144)/4
		for (const slope of [steam, smoke]) {
			expect(slope.degreesOfFreedom).toBe(4);
			expect(slope.standardUncertainty).toBeCloseTo(
				Math.sqrt(45 * 6) / 300,
				10,
			);
		}
		expect([...steam.response].slice(6).every((r) => r === 0)).toBe(true);
		expect([...smoke.response].slice(0, 6).every((r) => r === 0)).toBe(true);
	});

	test("flasks that gave a bound have no say", () => {
		const bound: FlaskFixture = {
			flask: "x",
			treatment: "steam",
			soak: "0",
			dose: 1600,
			residue: 8000,
			uptake: 500,
			is: "at least",
		};
		expect(measured([...twoDoses(6), bound]).value).toBeCloseTo(0.25, 10);
	});

	test("from flat to steep; none where uptakes fall or rise faster than any curve", () => {
		expect(measured(twoDoses(6, "steam", -1)).value).toBeCloseTo(-1, 9);
		expect(measured(twoDoses(6, "steam", 2)).value).toBeCloseTo(2, 9);
		expect(isOf(twoDoses(6, "steam", -3.1))).toBe("range");
		expect(isOf(twoDoses(6, "steam", 4.1))).toBe("range");
	});

	test("doses that differ by less than half are no design", () => {
		const dosed = (large: number) =>
			isOf(
				twoDoses(6).map((f) => (f.dose === 800 ? { ...f, dose: large } : f)),
			);
		expect(dosed(600)).toBe("measured");
		expect(dosed(599)).toBe("range");
	});
});

/** Four soaks, two of each dose, whose flasks come to 100 + d and 100 - d. */
function betweenSoaks(d: number, flasksOfSoak = 1): FlaskFixture[] {
	return [d, -d, d, -d].flatMap((off, soak) =>
		Array.from({ length: flasksOfSoak }, (_, i): FlaskFixture => {
			const large = soak > 1;
			// Flasks of a soak lie about its mean; soaks are what counts.
			const uptake = 100 + off + (i - (flasksOfSoak - 1) / 2);
			return {
				flask: `between${soak}${i}`,
				treatment: "air",
				soak: String(soak),
				dose: large ? 800 : 400,
				residue: large ? 1000 * Math.E : 1000,
				uptake: large ? uptake * Math.exp(0.25) : uptake,
			};
		}),
	);
}

describe("doses that differ between soaks", () => {
	test("soaks count once; the error is what is left between soaks of one treatment", () => {
		const slope = measured(betweenSoaks(3, 2), "air");
		expect(slope.value).toBeCloseTo(0.25, 10);
		expect(slope.withinSoaks).toBe(false);
		// 4 soaks, one mean, one slope: 4 times 9 over 2; two large doses pull with 100 each, half of their distance from the mean.
		expect(slope.degreesOfFreedom).toBe(2);
		expect(slope.standardUncertainty).toBeCloseTo(Math.sqrt(18 * 4) / 200, 10);
		expect([...slope.response].map((r) => r * 400)).toEqual(
			[-1, -1, -1, -1, 1, 1, 1, 1].map((sign) => expect.closeTo(sign, 9)),
		);
	});

	test("their scatter is not that of doses within soaks", () => {
		const both = [...betweenSoaks(3), ...twoDoses(6)];
		expect(measured(both, "air").degreesOfFreedom).toBe(2);
		expect(measured(both).degreesOfFreedom).toBe(2);
		expect(measured(both, "air").standardUncertainty).toBeCloseTo(
			Math.sqrt(18 * 4) / 200,
			10,
		);
	});
});

describe("where no slope was measured", () => {
	const one: FlaskFixture[] = twoDoses(6).map((f) => ({ ...f, dose: 400 }));
	test("the range of the probe, or the one that is asked for", () => {
		expect(slopes(one).get("steam")).toEqual({
			is: "range",
			low: 0,
			high: 0.6,
		});
		expect(slopes(one, { low: 0.1, high: 0.5 }).get("steam")).toEqual({
			is: "range",
			low: 0.1,
			high: 0.5,
		});
		expect(slopes(twoDoses(100), { low: 0.1, high: 0.5 }).get("steam")).toEqual(
			{ is: "range", low: 0.1, high: 0.5 },
		);
	});
	test("a measured slope is used whatever range is asked for", () => {
		expect(slopes(twoDoses(6), { low: 0.1, high: 0.11 }).get("steam")?.is).toBe(
			"measured",
		);
	});
	test("the range goes by the treatment's own flasks: to 1 where little is left", () => {
		const list = flasks([
			...one,
			...one.map((f) => ({ ...f, treatment: "water" })),
		]);
		const little = list.map((u) =>
			u.flask.treatment === "water"
				? {
						...u,
						balance: { ...u.balance, left: scaled(u.balance.left, 0.1) },
					}
				: u,
		);
		const found = slopesOf(carriableOf(little, 1000), 1000, 0.95);
		expect(found.get("steam")).toMatchObject({ high: 0.6 });
		expect(found.get("water")).toMatchObject({ high: 1 });
	});
	test("each treatment by itself", () => {
		const found = slopes([
			...twoDoses(6),
			...one.map((f) => ({ ...f, treatment: "water" })),
		]);
		expect([...found].map(([t, s]) => [t, s.is])).toEqual([
			["steam", "measured"],
			["water", "range"],
		]);
	});
	test("four degrees of freedom let a wilder scatter do", () => {
		const limit = (0.3 / t4) * (300 / Math.sqrt(3));
		const two = (d: number) => [...twoDoses(d), ...twoDoses(d, "smoke")];
		expect(isOf(two(limit * 0.99))).toBe("measured");
		expect(isOf(two(limit * 1.01))).toBe("range");
	});
});
