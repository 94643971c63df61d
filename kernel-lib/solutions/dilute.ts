import {
	anyQuantityOption,
	massConcentrationOf,
	named,
	nowhere,
	per,
	problem,
	type Quantity,
	quantityOption,
	requireArgument,
	requireOptions,
	requireText,
	type Same,
	throwProblems,
	times,
} from "../quantity";
import { molarMass } from "../substances";
import { cautionsOf } from "./making-up-cautions";
import { type Preparation, preparation } from "./preparation";

/** What a dilution may be counted in. */
export type Concentration = "concentration" | "normality" | "massConcentration";

export interface StockOptions {
	/** Density of a stock that is known by its mass fraction. */
	readonly density: Quantity<"density">;
}

const steps = (volume: Quantity<"volume">): string[] => [
	"Put about half of the water into the flask first.",
	`Run the stock into the water, let it come to room temperature and fill to the mark (${volume}).`,
	"Close and turn over several times.",
];

function volumeOfStock(
	what: string,
	stock: Quantity,
	wanted: Quantity,
	volume: Quantity<"volume">,
): Quantity<"volume"> {
	const share = per(
		wanted as Quantity<"concentration">,
		stock as Quantity<"concentration">,
	);
	if (share.value > 1)
		throwProblems([
			problem(
				"stock-too-weak",
				nowhere,
				`${what} of ${stock} for ${wanted}`,
				"a stock at least as strong as what is wanted",
				"Take a stronger stock.",
			),
		]);
	return named(times(volume, share), "V_1", `volume of the ${what} stock`);
}

/** @throws ProblemError where the strengths are counted in two ways, or a mass fraction comes without a density */
function requireComparable(
	stock: Quantity,
	wanted: Quantity,
	options: Partial<StockOptions>,
): void {
	if (
		stock.kind === "ratio"
			? wanted.kind !== "concentration"
			: stock.kind !== wanted.kind
	)
		throwProblems([
			problem(
				"dilution-kinds",
				{ column: "dilute" },
				`a stock in ${stock.unit} for a solution in ${wanted.unit}`,
				"both in mol/L, both in N, both in g/L, or a stock in % for a solution in mol/L",
				"Give both strengths in one way.",
			),
		]);
	if (stock.kind === "ratio" && options.density === undefined)
		throwProblems([
			problem(
				"density-missing",
				{ column: "dilute" },
				`a stock of ${stock.to("%")} without a density`,
				"the density of the stock",
				"Add { density: ... } in g/mL: a percentage by weight needs it to become a concentration.",
			),
		]);
}

/**
 * Volume of a stock for a dilution: V1 = c2 V2 / c1. A stock that is known by its mass fraction and density (85 % phosphoric acid, 37 % hydrochloric acid) is given by mass, which
 * is better, and by volume; `what` is then its formula.
 * @throws ProblemError for a stock weaker than what is wanted, strengths counted in two ways, a mass fraction without a density
 * @example
 * const molar = (c: number) => quantity.input("concentration", c, "mol/L", quantity.exact, {});
 * const litre = quantity.input("volume", 1000, "mL", quantity.exact, {});
 * solutions.dilute("NaOH", molar(1), molar(0.1), litre).sentence // => "0.1 mol/L NaOH: 100 mL of NaOH, 1 mol/L, made up to 1000 mL."
 */
export function dilute<K extends Concentration>(
	what: string,
	stock: Quantity<K>,
	wanted: Quantity<Same<K>>,
	volume: Quantity<"volume">,
): Preparation;
export function dilute(
	what: string,
	stock: Quantity<"ratio">,
	wanted: Quantity<"concentration">,
	volume: Quantity<"volume">,
	options: StockOptions,
): Preparation;
export function dilute(
	what: string,
	stock: Quantity,
	wanted: Quantity,
	volume: Quantity<"volume">,
	options: Partial<StockOptions> = {},
): Preparation {
	requireOptions(options, { density: quantityOption("density") }, "dilute");
	requireText(what, 'what is diluted, in quotes, such as "HCl"', "dilute");
	requireArgument(stock, anyQuantityOption, "dilute");
	requireArgument(wanted, anyQuantityOption, "dilute");
	requireArgument(volume, quantityOption("volume"), "dilute");
	requireComparable(stock, wanted, options);
	const common = {
		solution: `${wanted} ${what}`,
		total: volume,
		steps: steps(volume),
		cautions: cautionsOf([what]),
	};
	const { density } = options;
	if (stock.kind !== "ratio" || density === undefined)
		return preparation({
			...common,
			portions: [
				{
					what: `${what}, ${stock}`,
					amount: volumeOfStock(what, stock, wanted, volume),
				},
			],
		});
	const fraction = stock as Quantity<"ratio">;
	const molar = per(massConcentrationOf(fraction, density), molarMass(what));
	const byVolume = volumeOfStock(what, molar.to("mol/L"), wanted, volume);
	const byMass = named(
		times(density, byVolume).to("g"),
		"m_1",
		`mass of the ${what} stock`,
	);
	return preparation({
		...common,
		portions: [
			{ what: `${fraction.to("%")} ${what}, by mass`, amount: byMass },
			{ what: "or the same by volume", amount: byVolume },
		],
	});
}
