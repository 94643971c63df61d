import {
	anyNumberOption,
	type OptionRule,
	type Problem,
	problem,
	requireOptions,
	textOption,
	throwProblems,
	wordOption,
} from "../quantity";

/** Gas constant, J/(mol K): exact since 2019 (CODATA 2018). */
export const gasConstant = 8.314462618;

/**
 * How a measured constant becomes the pure number whose logarithm van 't Hoff's equation needs.
 * - "affinity": K = K_L c0, K_L in L/mol, standard concentration c0 = 1 mol/L. For the affinity of a Langmuir isotherm; the standard state is a half-covered char beside a solution of 1 mol/L.
 * - "distribution": K = K_d rho, K_d in L of water per kg of char, rho the density of water in kg/L: mass of solute per mass of char over mass of solute per mass of water. For the Henry slope.
 * The enthalpy is the same for both within what the density of water changes; the entropy is not, so that it means nothing without the choice.
 */
export type Convention = "affinity" | "distribution";

/** A dimensionless constant that says how it was made. */
export interface DimensionlessConstant {
	readonly kind: "dimensionless constant";
	readonly value: number;
	readonly convention: Convention;
	/** In words, for the page. */
	readonly made: string;
	/** What the measured number was multiplied with; the relative error is that of the measured number. */
	readonly factor: number;
}

export interface MeasuredConstant {
	readonly value: number;
	/** "L/mg", "L/g", "L/mmol", "L/mol" for an affinity; "L/g", "mL/g", "L/kg" for a distribution. */
	readonly unit: string;
	readonly convention: Convention;
	/** g/mol of the solute; needed where an affinity comes per mass. */
	readonly molarMass?: number;
	/** kg/L; for a distribution; 0.997 if not given. */
	readonly density?: number;
}

/** Factor to L/mol; per mass it takes the molar mass (g/mol). */
const affinityUnits: Readonly<Record<string, (molarMass: number) => number>> = {
	"L/mol": () => 1,
	"L/mmol": () => 1000,
	"L/g": (m) => m,
	"L/mg": (m) => 1000 * m,
};
/** Factor to L/kg. */
const distributionUnits: Readonly<Record<string, number>> = {
	"L/kg": 1,
	"mL/g": 1,
	"L/g": 1000,
};
/** A molar mass outside of this is a slip of units. */
const molarMasses = { low: 1, high: 1e6 };

const measuredRules: Readonly<Record<string, OptionRule>> = {
	value: anyNumberOption(),
	unit: textOption,
	convention: wordOption("affinity", "distribution"),
	molarMass: anyNumberOption(),
	density: anyNumberOption(),
};

/**
 * Makes the dimensionless constant. The logarithm of a number with a unit has no meaning: ln of 0.05 L/mg and ln of 50 L/g differ by 6.9, which in the entropy is 57 J/(mol K) out of nothing.
 *
 * @throws ProblemError for a unit that does not suit the convention, a missing molar mass, a number that is not above zero
 * @example
 * // 0.05 L/mg x 1000 mg/g x 253.809 g/mol
 * temperature.dimensionless({ value: 0.05, unit: "L/mg", convention: "affinity", molarMass: 253.809 }).value // => 12690.45
 */
export function dimensionless(
	measured: MeasuredConstant,
): DimensionlessConstant {
	requireOptions(measured, measuredRules, "dimensionless", [
		"value",
		"unit",
		"convention",
	]);
	const { value, unit, convention, molarMass = 0, density = 0.997 } = measured;
	throwProblems(problemsOf(measured));
	if (convention === "affinity") {
		const factor = affinityUnits[unit](molarMass);
		return {
			kind: "dimensionless constant",
			value: value * factor,
			convention,
			factor,
			made: `K = K_L × 1 mol/L with K_L in L/mol${perMass(unit) ? ` (molar mass ${molarMass} g/mol)` : ""}`,
		};
	}
	const factor = distributionUnits[unit] * density;
	return {
		kind: "dimensionless constant",
		value: value * factor,
		convention,
		factor,
		made: `K = K_d × density of water (${density} kg/L) with K_d in L/kg`,
	};
}

function perMass(unit: string): boolean {
	return unit === "L/g" || unit === "L/mg";
}

function problemsOf(m: MeasuredConstant): Problem[] {
	const where = {};
	const units = Object.keys(
		m.convention === "affinity" ? affinityUnits : distributionUnits,
	);
	const known = units.includes(m.unit);
	return [
		...(Number.isFinite(m.value) && m.value > 0
			? []
			: [
					problem(
						"constant-not-positive",
						where,
						Number.isFinite(m.value)
							? `an equilibrium constant of ${m.value} ${m.unit}`
							: "an equilibrium constant that is no number",
						"a number above 0, whose logarithm can be taken",
						"Look at the fit that it comes from.",
					),
				]),
		...(known
			? []
			: [
					problem(
						"unit-does-not-suit",
						where,
						m.unit === "" || m.unit === "1"
							? "an equilibrium constant without a unit"
							: `an equilibrium constant in the unit "${m.unit}"`,
						`for the ${m.convention} convention one of ${units.join(", ")}`,
						m.unit === "" || m.unit === "1"
							? "Every measured constant has a unit; say it, so that the dimensionless one is made from it and not assumed."
							: m.unit.includes("^") || m.unit.includes("(mg/g)")
								? "A Freundlich K_F has a unit that changes with 1/n: its logarithm against 1/T gives no enthalpy. Take the isosteric heat instead."
								: "Convert it, or take the other convention.",
					),
				]),
		...(m.convention === "affinity" &&
		known &&
		perMass(m.unit) &&
		!(
			m.molarMass !== undefined &&
			m.molarMass >= molarMasses.low &&
			m.molarMass <= molarMasses.high
		)
			? [
					problem(
						"molar-mass-missing",
						where,
						m.molarMass === undefined
							? `an equilibrium constant in ${m.unit} without a molar mass`
							: `a molar mass of ${m.molarMass} g/mol`,
						"the molar mass of the solute in g/mol",
						`ln K of a number in ${m.unit} is not ln K of the same in L/mol: the difference goes into the entropy. Give { molarMass: ... }.`,
					),
				]
			: []),
	];
}

/** Below this nothing is in kelvin that water is liquid at. */
const coldest = 200;
const hottest = 500;

/** Problems with temperatures that ought to be in kelvin. */
export function temperatureProblems(kelvins: readonly number[]): Problem[] {
	return kelvins.flatMap((t, i) =>
		Number.isFinite(t) && t >= coldest && t <= hottest
			? []
			: [
					problem(
						"temperature-not-in-kelvin",
						{},
						Number.isFinite(t)
							? `a temperature of ${t} K (number ${i + 1} of ${kelvins.length})`
							: `a temperature that is no number (number ${i + 1} of ${kelvins.length})`,
						`an absolute temperature between ${coldest} and ${hottest} K`,
						t > -50 && t < 150
							? `It looks like ${t} °C: write ${Number((t + 273.15).toFixed(2))} K. 1/T needs the absolute temperature.`
							: "1/T needs the absolute temperature, in kelvin.",
					),
				],
	);
}
