import {
	exact,
	exactRatio,
	input,
	massConcentrationOf,
	minus,
	named,
	nowhere,
	ProblemError,
	per,
	plus,
	problem,
	type Quantity,
	quantityOption,
	rectangular,
	requireArgument,
	scaled,
	stated,
} from "../quantity";
import { molarMass, substanceNamed } from "../substances";

/** Densities of one solute's solutions at 20 °C. */
interface DensityTable {
	readonly formula: string;
	readonly name: string;
	/** % w/w (of the anhydrous substance) and g/mL. */
	readonly rows: readonly (readonly [percent: number, density: number])[];
	/** Half-width of the error that the tabulated densities may have, g/mL. */
	readonly halfWidth: number;
	readonly source: string;
}

const handbook =
	"from memory: handbook tables of aqueous solutions at 20 °C (CRC, Perry); not checked against print";

/** Every solute whose densities are on record. */
export const densityTables: readonly DensityTable[] = [
	{
		formula: "NaOH",
		name: "sodium hydroxide",
		halfWidth: 0.003,
		source: handbook,
		rows: [
			[0, 0.9982],
			[2, 1.0207],
			[5, 1.0538],
			[10, 1.1089],
			[16, 1.1751],
			[20, 1.2191],
			[24, 1.2629],
			[30, 1.3279],
			[40, 1.43],
			[50, 1.5253],
		],
	},
	{
		formula: "KOH",
		name: "potassium hydroxide",
		halfWidth: 0.004,
		source: handbook,
		rows: [
			[0, 0.9982],
			[2, 1.0165],
			[5, 1.0445],
			[10, 1.0905],
			[15, 1.138],
			[20, 1.187],
			[25, 1.237],
			[30, 1.289],
			[40, 1.397],
			[50, 1.512],
		],
	},
	{
		formula: "CaCl2",
		name: "calcium chloride",
		halfWidth: 0.003,
		source: handbook,
		rows: [
			[0, 0.9982],
			[2, 1.0148],
			[4, 1.0316],
			[8, 1.0659],
			[12, 1.1015],
			[16, 1.1386],
			[20, 1.1775],
			[25, 1.2284],
			[30, 1.2816],
			[35, 1.3373],
			[40, 1.3957],
		],
	},
	{
		formula: "NaCl",
		name: "sodium chloride",
		halfWidth: 0.001,
		source: handbook,
		rows: [
			[0, 0.9982],
			[2, 1.0125],
			[4, 1.0268],
			[8, 1.0559],
			[12, 1.0857],
			[16, 1.1162],
			[20, 1.1478],
			[24, 1.1804],
			[26, 1.1972],
		],
	},
	{
		formula: "H3PO4",
		name: "phosphoric acid",
		halfWidth: 0.003,
		source: handbook,
		rows: [
			[0, 0.9982],
			[2, 1.0092],
			[6, 1.0309],
			[14, 1.0764],
			[20, 1.1134],
			[26, 1.1529],
			[30, 1.1805],
			[35, 1.216],
			[40, 1.254],
			[50, 1.335],
			[60, 1.426],
			[75, 1.579],
			[85, 1.689],
		],
	},
	{
		formula: "ZnCl2",
		name: "zinc chloride",
		halfWidth: 0.005,
		source: handbook,
		rows: [
			[0, 0.9982],
			[2, 1.0167],
			[4, 1.035],
			[8, 1.0715],
			[12, 1.1085],
			[16, 1.1468],
			[20, 1.1866],
			[30, 1.2928],
			[40, 1.4173],
			[50, 1.5681],
			[60, 1.749],
			[70, 1.962],
		],
	},
	{
		formula: "K2CO3",
		name: "potassium carbonate",
		halfWidth: 0.003,
		source: handbook,
		rows: [
			[0, 0.9982],
			[2, 1.0163],
			[4, 1.0345],
			[8, 1.0715],
			[12, 1.1096],
			[16, 1.149],
			[20, 1.1898],
			[24, 1.232],
			[28, 1.2756],
			[40, 1.4141],
			[50, 1.5404],
		],
	},
	{
		formula: "C6H8O7",
		name: "citric acid",
		halfWidth: 0.005,
		source: handbook,
		rows: [
			[0, 0.9982],
			[10, 1.038],
			[20, 1.08],
			[30, 1.124],
			[40, 1.17],
			[50, 1.22],
		],
	},
];

function tableOf(solute: string): DensityTable {
	const named = substanceNamed(solute);
	const found = densityTables.find(
		(t) => named.is === "known" && t.formula === named.substance.formula,
	);
	if (found !== undefined) return found;
	throw new ProblemError([
		problem(
			"density-unknown",
			nowhere,
			`the solute "${solute}"`,
			`one whose densities are on record: ${densityTables.map((t) => `${t.name} (${t.formula})`).join(", ")}`,
			"Measure the density: weigh a flask filled to its mark.",
		),
	]);
}

/**
 * Density of a solution at 20 °C from its mass fraction (of the anhydrous substance). Between two rows of the table the volume per gram is interpolated on a straight line, which
 * is how volumes would add; the error of the table is a stated half-width, every value equally likely.
 *
 * @param solute formula or name
 * @throws ProblemError for a solute without a table or a mass fraction beyond it: nothing is extrapolated
 */
export function solutionDensity(
	solute: string,
	fraction: Quantity<"ratio">,
): Quantity<"density"> {
	const { formula, name, rows, halfWidth, source } = tableOf(solute);
	const percent = fraction.in("%");
	const [highest] = rows[rows.length - 1];
	if (!(percent >= 0 && percent <= highest))
		throw new ProblemError([
			problem(
				"density-beyond-table",
				nowhere,
				`${fraction.to("%")} of ${name}`,
				`0 to ${highest} % w/w, which is what the table covers`,
				"Measure the density: weigh a flask filled to its mark.",
			),
		]);
	const above = Math.max(
		1,
		rows.findIndex(([p]) => p >= percent),
	);
	const [p1, d1] = rows[above - 1];
	const [p2, d2] = rows[above];
	const below = input("density", d1, "g/mL", exact, {
		symbol: `ρ_{${p1} %}`,
		meaning: `density of ${p1} % ${name}`,
		source: stated(source),
	});
	const slope = ((d1 / d2 - 1) / (p2 - p1)) * 100;
	const beyond = minus(
		fraction,
		input("ratio", p1, "%", exact, {
			symbol: "w_1",
			meaning: "row of the table",
			source: stated(source),
		}),
	);
	const error = input("density", 0, "g/mL", rectangular(halfWidth), {
		symbol: `δ_{table ${formula}}`,
		meaning: `error of the densities of ${name}`,
		source: stated(`${source}; within ${halfWidth} g/mL`),
	});
	return named(
		plus(per(below, plus(exactRatio(1), scaled(beyond, slope))), error),
		`ρ_{${formula}}`,
		`density of the ${name} solution at 20 °C`,
	);
}

/**
 * Concentration in mol/L of a solution known by its mass fraction: c = w ρ / M, the density from the table unless it was measured.
 * @throws ProblemError for a formula that cannot be read or a solute without a table
 * @example
 * const w = quantity.input("ratio", 10, "%", quantity.exact, {});
 * const density = quantity.input("density", 1, "g/mL", quantity.exact, {});
 * solutions.concentrationFromMassFraction("NaCl", w, density).in("mol/L") // => 1.71116
 */
export function concentrationFromMassFraction(
	formula: string,
	fraction: Quantity<"ratio">,
	density?: Quantity<"density">,
): Quantity<"concentration"> {
	const call = "concentrationFromMassFraction";
	requireArgument(fraction, quantityOption("ratio"), call);
	if (density !== undefined)
		requireArgument(density, quantityOption("density"), call);
	return named(
		per(
			massConcentrationOf(
				fraction,
				density ?? solutionDensity(formula, fraction),
			),
			molarMass(formula),
		),
		`c_{${formula}}`,
		`concentration of ${formula}`,
	);
}
