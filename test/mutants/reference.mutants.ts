import { describe, expect, test } from "vitest";
import { calibrationChecks } from "../reference/calibration.checks";
import { passes } from "../reference/check";
import { iodineNumberChecks } from "../reference/iodine-number.checks";
import { iodometryChecks } from "../reference/iodometry.checks";
import { solutionChecks } from "../solutions/solutions.checks";

/** The checks of these rooms against the outside world, which the whole suite runs in test/reference/ among all others. */
const checks = [
	...solutionChecks,
	...calibrationChecks,
	...iodometryChecks,
	...iodineNumberChecks,
];

describe("against the outside world", () => {
	test.each(checks)("$what", (check) => {
		expect(passes(check, check.got())).toBe(true);
	});
});
