import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { generator } from "../../data/simulation/generator.mjs";
import { readTrial } from "../../kernel-lib/bench/index";
import {
	correlation,
	exact,
	input,
	type Quantity,
	stated,
} from "../../kernel-lib/quantity/index";
import {
	absorbanceOfIntensity,
	bendTest,
	calibrate,
	calibrationLines,
	checkCalibration,
	detectionLimits,
	evenScatter,
	lackOfFit,
	lightOfChannel,
	lineFromAbsorptivity,
	predictionBand,
	readBackwards,
	readOnLine,
	workingRange,
} from "../../kernel-lib/residue/index";

const concentrations = [0, 1, 2, 4, 6, 8];

function absorbance(value: number): Quantity<"absorbance"> {
	return input("absorbance", value, "absorbance", exact, {
		symbol: "S",
		source: stated("test"),
		component: String(value),
	});
}

describe("laws", () => {
	const standards = fc
		.tuple(
			fc.double({ min: 0.05, max: 0.4, noNaN: true }),
			fc.array(fc.double({ min: -0.01, max: 0.01, noNaN: true }), {
				minLength: 6,
				maxLength: 6,
			}),
		)
		.filter(([, noise]) => new Set(noise).size > 3)
		.map(([slope, noise]) =>
			concentrations.map((concentration, i) => ({
				concentration,
				signal: 0.01 + slope * concentration + noise[i],
			})),
		);

	test.each(["straight", "through zero", "quadratic"] as const)(
		"%s: readings and standards scaled together change no concentration",
		(model) => {
			fc.assert(
				fc.property(
					standards,
					fc.double({ min: 0.01, max: 100, noNaN: true }),
					(list, factor) => {
						const plain = checkCalibration(list, { model });
						const scaled = checkCalibration(
							list.map((s) => ({ ...s, signal: s.signal * factor })),
							{ model },
						);
						expect(scaled.ok).toBe(plain.ok);
						if (!plain.ok || !scaled.ok) return;
						const signal = list[3].signal;
						const a = readBackwards(plain.value, signal, 2);
						const b = readBackwards(scaled.value, signal * factor, 2);
						expect(b.concentration).toBeCloseTo(a.concentration, 8);
						expect(b.standardUncertainty).toBeCloseTo(a.standardUncertainty, 8);
						expect(detectionLimits(scaled.value).detection).toBeCloseTo(
							detectionLimits(plain.value).detection,
							8,
						);
					},
				),
				{ numRuns: 60 },
			);
		},
	);

	test("another unit of concentration scales concentration and uncertainty alike", () => {
		fc.assert(
			fc.property(standards, (list) => {
				const mg = calibrate(list);
				const ug = calibrate(
					list.map((s) => ({ ...s, concentration: 1000 * s.concentration })),
					{ concentrationUnit: "µg/L" },
				);
				const a = readBackwards(mg, list[2].signal);
				const b = readBackwards(ug, list[2].signal);
				expect(b.concentration / 1000).toBeCloseTo(a.concentration, 9);
				expect(b.standardUncertainty / 1000).toBeCloseTo(
					a.standardUncertainty,
					9,
				);
			}),
			{ numRuns: 40 },
		);
	});

	test("what is read on the graph has the numbers of the formula", () => {
		fc.assert(
			fc.property(standards, (list) => {
				const line = calibrate(list);
				const signal = list[3].signal;
				const read = readOnLine(line, [absorbance(signal)], "a liquid");
				if (read.concentration.is !== "value") return;
				const formula = readBackwards(line, signal);
				const q = read.concentration.quantity;
				expect(q.in("mg/L" as never)).toBeCloseTo(formula.concentration, 9);
				expect(q.standardUncertainty).toBeCloseTo(
					formula.standardUncertainty,
					9,
				);
			}),
			{ numRuns: 60 },
		);
	});

	test("duplicates of one reading, averaged, are surer, but not by more than the line allows", () => {
		const list = concentrations.map((concentration, i) => ({
			concentration,
			signal: 0.2 * concentration + (i % 2) * 0.01,
		}));
		const line = calibrate(list);
		const [one, many] = [1, 10_000].map(
			(m) => readBackwards(line, 0.8, m).standardUncertainty,
		);
		expect(many).toBeLessThan(one);
		// sqrt(1/m + 1/n + ...): the line itself stays.
		expect(many).toBeGreaterThan(0.3 * one);
	});
});

describe("flasks read on one line", () => {
	const line = calibrate(
		concentrations.map((concentration, i) => ({
			concentration,
			signal: 0.004 + 0.195 * concentration + [1, -2, 2, 0, -1, 1][i] * 0.003,
		})),
	);
	const read = (value: number, of: string) => {
		const r = readOnLine(line, [absorbance(value)], of).concentration;
		if (r.is !== "value") throw new Error(r.is);
		return r.quantity;
	};

	test("share the errors of its coefficients: near one another they go together, at the two ends they part", () => {
		const near = correlation(read(1.2, "a"), read(1.21, "b"));
		const apart = correlation(read(0.1, "c"), read(1.5, "d"));
		expect(near).toBeGreaterThan(0.1);
		expect(apart).toBeLessThan(near);
		// cov = g1' V g2 / b², by hand.
		const [[vaa, vab], [, vbb]] = line.covariance;
		const b = line.coefficients[1];
		const [x, y] = [read(1.2, "a"), read(1.21, "b")];
		const [cx, cy] = [x.value, y.value];
		const byHand = (vaa + vab * (cx + cy) + vbb * cx * cy) / (b * b);
		expect(near * x.standardUncertainty * y.standardUncertainty).toBeCloseTo(
			byHand,
			12,
		);
	});
});

describe("error rates over 2,000 seeds", () => {
	const sigma = 0.004;
	const truth = { a: 0.01, b: 0.19, c: 3.1 };
	interface Seed {
		readonly line: ReturnType<typeof calibrate>;
		readonly sample: number;
		readonly blank: number;
		readonly atLimit: (c: number) => number;
	}
	const made: Seed[] = [];
	/** Made by the first test that asks, not when the file is loaded: whoever runs one other test need not wait. */
	const seeds = (): readonly Seed[] => {
		if (made.length === 0)
			for (let seed = 0; seed < 2000; seed++) made.push(seedOf(seed));
		return made;
	};
	const seedOf = (seed: number): Seed => {
		const chance = generator(`calibration ${seed}`);
		const reading = (c: number): number =>
			truth.a + truth.b * c + chance.normal(sigma);
		const line = calibrate(
			concentrations.map((concentration) => ({
				concentration,
				signal: reading(concentration),
			})),
		);
		return {
			line,
			sample: (reading(truth.c) + reading(truth.c)) / 2,
			blank: reading(0),
			atLimit: reading,
		};
	};
	const share = (yes: (s: Seed) => boolean): number =>
		seeds().filter(yes).length / seeds().length;

	test("the 95 % intervals of inverse prediction hold the truth in 93 to 97 % of runs", () => {
		const holds = (
			interval: { low: number; high: number } | { is: string },
		): boolean =>
			"low" in interval && interval.low <= truth.c && truth.c <= interval.high;
		const iso = share((s) =>
			holds(readBackwards(s.line, s.sample, 2).interval),
		);
		const fieller = share((s) =>
			holds(readBackwards(s.line, s.sample, 2).exact),
		);
		expect(iso).toBeGreaterThan(0.93);
		expect(iso).toBeLessThan(0.97);
		expect(fieller).toBeGreaterThan(0.93);
		expect(fieller).toBeLessThan(0.97);
	});

	test("a blank passes the decision limit in 3 to 7 % of runs", () => {
		const found = share(
			(s) =>
				readBackwards(s.line, s.blank).concentration >
				detectionLimits(s.line).decision,
		);
		expect(found).toBeGreaterThan(0.03);
		expect(found).toBeLessThan(0.07);
	});

	test("tests of shape accuse a straight line in 3 to 7 % of runs", () => {
		const accused = share((s) => {
			const t = bendTest(s.line);
			return t.is === "value" && t.contradicts;
		});
		expect(accused).toBeGreaterThan(0.03);
		expect(accused).toBeLessThan(0.07);
	});

	test("the prediction band holds 93 to 97 % of new readings", () => {
		const held = share((s) => {
			const [p] = predictionBand(s.line, [0]);
			return p.low <= s.blank && s.blank <= p.high;
		});
		expect(held).toBeGreaterThan(0.93);
		expect(held).toBeLessThan(0.97);
	});
});

describe("readings outside the line", () => {
	const line = calibrate(
		[1, 2, 4, 6, 8, 8].map((concentration, i) => ({
			concentration,
			signal: 0.004 + 0.195 * concentration + (i % 2) * 0.002,
		})),
	);
	const read = (signal: number) =>
		readOnLine(line, [absorbance(signal)], "a liquid").concentration;

	test("above the highest standard: at least that standard, however high the reading", () => {
		for (const signal of [1.6, 2.5, 40])
			expect(read(signal)).toMatchObject({
				is: "at least",
				quantity: { value: 8 },
			});
	});

	test("below the lowest standard: at most that standard", () => {
		for (const signal of [-0.1, 0.004, 0.15])
			expect(read(signal)).toMatchObject({
				is: "at most",
				quantity: { value: 1 },
			});
	});

	test("between them a value", () => {
		expect(read(0.9).is).toBe("value");
	});

	test("what cannot be distinguished from a blank is at most the limit of detection", () => {
		const zero = calibrate(
			concentrations.map((concentration, i) => ({
				concentration,
				signal: 0.195 * concentration + (i % 2) * 0.004,
			})),
		);
		const { decision, detection } = detectionLimits(zero);
		const just = zero.coefficients[0] + zero.coefficients[1] * decision;
		const below = readOnLine(
			zero,
			[absorbance(just - 1e-6)],
			"a liquid",
		).concentration;
		expect(below.is).toBe("at most");
		expect(below.quantity.value).toBeCloseTo(detection, 12);
		expect(
			readOnLine(zero, [absorbance(just + 1e-6)], "a liquid").concentration.is,
		).toBe("value");
	});

	test("the working range ends at the highest standard and begins no lower than the lowest", () => {
		expect(workingRange(line)).toMatchObject({ is: "range", low: 1, high: 8 });
	});
});

describe("checks of a line", () => {
	test("a standard made up wrongly shows as lack of fit, a bend as a bend", () => {
		const duplicates = concentrations.flatMap((c) => [
			{ concentration: c, signal: 0.2 * c + 0.001 },
			{ concentration: c, signal: 0.2 * c - 0.001 },
		]);
		const fine = lackOfFit(calibrate(duplicates));
		expect(fine.is === "value" && fine.contradicts).toBe(false);
		const wrong = lackOfFit(
			calibrate(
				duplicates.map((s) =>
					s.concentration === 4 ? { ...s, signal: s.signal * 1.05 } : s,
				),
			),
		);
		expect(wrong.is === "value" && wrong.contradicts).toBe(true);
		const bent = bendTest(
			calibrate(
				duplicates.map((s) => ({
					...s,
					signal: s.signal - 0.004 * s.concentration ** 2,
				})),
			),
		);
		expect(bent.is === "value" && bent.contradicts).toBe(true);
	});

	test("scatter that grows is seen where both ends were repeated", () => {
		const chance = generator("even scatter");
		const list = [0, 0, 0, 0, 0, 8, 8, 8, 8, 8].map((concentration) => ({
			concentration,
			signal:
				0.2 * concentration +
				chance.normal(concentration === 0 ? 0.0005 : 0.02),
		}));
		const found = evenScatter(calibrate(list));
		expect(found.is === "value" && found.contradicts).toBe(true);
		expect(
			evenScatter(
				calibrate(concentrations.map((c) => ({ concentration: c, signal: c }))),
			).is,
		).toBe("not available");
	});

	test("everything wrong with standards is told at once", () => {
		const found = checkCalibration(
			[
				{ concentration: -1, signal: 0.1 },
				{ concentration: 1, signal: Number.NaN },
			],
			{ concentrationUnit: "grains" },
		);
		expect(found.ok ? [] : found.problems.map((p) => p.code)).toEqual([
			"standard-not-a-number",
			"standard-not-a-number",
			"too-few-standards",
			"unit-unknown",
		]);
	});

	test("a line that does not rise by more than its scatter, or turns back, is refused", () => {
		for (const noise of [0, 1e-12, 0.01]) {
			const flat = checkCalibration(
				concentrations.map((concentration, i) => ({
					concentration,
					signal: 0.3 + (i % 2 === 0 ? noise : -noise),
				})),
			);
			expect(flat.ok ? [] : flat.problems.map((p) => p.code)).toEqual([
				"line-flat",
			]);
		}
		const hump = checkCalibration(
			concentrations.map((concentration, i) => ({
				concentration,
				signal: concentration * (11 - concentration) + (i % 2) * 0.01,
			})),
			{ model: "quadratic" },
		);
		expect(hump.ok ? [] : hump.problems.map((p) => p.code)).toEqual([
			"line-bends-over",
		]);
	});
});

describe("a molar absorptivity in place of standards", () => {
	const line = lineFromAbsorptivity({
		molarAbsorptivity: 74_000,
		standardUncertainty: 3_700,
		source: "a table; from memory",
	});

	test("c = A/(ε l)", () => {
		const read = readOnLine(line, [absorbance(0.37)], "a liquid");
		if (read.concentration.is !== "value") throw new Error("no value");
		const q = read.concentration.quantity;
		expect(q.in("µmol/L" as never)).toBeCloseTo(5, 9);
		// 5 % of ε and 0.005 of 0.37
		expect(q.standardUncertainty / q.value).toBeCloseTo(
			Math.hypot(0.05, 0.005 / 0.37),
			6,
		);
	});

	test("its whole error is shared by all flasks", () => {
		const c = (v: number, of: string) => {
			const r = readOnLine(line, [absorbance(v)], of).concentration;
			if (r.is !== "value") throw new Error("no value");
			return r.quantity;
		};
		expect(correlation(c(0.9, "a"), c(0.8, "b"))).toBeGreaterThan(0.95);
	});
});

describe("a camera", () => {
	test("an intensity a tenth of the white one is an absorbance of 1", () => {
		const ratio = (v: number) =>
			input("ratio", v, "1", exact, { symbol: "I", source: stated("test") });
		expect(absorbanceOfIntensity(ratio(0.08), ratio(0.8)).value).toBeCloseTo(
			1,
			12,
		);
		expect(() => absorbanceOfIntensity(ratio(0), ratio(0.8))).toThrow(
			/no light/,
		);
	});

	test("a channel of an ordinary picture is not in proportion to the light", () => {
		// IEC 61966-2-1: ends, and the middle channel that looks half as bright and is a fifth of the light.
		expect(lightOfChannel(0)).toBe(0);
		expect(lightOfChannel(255)).toBe(1);
		expect(lightOfChannel(128)).toBeCloseTo(0.2158605, 6);
		expect(() => lightOfChannel(300)).toThrow(/a number from 0 to 255/);
	});
});

describe("options that a call does not have", () => {
	const standards = [0, 2, 4, 8].map((c) => ({
		concentration: c,
		signal: 0.2 * c + (c === 4 ? 0.001 : 0),
	}));

	test.each([
		[{ modle: "straight" }, /"modle".*model/s],
		[{ model: "cubic" }, /one of "straight"/],
		[{ signal: "loudness" }, /one of "absorbance"/],
	])("of a line: %o", (options, message) => {
		expect(() => calibrate(standards, options as object)).toThrow(message);
	});

	test.each([
		[{ errorProbability: 0.5 }, /below 0.5/],
		[{ alpha: 0.01 }, /"alpha"/],
		[{ readings: 0 }, /at least 1/],
		[{ quantificationFactor: 1 }, /above 1/],
	])("of its checks: %o", (options, message) => {
		expect(() => calibrate(standards, { limits: options as object })).toThrow(
			message,
		);
	});

	test("its checks follow the definition that is asked for, DIN 32645 by default", () => {
		const method = (limits = {}) =>
			calibrate(standards, { limits }).checks.notes[0];
		expect(method()).toMatch(
			/^DIN 32645, .*error probability 0\.05 .*mean of 1 reading;/,
		);
		expect(
			method({ definition: "ISO 11843", errorProbability: 0.01, readings: 2 }),
		).toMatch(/^ISO 11843, .*error probability 0\.01 .*mean of 2 readings;/);
	});

	test("the checks of a trial's lines follow its settings", () => {
		const trial = readTrial("data/demo-dye/dye.csv", {
			limitDefinition: "ISO 11843",
			errorProbability: 0.01,
		});
		expect(calibrationLines(trial)[0].checks.notes[0]).toMatch(
			/^ISO 11843, .*error probability 0\.01 /,
		);
	});
});
