/** Mean residues of a pair, by hand. */
import { describe, expect, test } from "vitest";
import { observationsOf } from "../../kernel-lib/compare/observations";
import {
	doseChange,
	meanResidue,
	residuesOfPair,
} from "../../kernel-lib/compare/residues";
import { type FlaskFixture, flasks } from "./fixtures";

const flask = (
	treatment: string,
	soak: string,
	residue: number,
	more: Partial<FlaskFixture> = {},
): FlaskFixture => ({
	flask: `${treatment}${soak}${residue}`,
	treatment,
	soak,
	residue,
	uptake: 100,
	...more,
});
/** Soak a of two flasks, soak b of one. */
const { list } = observationsOf(
	flasks([
		flask("steam", "a", 100, { residueReading: 6, liquid: 100 }),
		flask("steam", "a", 200, { residueReading: 6, liquid: 100 }),
		flask("steam", "b", 450, { residueReading: 6, liquid: 400 }),
		flask("water", "c", 500, { residueReading: 4, liquid: 900 }),
	]),
);
const pair = { treatment: "steam", control: "water" };

describe("mean residues", () => {
	test("each unit counts once", () => {
		expect(meanResidue(list, "steam", "soak").value).toBeCloseTo(300, 10);
		expect(meanResidue(list, "steam", "flask").value).toBeCloseTo(250, 10);
	});
	test("of a pair, with twice the standard uncertainty of their difference, and the liquid of the treated flasks", () => {
		expect(residuesOfPair(list, pair, "soak")).toEqual({
			treated: expect.closeTo(300, 10),
			control: expect.closeTo(500, 10),
			// A quarter, a quarter and a half of 6; 4
			expandedUncertainty: expect.closeTo(
				2 * Math.hypot(6 / 4, 6 / 4, 6 / 2, 4),
				9,
			),
			liquid: expect.closeTo(0.2, 10),
		});
	});
	test("the dose that brings the treated flasks to the control's residue: 200 mg/L more in 0.2 L", () => {
		expect(doseChange(residuesOfPair(list, pair, "soak"))).toBeCloseTo(40, 9);
	});
});
