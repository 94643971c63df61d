import { describe, expect, test } from "vitest";
import {
	fitIsotherm,
	type IsothermFit,
	langmuir,
	uptakeAt,
} from "../../kernel-lib/isotherms/index";
import { tableText } from "../../kernel-lib/quantity/index";
import { createRandom } from "../../kernel-lib/stats/index";
import {
	constantTable,
	dimensionless,
	gasConstant,
	isostericHeats,
	temperatureSeries,
	temperatureSteps,
	vanTHoff,
	vanTHoffTable,
} from "../../kernel-lib/temperature/index";
import { flasksOf } from "../dose/flasks";

const molarMass = 253.809;
const truth = { enthalpy: -22, entropy: 5, plateau: 150 };
const kelvins = [278.15, 288.15, 298.15, 308.15];
/** K_L in L/mg at a temperature. */
const affinity = (t: number): number =>
	Math.exp(
		truth.entropy / gasConstant - (1000 * truth.enthalpy) / (gasConstant * t),
	) /
	(1000 * molarMass);
const doses = [0.2, 0.4, 0.7, 1, 1.5, 2, 3, 4];

function fits(
	seed: number,
	deviation: number,
	at: readonly number[] = kelvins,
): { kelvin: number; fit: IsothermFit }[] {
	const random = createRandom(seed);
	const titrant = 0.01 * random.normal();
	return at.map((kelvin) => {
		const theta = Float64Array.of(truth.plateau, affinity(kelvin));
		const points = flasksOf(
			(c) => uptakeAt(langmuir, theta, c),
			250,
			doses,
			doses.map(() => deviation * random.normal()),
			deviation,
			[{ key: "titrant", relative: 0.01 }],
		);
		// The titrant's error moves what was read in all flasks of all temperatures alike.
		const moved = {
			...points,
			points: points.points.map((p) => {
				const concentration = p.concentration * (1 + titrant);
				if (p.balance.is === "not known") throw new Error();
				return {
					...p,
					concentration,
					uptake: p.balance.intercept - p.balance.slope * concentration,
				};
			}),
		};
		return { kelvin, fit: fitIsotherm(langmuir, moved) };
	});
}

const value = (k: { is: string; value?: number }): number =>
	k.value ?? Number.NaN;

describe("van 't Hoff", () => {
	test("points without errors give the truth back", () => {
		const v = vanTHoff(
			kelvins.map((kelvin) => ({
				kelvin,
				constant: dimensionless({
					value: affinity(kelvin),
					unit: "L/mg",
					convention: "affinity",
					molarMass,
				}),
				ownError: 0.02,
				shared: [],
			})),
		);
		expect(v.enthalpy.value).toBeCloseTo(truth.enthalpy, 9);
		expect(v.entropy.value).toBeCloseTo(truth.entropy, 9);
		v.gibbs.forEach((g, i) => {
			expect(g.value).toBeCloseTo(
				truth.enthalpy - (kelvins[i] * truth.entropy) / 1000,
				9,
			);
		});
	});

	test("the same constant in other units is the same dimensionless number", () => {
		const made = (value: number, unit: string, molar?: number) =>
			dimensionless({
				value,
				unit,
				convention: "affinity",
				...(molar === undefined ? {} : { molarMass: molar }),
			}).value;
		const k = made(0.05, "L/mg", molarMass);
		expect(made(50, "L/g", molarMass)).toBeCloseTo(k, 9);
		expect(made(50 * molarMass, "L/mol")).toBeCloseTo(k, 9);
		expect(made(0.05 * molarMass, "L/mmol")).toBeCloseTo(k, 9);
		expect(
			dimensionless({ value: 2, unit: "L/g", convention: "distribution" })
				.value,
		).toBeCloseTo(1994, 9);
	});

	test("the usual mistakes of units are refused, each with its reason", () => {
		expect(() =>
			dimensionless({ value: 0.05, unit: "L/mg", convention: "affinity" }),
		).toThrow(/without a molar mass.*entropy/s);
		expect(() =>
			dimensionless({ value: 0.05, unit: "", convention: "affinity" }),
		).toThrow(/without a unit/);
		expect(() =>
			dimensionless({
				value: 40,
				unit: "(mg/g)(L/mg)^(1/n)",
				convention: "affinity",
				molarMass,
			}),
		).toThrow(/isosteric heat/);
		expect(() =>
			dimensionless({ value: 2, unit: "L/mg", convention: "distribution" }),
		).toThrow(/L\/kg, mL\/g, L\/g/);
		expect(() =>
			dimensionless({
				value: -1,
				unit: "L/mol",
				convention: "affinity",
			}),
		).toThrow(/above 0/);
		const step = (kelvin: number) => ({
			kelvin,
			constant: dimensionless({
				value: 1e4,
				unit: "L/mol",
				convention: "affinity",
			}),
			ownError: 0.01,
			shared: [],
		});
		expect(() => vanTHoff([step(15), step(25), step(35)])).toThrow(
			/15 °C: write 288.15 K/,
		);
		expect(() => vanTHoff([step(298), step(298)])).toThrow(
			/three or more different temperatures/,
		);
		expect(() =>
			vanTHoff([
				step(288),
				{
					...step(298),
					constant: dimensionless({
						value: 2,
						unit: "L/g",
						convention: "distribution",
					}),
				},
			]),
		).toThrow(/one convention/);
	});

	test("two temperatures give a line and no interval", () => {
		const v = vanTHoff(
			temperatureSteps(fits(1, 0.3, [288.15, 308.15]), { molarMass }),
		);
		expect(v.enthalpy.low.is).toBe("not known");
		expect(v.cautions[0]).toMatch(/^Two temperatures only/);
		expect(tableText(vanTHoffTable(v))).toContain("none");
	});

	test("an error that all temperatures share moves the entropy and hardly the enthalpy", () => {
		const v = vanTHoff(temperatureSteps(fits(2, 0.3), { molarMass }));
		const [titrant] = v.line.shared;
		const enthalpy = Math.abs(titrant.slope * gasConstant) / 1000;
		const entropy =
			gasConstant * Math.abs(titrant.intercept - titrant.slope * v.centre);
		expect(enthalpy / Math.abs(v.enthalpy.value)).toBeLessThan(0.02);
		expect(entropy).toBeGreaterThan(0.01);
		expect(tableText(constantTable(v))).not.toMatch(/NaN|undefined/);
	});

	test("its intervals hold the truth in 93 to 99 of 100 simulated series", () => {
		let enthalpy = 0;
		let entropy = 0;
		let heat = 0;
		let heats = 0;
		const trials = 250;
		for (let seed = 1; seed <= trials; seed++) {
			const series = fits(seed, 0.6);
			const v = vanTHoff(temperatureSteps(series, { molarMass }));
			const holds = (q: typeof v.enthalpy, t: number): number =>
				value(q.low) <= t && t <= value(q.high) ? 1 : 0;
			enthalpy += holds(v.enthalpy, truth.enthalpy);
			entropy += holds(v.entropy, truth.entropy);
			const [h] = isostericHeats(series, [85]);
			if (h.is === "heat") {
				heats += 1;
				heat += holds(h.enthalpy, truth.enthalpy);
			}
		}
		for (const share of [enthalpy / trials, entropy / trials, heat / heats]) {
			expect(share).toBeGreaterThanOrEqual(0.93);
			// The larger of two errors is taken: a little more than 95 is meant.
			expect(share).toBeLessThanOrEqual(0.99);
		}
		expect(heats).toBe(trials);
	}, 120_000);

	test("more scatter about the line than the constants' errors explain is said and widens the interval", () => {
		const steps = temperatureSteps(fits(3, 0.3), { molarMass });
		const bent = steps.map((s, i) => ({
			...s,
			constant: {
				...s.constant,
				value: s.constant.value * (i % 2 === 0 ? 1.3 : 0.8),
			},
		}));
		const v = vanTHoff(bent);
		expect(v.line.errorsFrom).toBe("the scatter about the line");
		expect(v.cautions.join(" ")).toMatch(/more than their own errors explain/);
		expect(value(v.enthalpy.standardError)).toBeGreaterThan(
			3 * value(vanTHoff(steps).enthalpy.standardError),
		);
	});
});

describe("the bounds of what is said", () => {
	const at = (kelvin: number, factor = 1, ownError = 0.02) => ({
		kelvin,
		constant: dimensionless({
			value: affinity(kelvin) * factor,
			unit: "L/mg",
			convention: "affinity" as const,
			molarMass,
		}),
		ownError,
		shared: [],
	});
	const says = (v: ReturnType<typeof vanTHoff>, what: RegExp): boolean =>
		v.cautions.some((c) => what.test(c));

	test("a span below ten kelvin is named, one of ten is not", () => {
		const span = (kelvins: number): boolean =>
			says(
				vanTHoff([at(290), at(292), at(290 + kelvins)]),
				/^The temperatures span/,
			);
		expect(span(9.9)).toBe(true);
		expect(span(10)).toBe(false);
	});

	test("scatter that comes by chance less than once in twenty is named", () => {
		// A bend that the three own errors alone would give in so many of a hundred trials.
		const bent = (ownError: number) =>
			vanTHoff(
				[at(288.15), at(298.15, 1.1), at(308.15)].map((s) => ({
					...s,
					ownError,
				})),
			);
		const errors = Array.from({ length: 60 }, (_, i) => 0.02 + 0.001 * i);
		const chances = errors.map((e) => bent(e));
		for (const v of chances)
			expect(says(v, /more than their own errors explain/)).toBe(
				v.line.probability < 0.05,
			);
		expect(chances.some((v) => v.line.probability > 0.05)).toBe(true);
		expect(
			chances.some(
				(v) => v.line.probability > 0.045 && v.line.probability < 0.05,
			),
		).toBe(true);
		expect(
			chances.some(
				(v) => v.line.probability > 0.05 && v.line.probability < 0.055,
			),
		).toBe(true);
	});

	test("kelvins from 200 to 500, molar masses from 1 to a million", () => {
		const fits = (low: number, high: number): boolean => {
			try {
				vanTHoff([at(low), at(high)]);
				return true;
			} catch {
				return false;
			}
		};
		expect(fits(200, 500)).toBe(true);
		expect(fits(199.9, 300)).toBe(false);
		expect(fits(300, 500.1)).toBe(false);
		const molar = (m: number) => () =>
			dimensionless({
				value: 0.05,
				unit: "L/mg",
				convention: "affinity",
				molarMass: m,
			});
		expect(molar(1)).not.toThrow();
		expect(molar(1e6)).not.toThrow();
		expect(molar(0.99)).toThrow(/a molar mass of 0.99/);
		expect(molar(1.1e6)).toThrow(/molar mass/);
	});

	test("options are checked by name, and the confidence is in every interval", () => {
		expect(() => vanTHoff([at(288), at(298)], { nam: "x" } as object)).toThrow(
			/Did you mean "name"/,
		);
		expect(() =>
			dimensionless({
				value: 1,
				unit: "L/mol",
				convention: "affinity",
				molarmass: 3,
			} as never),
		).toThrow(/Did you mean "molarMass"/);
		const series = fits(1, 0.3);
		expect(() => temperatureSteps(series, { parameter: 3 } as never)).toThrow(
			/"parameter"/,
		);
		expect(() => isostericHeats(series, [80], 0.9 as never)).toThrow(
			/options in braces/,
		);
		const width = (confidence: number): number => {
			const [h] = isostericHeats(series, [80], { confidence });
			if (h.is === "none") throw new Error(h.because);
			expect(h.confidence).toBe(confidence);
			return value(h.enthalpy.high) - value(h.enthalpy.low);
		};
		expect(width(0.9)).toBeLessThan(width(0.95));
		const v = vanTHoff(temperatureSteps(series, { molarMass }), {
			confidence: 0.9,
		});
		expect(v.sentences[0]).toContain("(90 % interval");
		expect(tableText(v.table)).toContain("Intervals: 90 %");
		expect(tableText(v.constants)).toContain("ln K on the line");
	});

	test("without a molar mass that of the probe is taken; that of another substance is refused", () => {
		const series = fits(1, 0.3);
		const made = (molarMass?: number) =>
			temperatureSteps(series, molarMass === undefined ? {} : { molarMass })[0]
				.constant.made;
		expect(made()).toContain("(molar mass 253.8 g/mol)");
		expect(made(0)).toBe(made());
		// one in a hundred
		expect(made(253.8 * 1.0099)).toContain("256.3");
		expect(() => made(253.8 * 1.0101)).toThrow(
			/for iodine, which has 253.8 g\/mol/,
		);
		const unknown = series.map((s) => ({
			...s,
			fit: { ...s.fit, points: { ...s.fit.points, probe: "forest water" } },
		}));
		expect(() => temperatureSteps(unknown)).toThrow(/without a molar mass/);
		expect(temperatureSteps(unknown, { molarMass: 500 })).toHaveLength(4);
	});

	test("a series is named after its treatments, and the usual mistakes are tried on it", () => {
		const isotherms = fits(1, 0.3).map(({ fit }, i) => ({
			...fit,
			points: { ...fit.points, name: ["5 °C", "15 °C", "25 °C", "oven"][i] },
		}));
		const series = temperatureSeries(isotherms, { celsius: { oven: 35 } });
		expect(series.map((s) => s.kelvin)).toEqual(kelvins);
		expect(() => temperatureSeries(isotherms)).toThrow(/"oven"/);
		expect(() =>
			temperatureSeries(isotherms, { celcius: "oven: 35" } as object),
		).toThrow(/Did you mean "celsius"/);
		const answers = series.usualMistakes.rows.map((r) => String(r[1]));
		expect(answers).toHaveLength(4);
		expect(answers[0]).toContain("without a molar mass");
		expect(answers[1]).toContain("without a unit");
		expect(answers[2]).toContain("Take the isosteric heat");
		expect(answers[3]).toContain("write 278.15 K");
	});
});

describe("heat at constant uptake", () => {
	test("equals van 't Hoff's enthalpy where the plateau does not change with temperature", () => {
		const series = fits(4, 1e-6);
		const heats = isostericHeats(series, [65, 80, 100]);
		for (const h of heats) {
			if (h.is === "none") throw new Error(h.because);
			expect(h.enthalpy.value).toBeCloseTo(truth.enthalpy, 0);
		}
	});

	test("an uptake that was not reached at every temperature is refused with the flasks that would do", () => {
		const heats = isostericHeats(fits(5, 0.3), [149.9]);
		const [h] = heats;
		if (h.is === "heat") throw new Error("beyond the flasks");
		expect(h.because).toContain("was not reached at");
		expect(h.wouldTell).toMatch(/^Flasks/);
		expect(tableText(heats.table)).toContain("none");
	});
});
