import {
	anyNumberOption,
	anyQuantityOption,
	exactRatio,
	minus,
	named,
	nowhere,
	per,
	problem,
	type Quantity,
	quantityOption,
	requireArgument,
	requireOptions,
	textOption,
	throwProblems,
	times,
} from "../quantity";
import { molarMass } from "../substances";
import { cautionsOf } from "./making-up-cautions";
import { type Portion, type Preparation, preparation } from "./preparation";

export interface SolidOptions {
	/** Formula of what is weighed, where it is not the substance itself: a hydrate, for example CaCl2·2H2O. It must hold the substance once for each formula unit. */
	readonly weighedAs: string;
	/** Mass fraction of what is weighed; 1 unless told otherwise. */
	readonly purity: Quantity<"ratio">;
}

/** Mass to weigh for a mass of the substance itself: m M(weighed) / (M P). */
function toWeigh(
	formula: string,
	substance: Quantity<"mass">,
	options: Partial<SolidOptions>,
): Portion & { readonly amount: Quantity<"mass"> } {
	const weighedAs = options.weighedAs ?? formula;
	const asWeighed =
		weighedAs === formula
			? substance
			: times(substance, per(molarMass(weighedAs), molarMass(formula)));
	return {
		what: weighedAs,
		amount: named(
			(options.purity === undefined
				? asWeighed
				: per(asWeighed, options.purity)
			).to("g"),
			`m_{${weighedAs}}`,
			`mass of ${weighedAs} to weigh`,
		),
	};
}

function byMassFraction(
	formula: string,
	fraction: Quantity<"ratio">,
	totalMass: Quantity<"mass">,
	options: Partial<SolidOptions>,
): Preparation {
	const solid = toWeigh(formula, times(fraction, totalMass), options);
	const water = named(
		minus(totalMass, solid.amount),
		"m_{water}",
		"water to weigh",
	);
	if (!(water.value > 0))
		throwProblems([
			problem(
				"too-concentrated",
				nowhere,
				`${fraction.to("%")} of ${formula} from ${solid.what}`,
				"a solution with more water than the solid brings along",
				"Ask for a weaker solution or weigh the anhydrous substance.",
			),
		]);
	return preparation({
		solution: `${fraction.to("%")} w/w ${formula}`,
		portions: [solid, { what: "water", amount: water.to("g") }],
		total: totalMass,
		steps: [
			"Weigh the water, then the solid.",
			"Add the solid to the water in portions, stirring; let it cool.",
		],
		cautions: cautionsOf([formula]),
	});
}

const toTheMark = (volume: Quantity<"volume">): string[] => [
	"Dissolve the solid in about two thirds of the water.",
	`Let it come to room temperature, rinse everything into the flask and fill to the mark (${volume}).`,
	"Close and turn over several times.",
];

function toVolume(
	formula: string,
	strength: Quantity<"massConcentration"> | Quantity<"concentration">,
	volume: Quantity<"volume">,
	options: Partial<SolidOptions>,
): Preparation {
	const molar = strength.kind === "concentration";
	const mass = molar
		? times(
				times(strength as Quantity<"concentration">, volume),
				molarMass(formula),
			)
		: times(strength as Quantity<"massConcentration">, volume);
	return preparation({
		solution: `${molar ? strength.to("mol/L") : strength.to("g/L")} ${formula}`,
		portions: [toWeigh(formula, mass, options)],
		total: volume,
		steps: toTheMark(volume),
		cautions: cautionsOf([formula]),
	});
}

/** @throws ProblemError for a strength and an amount that do not go together */
function requirePair(strength: Quantity, amount: Quantity): void {
	const wanted = strength.kind === "ratio" ? "mass" : "volume";
	const known = ["ratio", "massConcentration", "concentration"];
	throwProblems([
		...(known.includes(strength.kind)
			? []
			: [
					problem(
						"strength-kind",
						{ column: "makeUp" },
						`a strength of the kind ${strength.kind}`,
						`a mass fraction (ratio), a mass per volume (massConcentration) or mol/L (concentration)`,
						"Give the strength in %, g/L or mol/L.",
					),
				]),
		...(known.includes(strength.kind) && amount.kind !== wanted
			? [
					problem(
						"amount-kind",
						{ column: "makeUp" },
						`an amount of the kind ${amount.kind} for a strength in ${strength.unit}`,
						`a ${wanted}: ${wanted === "mass" ? "of a solution by mass fraction, the mass of all of it" : "the volume that is filled to the mark"}`,
						wanted === "mass" ? "Give it in g." : "Give it in mL.",
					),
				]
			: []),
	]);
}

/**
 * What to weigh for a solution of a solid, with steps and cautions. A mass fraction (% w/w of the substance itself; the water of a hydrate counts as water) takes the mass of the
 * whole solution: m = w m(solution). A strength in g/L or mol/L takes the volume that is filled to the mark: m = ρ V, m = c V M.
 * @throws ProblemError for a formula that cannot be read, a hydrate that holds more water than the solution may, an amount that does not go with the strength
 * @example
 * const tenPercent = quantity.input("ratio", 10, "%", quantity.exact, {});
 * const halfKilogram = quantity.input("mass", 500, "g", quantity.exact, {});
 * solutions.makeUp("K2CO3", tenPercent, halfKilogram).sentence // => "10 % w/w K2CO3: 50 g of K2CO3, 450 g of water, 500 g in all."
 * const tenthMolar = quantity.input("concentration", 0.1, "mol/L", quantity.exact, {});
 * const litre = quantity.input("volume", 1000, "mL", quantity.exact, {});
 * solutions.makeUp("Na2S2O3", tenthMolar, litre, { weighedAs: "Na2S2O3·5H2O" }).sentence // => "0.1 mol/L Na2S2O3: 24.82 g of Na2S2O3·5H2O, made up to 1000 mL."
 */
export function makeUp(
	formula: string,
	strength: Quantity<"ratio">,
	amount: Quantity<"mass">,
	options?: Partial<SolidOptions>,
): Preparation;
export function makeUp(
	formula: string,
	strength: Quantity<"massConcentration"> | Quantity<"concentration">,
	amount: Quantity<"volume">,
	options?: Partial<SolidOptions>,
): Preparation;
export function makeUp(
	formula: string,
	strength: Quantity,
	amount: Quantity,
	options: Partial<SolidOptions> = {},
): Preparation {
	requireOptions(
		options,
		{ weighedAs: textOption, purity: quantityOption("ratio") },
		"makeUp",
	);
	requireArgument(strength, anyQuantityOption, "makeUp");
	requireArgument(amount, anyQuantityOption, "makeUp");
	requirePair(strength, amount);
	return strength.kind === "ratio"
		? byMassFraction(
				formula,
				strength as Quantity<"ratio">,
				amount as Quantity<"mass">,
				options,
			)
		: toVolume(
				formula,
				strength as Quantity<"concentration">,
				amount as Quantity<"volume">,
				options,
			);
}

/** Grams of potassium iodide for each gram of iodine below which iodine does not stay dissolved. Common practice, no source. */
const leastIodide = 1.3;

/**
 * Iodine in potassium iodide: the ratio of iodide to iodine is part of the method, so it has no default.
 *
 * @param concentration of I2
 * @param iodidePerIodine grams of KI for each gram of I2; at least 1.3, or the iodine does not stay dissolved
 * @throws ProblemError for less iodide than that
 * @example
 * const c = quantity.input("concentration", 0.05, "mol/L", quantity.exact, {});
 * const litre = quantity.input("volume", 1000, "mL", quantity.exact, {});
 * solutions.makeUpIodine(c, litre, 2).sentence // => "0.05 mol/L I2 in potassium iodide: 12.69 g of I2, 25.38 g of KI, made up to 1000 mL."
 */
export function makeUpIodine(
	concentration: Quantity<"concentration">,
	volume: Quantity<"volume">,
	iodidePerIodine: number,
): Preparation {
	requireArgument(
		concentration,
		quantityOption("concentration"),
		"makeUpIodine",
	);
	requireArgument(volume, quantityOption("volume"), "makeUpIodine");
	requireArgument(iodidePerIodine, anyNumberOption(), "makeUpIodine");
	if (!(iodidePerIodine >= leastIodide) || !Number.isFinite(iodidePerIodine))
		throwProblems([
			problem(
				"iodide-too-little",
				{ column: "makeUpIodine" },
				`${iodidePerIodine} grams of potassium iodide for each gram of iodine`,
				`at least ${leastIodide}, for the iodine to stay dissolved`,
				"Take the ratio that the method asks for.",
			),
		]);
	const iodine = toWeigh(
		"I2",
		times(times(concentration, volume), molarMass("I2")),
		{},
	);
	const iodide = named(
		times(
			iodine.amount,
			exactRatio(iodidePerIodine, "r", "grams of KI for each gram of I2"),
		),
		"m_{KI}",
		"mass of KI to weigh",
	);
	return preparation({
		solution: `${concentration.to("mol/L")} I2 in potassium iodide`,
		portions: [iodine, { what: "KI", amount: iodide }],
		total: volume,
		steps: [
			"Weigh the iodine in a closed weighing bottle.",
			"Dissolve iodine and iodide together in very little water; only when all is dissolved, add more.",
			`Fill to ${volume} in brown glass, close, let it stand overnight, then standardise.`,
		],
		cautions: cautionsOf(["I2"]),
	});
}
