// Invented numbers for the figures of doses and temperatures.
import * as dose from "../../kernel-lib/dose/index";
import {
	fitIsotherm,
	langmuir,
	uptakeAt,
} from "../../kernel-lib/isotherms/index";
import * as mixtures from "../../kernel-lib/mixtures/index";
import * as temperature from "../../kernel-lib/temperature/index";
import { flasksOf } from "../dose/flasks";

const theta = Float64Array.of(120, 0.05);
const doses = [0.4, 0.8, 1.2, 1.6, 2, 3, 4, 6];
const errors = [2, -1.5, 1.2, -1.4, 0.8, 0.7, -0.6, 0.4];

export const flasks = flasksOf(
	(c) => uptakeAt(langmuir, theta, c),
	200,
	doses,
	errors,
	1,
	[{ key: "titrant", relative: 0.01 }],
);
export const doseFit = fitIsotherm(langmuir, flasks);
/** As if a twentieth of the water stayed. */
export const background: dose.NaturalBackground = {
	...dose.naturalBackground(langmuir, flasks),
	is: "shown",
	share: 0.05,
};
export const removals = dose.removalPoints(flasks);
export const removal = dose.removalCurve(doseFit, {
	name: "isotherm and balance",
});
export const answers = [20, 60].map((target) =>
	dose.doseForTarget(doseFit, { start: 200, target }),
);
export const counterCurrent = dose.doseForTarget(doseFit, {
	start: 200,
	target: 20,
	stages: 3,
	scheme: "counter-current",
	beyond: "mark",
});
export const crossCurrent = dose.doseForTarget(doseFit, {
	start: 200,
	target: 20,
	stages: 3,
	beyond: "mark",
});
export const refusedDose = dose.doseForTarget(doseFit, {
	start: 200,
	target: 300,
});
export const hillCurve = dose.responseCurve(
	dose.fitResponse(
		dose.hill,
		removals.map((r) => r.dose),
		removals.map((r) => r.removal),
		{ fixed: { floor: 0 }, name: "flasks" },
	),
	200,
);
export const mixture = mixtures.mixtureCurves(
	"competitive Langmuir",
	[
		{ name: "tint", fit: doseFit, molarMass: 254, start: 200 },
		{
			name: "leaf brown",
			fit: fitIsotherm(langmuir, { ...flasks, probe: "leaf brown" }),
			molarMass: 300,
			start: 60,
		},
	],
	"tint",
);
const stepAt = (kelvin: number, value: number) => ({
	kelvin,
	constant: temperature.dimensionless({
		value,
		unit: "L/mg",
		convention: "affinity",
		molarMass: 253.809,
	}),
	ownError: 0.05,
	shared: [{ key: "t", what: "thiosulfate", effect: 0.01 }],
});
export const vanTHoff = temperature.vanTHoff([
	stepAt(278.15, 0.082),
	stepAt(288.15, 0.058),
	stepAt(298.15, 0.045),
	stepAt(308.15, 0.033),
]);
export const twoTemperatures = temperature.vanTHoff([
	stepAt(278.15, 0.082),
	stepAt(308.15, 0.033),
]);
