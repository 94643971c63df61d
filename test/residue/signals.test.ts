import { describe, expect, test } from "vitest";
import type { InstrumentReadings } from "../../kernel-lib/bench";
import {
	correlation,
	exact,
	exactRatio,
	input,
	normal,
} from "../../kernel-lib/quantity";
import { signalsOf } from "../../kernel-lib/residue/by-reading/signal";
import {
	absorbanceOfTransmittance,
	lightOfChannel,
	turbidityShare,
} from "../../kernel-lib/residue/colorimetry";

const readings = (some: Partial<InstrumentReadings>): InstrumentReadings => ({
	kind: "absorbance",
	values: [],
	second: { recorded: false },
	white: { recorded: false },
	dilution: exactRatio(1),
	line: "",
	marks: [],
	...some,
});
const ratio = (value: number, u = 0) =>
	input("ratio", value, "1", u === 0 ? exact : normal(u), {
		component: String(value),
	});
const absorbance = (value: number) =>
	input("absorbance", value, "absorbance", exact, {});

const shown = (some: Partial<InstrumentReadings>) =>
	signalsOf(readings(some), "not known");

test("a conductivity or a pH is its own signal", () => {
	const values = [input("conductivity", 1.2, "mS/cm", exact, {})];
	expect(shown({ kind: "conductivity", values })).toEqual(values);
});

test("duplicates stay apart", () => {
	const values = [absorbance(0.4), absorbance(0.5)];
	expect(shown({ values }).map((s) => s.value)).toEqual([0.4, 0.5]);
});

test("a tenth of the light is an absorbance of 1, a hundredth of 2", () => {
	expect(
		shown({ kind: "transmittance", values: [ratio(0.1), ratio(0.01)] }).map(
			(s) => s.value,
		),
	).toEqual([expect.closeTo(1, 12), expect.closeTo(2, 12)]);
});

test("the more light, the less absorbance", () => {
	const t = ratio(0.5, 0.01);
	const a = absorbanceOfTransmittance(t);
	expect(correlation(a, t)).toBeCloseTo(-1, 12);
	// u(T)/(T ln 10)
	expect(a.standardUncertainty).toBeCloseTo(0.02 / Math.LN10, 12);
});

describe("a picture", () => {
	const of = (channel: number, as: "picture" | "light", u = 0) =>
		shown({
			kind: "intensity",
			values: [ratio(channel, u)],
			white: { recorded: true, value: ratio(200), as },
		})[0];

	test("in proportion to the light: the ratio to the white", () => {
		expect(of(20, "light").value).toBeCloseTo(1, 12);
	});

	test("of channels: the ratio of the light behind them", () => {
		expect(of(20, "picture").value).toBeCloseTo(
			Math.log10(lightOfChannel(200) / lightOfChannel(20)),
			12,
		);
	});

	// 10.31 is 0.04045 of 255, where the curve goes over into a straight line.
	test.each([2, 5, 10, 10.6, 40, 120, 180])(
		"the error of channel %s goes through the slope of that curve",
		(channel) => {
			const h = 1e-4;
			const slope =
				(Math.log10(lightOfChannel(channel + h)) -
					Math.log10(lightOfChannel(channel - h))) /
				(2 * h);
			const u = of(channel, "picture", 0.5).standardUncertainty;
			expect(u / (0.5 * Math.abs(slope))).toBeCloseTo(1, 6);
		},
	);

	test("no light has no absorbance, the white's neither", () => {
		expect(() => of(0, "light")).toThrow(/"intensity".*no light/);
		expect(() => absorbanceOfTransmittance(ratio(0))).toThrow(
			/"transmittance".*no light/,
		);
		expect(() => absorbanceOfTransmittance(ratio(-0.1))).toThrow(/no light/);
		expect(() =>
			shown({
				kind: "intensity",
				values: [ratio(20)],
				white: { recorded: true, value: ratio(0), as: "light" },
			}),
		).toThrow(/no light/);
	});

	test("the curve of the channel: its joint, and what lies outside", () => {
		// IEC 61966-2-1: 0.04045/12.92 and ((0.04045 + 0.055)/1.055)^2.4 meet at 0.0031308
		expect(lightOfChannel(0.04045, 1)).toBeCloseTo(0.04045 / 12.92, 12);
		expect(lightOfChannel(0.0405, 1)).toBeCloseTo(
			((0.0405 + 0.055) / 1.055) ** 2.4,
			12,
		);
		expect(lightOfChannel(51, 51)).toBe(1);
		expect(() => lightOfChannel(-1)).toThrow(/"intensity".*a channel of -1/);
		expect(() => lightOfChannel(1.1, 1)).toThrow(/from 0 to 1/);
	});
});

describe("turbidity", () => {
	const turbid = {
		values: [absorbance(0.5)],
		second: { recorded: true as const, value: absorbance(0.02) },
	};

	test("is taken off by its share between coarse and fine particles", () => {
		const wavelengths = { first: 600, second: 600 * 2 ** 0.25 };
		// between 1 and 2 times 0.02
		const [signal] = signalsOf(readings(turbid), wavelengths);
		expect(signal.value).toBeCloseTo(0.47, 12);
		expect(signal.standardUncertainty).toBeCloseTo(
			(0.02 * 0.5) / Math.sqrt(3),
			12,
		);
	});

	test("needs both wavelengths", () => {
		expect(() => shown(turbid)).toThrow(
			/"wavelength \(nm\)".*without wavelengths/,
		);
		expect(() => turbidityShare(0, 800)).toThrow(
			/"wavelength \(nm\)".*0 and 800 nm/,
		);
		expect(() => turbidityShare(664, 0)).toThrow(/664 and 0 nm/);
		expect(() => turbidityShare(664, -1)).toThrow(/above 0 nm/);
	});

	test("a second wavelength below the first turns the share about", () => {
		// (1/2)^4 is a sixteenth: between 1/16 and 1
		const share = turbidityShare(800, 400);
		expect(share.value).toBeCloseTo(17 / 32, 12);
		expect(share.standardUncertainty).toBeCloseTo(15 / 32 / Math.sqrt(3), 12);
		expect(share.name.meaning).toBe("turbidity at 800 nm for 1 at 400 nm");
	});
});
