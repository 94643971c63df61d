import {
	functionOf,
	input,
	named,
	plus,
	problem,
	type Quantity,
	quantityOption,
	rectangular,
	requireArgument,
	type SmoothFunction,
	stated,
	throwProblems,
	wordOption,
} from "../quantity";

/** Tanaka, Girard, Davis, Peuto, Bignell, Metrologia 38 (2001) 301; coefficients from memory, they reproduce the published table to its last digit. 0 to 40 °C, kg/m3. */
const tanaka: SmoothFunction<"temperature", "density"> = {
	name: "density of water",
	argumentUnit: "°C",
	kind: "density",
	unit: "kg/m3",
	value: (t) =>
		999.97495 *
		(1 - ((t - 3.983035) ** 2 * (t + 301.797)) / (522528.9 * (t + 69.34881))),
	derivative: (t) => {
		const u = (t - 3.983035) ** 2 * (t + 301.797);
		const v = 522528.9 * (t + 69.34881);
		const du = 2 * (t - 3.983035) * (t + 301.797) + (t - 3.983035) ** 2;
		return (-999.97495 * (du * v - u * 522528.9)) / (v * v);
	},
};

const kellNumerator = [
	999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9,
	-280.54253e-12,
];
const kellDenominator = 16.87985e-3;

function polynomial(c: readonly number[], t: number): number {
	return c.reduceRight((sum, x) => sum * t + x, 0);
}

/** Kell, J. Chem. Eng. Data 20 (1975) 97; coefficients from memory, they reproduce the published table to its last digit. 0 to 150 °C, kg/m3. */
const kell: SmoothFunction<"temperature", "density"> = {
	name: "density of water",
	argumentUnit: "°C",
	kind: "density",
	unit: "kg/m3",
	value: (t) => polynomial(kellNumerator, t) / (1 + kellDenominator * t),
	derivative: (t) => {
		const v = 1 + kellDenominator * t;
		const slope = polynomial(
			kellNumerator.slice(1).map((x, i) => x * (i + 1)),
			t,
		);
		return (
			(slope * v - kellDenominator * polynomial(kellNumerator, t)) / (v * v)
		);
	},
};

const formulas = {
	Tanaka: { formula: tanaka, highest: 40, halfWidth: 0.002 },
	Kell: { formula: kell, highest: 150, halfWidth: 0.01 },
} as const;

/**
 * Density of air-free water at normal pressure.
 *
 * @param by "Tanaka" (2001, 0 to 40 °C, the usual choice) or "Kell" (1975, 0 to 150 °C)
 * @throws ProblemError outside of that range: formulas are not stretched
 * @example
 * const room = quantity.input("temperature", 20, "°C", quantity.exact, {});
 * solutions.waterDensity(room).in("kg/m3") // => 998.207
 */
export function waterDensity(
	temperature: Quantity<"temperature">,
	by: "Tanaka" | "Kell" = "Tanaka",
): Quantity<"density"> {
	requireArgument(temperature, quantityOption("temperature"), "waterDensity");
	requireArgument(by, wordOption("Tanaka", "Kell"), "waterDensity");
	const { formula, highest, halfWidth } = formulas[by];
	const t = temperature.in("°C");
	if (!(t >= 0 && t <= highest))
		throwProblems([
			problem(
				"water-temperature",
				{ column: "waterDensity" },
				`water at ${t} °C`,
				`0 to ${highest} °C, where the formula of ${by} holds`,
				t > 0 && t <= formulas.Kell.highest
					? 'Take the formula of Kell: waterDensity(t, "Kell").'
					: "Look the temperature up again.",
			),
		]);
	return named(
		plus(
			functionOf(temperature, formula),
			input("density", 0, "kg/m3", rectangular(halfWidth), {
				symbol: "δ_{formula}",
				meaning: "error of the formula and of ordinary pure water",
				source: stated(
					`within ${halfWidth} kg/m3; our guess, from memory of the papers`,
				),
			}),
		),
		"ρ_{water}",
		"density of water",
	);
}
