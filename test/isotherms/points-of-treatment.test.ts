import { expect, test } from "vitest";
import { plainPoints } from "../../kernel-lib/isotherms/index";
import { pointsOfTreatment } from "../../kernel-lib/isotherms/points-of-treatment";

const once = plainPoints("fired once", [10, 20], [50, 60]);
const twice = plainPoints("fired twice", [10, 20], [80, 90]);

test("the treatment that is named; without a name the only one", () => {
	expect(pointsOfTreatment([once, twice], "fired twice")).toBe(twice);
	expect(pointsOfTreatment([once], "")).toBe(once);
});

test("of several treatments one must be named, by a name of the sheet; the refusal lists the names", () => {
	expect(() => pointsOfTreatment([once, twice], "")).toThrow(
		/^found 2 treatments.*one of "fired once", "fired twice"/,
	);
	expect(() => pointsOfTreatment([once, twice], "fired thrice")).toThrow(
		/^found the treatment "fired thrice".*one of "fired once", "fired twice"/,
	);
});
