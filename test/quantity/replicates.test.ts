import { describe, expect, test } from "vitest";
import {
	input,
	meanOfReplicates,
	plus,
	rectangular,
} from "../../kernel-lib/quantity/index";

describe("mean of replicates", () => {
	const reading = (x: number, row: number) =>
		plus(
			input("volume", x, "mL", rectangular(0.05), {
				scope: "reading",
				symbol: `V_${row}`,
			}),
			burette,
		);
	const burette = input("volume", 0, "mL", rectangular(0.05), {
		symbol: "δ_{burette}",
	});

	test("one or two keep their reading errors, the calibration once", () => {
		const mean = meanOfReplicates(
			[reading(24.1, 1), reading(24.3, 2)],
			"two titres",
		);
		expect(mean.standardUncertainty).toBeCloseTo(
			Math.hypot(0.05 / Math.sqrt(3) / Math.SQRT2, 0.05 / Math.sqrt(3)),
			12,
		);
	});

	test("three or more: scatter in place of the reading errors, never both", () => {
		const mean = meanOfReplicates(
			[24.1, 24.3, 24.5].map(reading),
			"three titres",
		);
		expect(mean.value).toBeCloseTo(24.3, 12);
		expect(mean.standardUncertainty).toBeCloseTo(
			Math.hypot(0.2 / Math.sqrt(3), 0.05 / Math.sqrt(3)),
			12,
		);
	});

	test("scatter smaller than the readings can be read does not count", () => {
		const mean = meanOfReplicates(
			[24.3, 24.3, 24.3].map(reading),
			"three equal titres",
		);
		expect(mean.standardUncertainty).toBeCloseTo(
			Math.hypot(0.05 / 3, 0.05 / Math.sqrt(3)),
			12,
		);
	});
});
