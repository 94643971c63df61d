import { describe, expect, test } from "vitest";
import {
	measuredVolume,
	trialFromRows,
	weighedMass,
} from "../../../kernel-lib/bench/index";
import {
	correlation,
	minus,
	ProblemError,
	plus,
	type Quantity,
	sharedErrors,
} from "../../../kernel-lib/quantity/index";
import { char, soundSolutions } from "../rows";

const own = (q: Quantity): number => sharedErrors([q]).ownVariance[0] ** 0.5;
const shared = (q: Quantity): number =>
	Math.hypot(...sharedErrors([q]).shared.map((s) => s.effect[0]));

/** By hand, for a burette of 50 mL, class B: ± 0.1 mL, division 0.1 mL. */
const calibration = 0.1 / Math.sqrt(3);
const twoReadings = 0.1 / Math.sqrt(6);

describe("one rule for a burette, typed in or in a sheet", () => {
	const inSheet = (titre: number): Quantity<"volume"> => {
		const t = trialFromRows({
			flasks: [char("1", "control", titre)],
			solutions: soundSolutions,
		}).flasks[0].titrations[0];
		if (t.is !== "titre") throw new Error("one number was written");
		return plus(t.titre, t.calibration);
	};

	test.each([
		// Below a tenth of the burette the calibration is in proportion: 2 of 5 mL.
		[2, Math.hypot(twoReadings, 0.4 * calibration), 0.0469],
		[4.9, Math.hypot(twoReadings, 0.98 * calibration), 0.0698],
		// From a tenth on it is whole.
		[5, Math.hypot(twoReadings, calibration), 0.0707],
		[40, Math.hypot(twoReadings, calibration), 0.0707],
	])("%f mL", (volume, u, rounded) => {
		const typed = measuredVolume("burette", 50, volume);
		expect(typed.standardUncertainty).toBeCloseTo(u, 12);
		expect(u).toBeCloseTo(rounded, 4);
		expect(inSheet(volume).standardUncertainty).toBeCloseTo(u, 12);
	});

	test("a volume dosed from a burette is read before and after, as a titre is", () => {
		const trial = trialFromRows({
			flasks: [char("1", "control", 5)],
			solutions: soundSolutions,
			glassware: [
				{ piece: "burette 50 mL", "used for": "dose", "size (mL)": 50 },
			],
		});
		const dose = trial.flasks[0].events[0].volume;
		expect(dose.standardUncertainty).toBeCloseTo(
			measuredVolume("burette", 50, 40).standardUncertainty,
			12,
		);
	});

	test("readings are independent, the calibration is shared", () => {
		const [a, b] = [24, 26].map((v) => measuredVolume("burette", 50, v));
		expect(own(a)).toBeCloseTo(twoReadings, 12);
		expect(shared(a)).toBeCloseTo(calibration, 12);
		expect(minus(a, b).standardUncertainty).toBeCloseTo(
			Math.SQRT2 * twoReadings,
			12,
		);
		const other = measuredVolume("burette", 50, 24, { name: "second burette" });
		expect(correlation(a, other)).toBe(0);
	});

	test("a burette whose division is not known still has a reading error: a fifth of its tolerance for each reading", () => {
		const v = measuredVolume("burette", 30, 20, { tolerance: 0.1 });
		expect(own(v)).toBeCloseTo(Math.SQRT2 * 0.2 * 0.1, 12);
	});

	test("a titre has half a drop for its end point beside the errors of the burette", () => {
		const titre = (): Quantity<"volume"> =>
			measuredVolume("burette", 50, 24, { endPoint: true });
		const u = titre().standardUncertainty;
		expect(u).toBeCloseTo(Math.hypot(twoReadings, calibration, 0.025), 12);
		const [a, b] = [titre(), titre()];
		expect(minus(a, b).standardUncertainty).toBeCloseTo(
			Math.SQRT2 * Math.hypot(twoReadings, 0.025),
			12,
		);
	});
});

describe("one rule for what has a mark or a scale", () => {
	test("a 25 mL pipette of class B: 0.06 mL rectangular, a fifth of 0.03 mL for the mark", () => {
		const v = measuredVolume("volumetric pipette", 25, 25);
		expect(shared(v)).toBeCloseTo(0.06 / Math.sqrt(3), 12);
		expect(own(v)).toBeCloseTo(0.2 * 0.03, 12);
	});

	test("twice as much as a pipette holds is two fillings", () => {
		const v = measuredVolume("volumetric pipette", 20, 40);
		expect(shared(v)).toBeCloseTo((2 * 0.06) / Math.sqrt(3), 12);
		expect(own(v)).toBeCloseTo(Math.SQRT2 * 0.2 * 0.03, 12);
	});

	test("a cylinder is read to half a division", () => {
		const v = measuredVolume("measuring cylinder", 50, 33.3);
		expect(shared(v)).toBeCloseTo(1 / Math.sqrt(3), 12);
		expect(own(v)).toBeCloseTo(0.5 / Math.sqrt(3), 12);
	});

	test("the volume of QUAM example A1: tolerance, repeatability and temperature", () => {
		const volume = measuredVolume("volumetric flask", 100, 100, {
			accuracyClass: "A",
			shape: "triangular",
			fillingSpread: 0.02,
			temperatureWithin: 4,
		});
		// 0.0665 mL, recomputed from 0.1/sqrt(6), 0.02 and 100 * 2.1e-4 * 4/sqrt(3).
		expect(volume.standardUncertainty).toBeCloseTo(0.06647305218407432, 12);
	});
});

describe("refusals", () => {
	test.each([
		[() => measuredVolume("burette", 33, 3), /33 mL.*ISO 385/],
		[
			() => measuredVolume("buret" as "burette", 50, 3),
			/Did you mean "burette"/,
		],
		[() => measuredVolume("burette", 50, -1), /-1 mL/],
		[
			() => measuredVolume("burette", 50, 3, { class: "A" } as never),
			/the option "class"/,
		],
		[
			() => measuredVolume("burette", 50, 3, {}, { simbol: "V" } as never),
			/Did you mean "symbol"/,
		],
		[() => weighedMass(1, {}), /readability/],
	])("%s", (call, message) => {
		expect(call).toThrow(ProblemError);
		expect(call).toThrow(message);
	});
});

describe("masses", () => {
	test("one rule for a balance, typed in or in a sheet", () => {
		const typed = weighedMass(0.5, { readability: 0.01, tolerance: 0.02 });
		expect(own(typed)).toBeCloseTo(0.01 / Math.sqrt(6), 12);
		expect(shared(typed)).toBeCloseTo(0.02 / Math.sqrt(3), 12);
		const trial = trialFromRows({
			flasks: [char("1", "control", 5)],
			solutions: soundSolutions,
			glassware: [
				{
					piece: "balance",
					"used for": "char mass",
					"readability (g)": 0.01,
					"tolerance (g)": 0.02,
				},
			],
		});
		const { charMass } = trial.flasks[0];
		expect(charMass.recorded && charMass.value.standardUncertainty).toBeCloseTo(
			typed.standardUncertainty,
			12,
		);
	});

	test("a tolerance that is not stated is one step of the display", () => {
		expect(shared(weighedMass(0.5, { readability: 0.01 }))).toBeCloseTo(
			0.01 / Math.sqrt(3),
			12,
		);
	});

	test("a mass by difference counts linearity twice: QUAM example A2", () => {
		const mass = weighedMass(0.3888, { linearity: 0.00015 });
		// Two weighings, rectangular 0.15 mg: recomputed 0.12247 mg.
		expect(mass.standardUncertainty).toBeCloseTo(0.0001224744871391589, 15);
	});
});

test("readings with one source in words stay independent, however alike", () => {
	const titre = () =>
		measuredVolume("burette", 50, 24, {}, { source: "note card", symbol: "V" });
	expect(minus(titre(), titre()).standardUncertainty).toBeCloseTo(
		Math.SQRT2 * twoReadings,
		12,
	);
});
