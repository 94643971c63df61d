import { describe, expect, test } from "vitest";
import * as properties from "../../kernel-lib/properties/index";
import { standardsTable } from "../../kernel-lib/properties/standards";
import { working } from "../../kernel-lib/quantity/index";
import { known, percent, weighed, weighings } from "./made";

describe("three weighings of a dish", () => {
	test("moisture is what left per mass weighed in, its uncertainty that of the weighings", () => {
		const w = properties.moisture(weighings(20, 30, 29.2));
		expect(w.in("%")).toBeCloseTo(8, 9);
		// u² = (u(full - after)/m)² + ..., by hand: three weighings of 0.1 mg/√3; derivatives -0.08/10, (1 - 0.08)/10 and -1/10 per gram.
		const u = 0.0001 / Math.sqrt(3);
		expect(w.standardUncertainty).toBeCloseTo(
			100 * u * Math.hypot(0.008, 0.092, 0.1),
			9,
		);
		expect(w.unit).toBe("%");
	});

	test("the working shows the formula and the weighings", () => {
		const text = working(properties.moisture(weighings(20, 30, 29.2))).text;
		expect(text).toContain("moisture, wet basis");
		expect(text).toContain("sample weighed in");
		expect(text).toContain("8.0000");
	});

	test("ash of a moist sample stands on its dry mass", () => {
		const w = weighings(20, 30, 20.46);
		expect(properties.totalAsh(w).in("%")).toBeCloseTo(4.6, 9);
		expect(
			properties.totalAsh(w, { is: "moist", moisture: percent(8) }).in("%"),
		).toBeCloseTo(5, 9);
	});

	test("volatile matter is what leaves beyond the moisture, per dry mass", () => {
		const w = weighings(20, 30, 28.16);
		expect(properties.volatileMatter(w).in("%")).toBeCloseTo(18.4, 9);
		// (0.184 - 0.08)/0.92
		expect(
			properties
				.volatileMatter(w, { is: "moist", moisture: percent(8) })
				.in("%"),
		).toBeCloseTo(100 * (0.104 / 0.92), 9);
	});

	test("ash, volatile matter and fixed carbon make up the whole", () => {
		const [ash, volatile] = [percent(5), percent(11.3)];
		expect(properties.fixedCarbon(ash, volatile).in("%")).toBeCloseTo(83.7, 9);
	});
});

describe("what cannot be is refused, with what was found", () => {
	test("mass gained on drying", () => {
		expect(() => properties.moisture(weighings(20, 30, 30.1))).toThrow(
			/found 30.1 g after drying, 30 g before; expected no more mass after drying than before/,
		);
	});
	test("a gain that the balance explains passes", () => {
		expect(properties.moisture(weighings(20, 30, 30.0001)).in("%")).toBeCloseTo(
			-0.001,
			9,
		);
	});
	test("ash heavier than the sample, and less than the crucible", () => {
		expect(() => properties.totalAsh(weighings(20, 21, 21.5))).toThrow(
			/after ashing/,
		);
		expect(() => properties.totalAsh(weighings(20, 21, 19.9))).toThrow(
			/while the empty dish is 20 g/,
		);
	});
	test("a dish without a sample", () => {
		expect(() => properties.moisture(weighings(20, 20, 20))).toThrow(
			/the dish heavier with the sample/,
		);
	});
	test("everything that is wrong is told at once", () => {
		expect(() => properties.moisture(weighings(20, 19, 19.5))).toThrow(
			/^3 problems/,
		);
	});
	test("less lost on heating than the moisture", () => {
		expect(() =>
			properties.volatileMatter(weighings(20, 30, 29.5), {
				is: "moist",
				moisture: percent(8),
			}),
		).toThrow(/a loss of .* less than the moisture/);
	});
});

describe("water-soluble content", () => {
	const readings = {
		sample: weighed(10),
		extract: known("volume", 100, "mL"),
		aliquot: known("volume", 25, "mL"),
		dish: weighed(30),
		dishAfter: weighed(30.05),
	};
	test("the residue of the aliquot, scaled to the whole extract, per dry mass", () => {
		expect(properties.waterSoluble(readings).in("%")).toBeCloseTo(2, 9);
		expect(
			properties
				.waterSoluble(readings, { is: "moist", moisture: percent(20) })
				.in("%"),
		).toBeCloseTo(2.5, 9);
	});
	test("an aliquot larger than the extract, or more dissolved than there was, is refused", () => {
		expect(() =>
			properties.waterSoluble({
				...readings,
				aliquot: known("volume", 200, "mL"),
			}),
		).toThrow(/an aliquot of 200 mL of an extract of 100 mL/);
		expect(() =>
			properties.waterSoluble({ ...readings, dishAfter: weighed(33) }),
		).toThrow(/no more dissolved than there was/);
	});
});

describe("bed density and hardness", () => {
	const cylinder = { mass: weighed(50), volume: known("volume", 100, "mL") };
	test("a bed of moist char weighs less when dry", () => {
		expect(properties.apparentDensity(cylinder).in("g/mL")).toBeCloseTo(0.5, 9);
		expect(
			properties
				.apparentDensity(cylinder, { is: "moist", moisture: percent(10) })
				.in("g/mL"),
		).toBeCloseTo(0.45, 9);
	});
	test("a bed denser than graphite is refused", () => {
		expect(() =>
			properties.apparentDensity({
				mass: weighed(50),
				volume: known("volume", 10, "mL"),
			}),
		).toThrow(/density of graphite/);
	});
	test("2.3 g/mL is the most that a bed may have", () => {
		const bed = (mass: number) =>
			properties.apparentDensity({
				mass: weighed(mass),
				volume: known("volume", 10, "mL"),
			});
		expect(bed(22.9).in("g/mL")).toBeCloseTo(2.29, 9);
		expect(() => bed(23.1)).toThrow(/density of graphite/);
	});
	test("a difference counts from twice its standard uncertainty on", () => {
		// Two weighings of up to 0.1 mg: u of their difference is 0.1/√3 × √2 = 0.0816 mg.
		expect(
			properties.moisture(weighings(20, 30, 30.00016)).in("%"),
		).toBeLessThan(0);
		expect(() => properties.moisture(weighings(20, 30, 30.00017))).toThrow(
			/no more mass after drying/,
		);
	});
	test("hardness is what stays on the sieve; more than was loaded is refused", () => {
		expect(
			properties
				.ballPanHardness({ loaded: weighed(50), retained: weighed(44) })
				.in("%"),
		).toBeCloseTo(88, 9);
		expect(() =>
			properties.ballPanHardness({
				loaded: weighed(44),
				retained: weighed(50),
			}),
		).toThrow(/no more on the sieve than was in the pan/);
	});
});

test("the table of standards names every property, and says that no repeatability limit is known", () => {
	const table = standardsTable();
	expect(table.rows.map((r) => r[0])).toContain("ball-pan hardness");
	expect(table.notes.join(" ")).toContain("repeatability limits are not known");
});
