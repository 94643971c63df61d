import {
	exact,
	exactRatio,
	input,
	jupyterDisplay,
	massConcentrationOf,
	minus,
	named,
	nowhere,
	ProblemError,
	per,
	plainNumber,
	problem,
	type Quantity,
	type Same,
	stated,
	type Table,
	table,
	tableHtml,
	tableText,
	times,
} from "../quantity";
import { molarMass } from "../substances";
import { cautionsOf } from "./making-up-cautions";

/** One thing to weigh or measure out. */
export interface Portion {
	readonly what: string;
	readonly amount: Quantity<"mass"> | Quantity<"volume">;
}

/** How to make a solution: what to weigh and measure, in which order, and what to beware of. */
export interface Preparation {
	readonly solution: string;
	readonly portions: readonly Portion[];
	readonly steps: readonly string[];
	readonly cautions: readonly string[];
}

export interface SolidOptions {
	/** Formula of what is weighed, where it is not the substance itself: a hydrate, for example CaCl2·2H2O. It must hold the substance once for each formula unit. */
	readonly weighedAs: string;
	/** Mass fraction of what is weighed; 1 unless told otherwise. */
	readonly purity: Quantity<"ratio">;
}

function preparation(parts: Preparation): Preparation {
	const shown = weighingList([parts]);
	return Object.assign(
		{ ...parts },
		{
			[jupyterDisplay]: () => ({
				"text/html": tableHtml(shown),
				"text/plain": tableText(shown),
			}),
			[Symbol.for("nodejs.util.inspect.custom")]: () => tableText(shown),
		},
	);
}

/** Mass to weigh for a mass of the substance itself: m M(weighed) / (M P). */
function toWeigh(
	formula: string,
	substance: Quantity<"mass">,
	options: Partial<SolidOptions>,
): Portion {
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

/**
 * A solution by mass fraction (% w/w of the substance itself; the water of a hydrate counts as water).
 * @throws ProblemError when the hydrate holds more water than the solution may
 */
export function makeUpByMassFraction(
	formula: string,
	fraction: Quantity<"ratio">,
	totalMass: Quantity<"mass">,
	options: Partial<SolidOptions> = {},
): Preparation {
	const solid = toWeigh(formula, times(fraction, totalMass), options);
	const water = named(
		minus(totalMass, solid.amount as Quantity<"mass">),
		"m_{water}",
		"water to weigh",
	);
	if (!(water.value > 0))
		throw new ProblemError([
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

/** A solution by mass per volume (% w/v is 10 g/L for each per cent). */
export function makeUpByMassPerVolume(
	formula: string,
	concentration: Quantity<"massConcentration">,
	volume: Quantity<"volume">,
	options: Partial<SolidOptions> = {},
): Preparation {
	return preparation({
		solution: `${concentration.to("g/L")} ${formula}`,
		portions: [toWeigh(formula, times(concentration, volume), options)],
		steps: toTheMark(volume),
		cautions: cautionsOf([formula]),
	});
}

/** A solution by amount per volume: m = c V M. */
export function makeUpMolar(
	formula: string,
	concentration: Quantity<"concentration">,
	volume: Quantity<"volume">,
	options: Partial<SolidOptions> = {},
): Preparation {
	const mass = times(times(concentration, volume), molarMass(formula));
	return preparation({
		solution: `${concentration.to("mol/L")} ${formula}`,
		portions: [toWeigh(formula, mass, options)],
		steps: toTheMark(volume),
		cautions: cautionsOf([formula]),
	});
}

/**
 * Iodine in potassium iodide: the ratio of iodide to iodine is part of the method, so it has no default.
 *
 * @param iodidePerIodine grams of KI for each gram of I2; at least about 1.3, or the iodine does not stay dissolved
 */
export function makeUpIodine(
	concentration: Quantity<"concentration">,
	volume: Quantity<"volume">,
	iodidePerIodine: number,
): Preparation {
	if (!(iodidePerIodine >= 1.3))
		throw new RangeError(
			`Iodine needs about 1.3 grams of potassium iodide a gram or more to stay dissolved, found ${iodidePerIodine}.`,
		);
	const iodine = toWeigh(
		"I2",
		times(times(concentration, volume), molarMass("I2")),
		{},
	);
	const iodide = named(
		times(
			iodine.amount as Quantity<"mass">,
			exactRatio(iodidePerIodine, "r", "grams of KI for each gram of I2"),
		),
		"m_{KI}",
		"mass of KI to weigh",
	);
	return preparation({
		solution: `${concentration.to("mol/L")} I2 in potassium iodide`,
		portions: [iodine, { what: "KI", amount: iodide }],
		steps: [
			"Weigh the iodine in a closed weighing bottle.",
			"Dissolve iodine and iodide together in very little water; only when all is dissolved, add more.",
			`Fill to ${volume} in brown glass, close, let it stand overnight, then standardise.`,
		],
		cautions: cautionsOf(["I2"]),
	});
}

/** What a dilution may be counted in. */
export type Concentration = "concentration" | "normality" | "massConcentration";

/**
 * Volume of a stock for a dilution: V1 = c2 V2 / c1.
 * @throws ProblemError for a stock weaker than what is wanted
 */
export function dilute<K extends Concentration>(
	what: string,
	stock: Quantity<K>,
	wanted: Quantity<Same<K>>,
	volume: Quantity<"volume">,
): Preparation {
	const share = per(
		wanted as Quantity<"concentration">,
		stock as Quantity as Quantity<"concentration">,
	);
	if (share.value > 1)
		throw new ProblemError([
			problem(
				"stock-too-weak",
				nowhere,
				`${what} of ${stock} for ${wanted}`,
				"a stock at least as strong as what is wanted",
				"Take a stronger stock.",
			),
		]);
	return preparation({
		solution: `${wanted} ${what}`,
		portions: [
			{
				what: `${what}, ${stock}`,
				amount: named(
					times(volume, share),
					"V_1",
					`volume of the ${what} stock`,
				),
			},
		],
		steps: dilutionSteps(volume),
		cautions: cautionsOf([what]),
	});
}

function dilutionSteps(volume: Quantity<"volume">): string[] {
	return [
		"Put about half of the water into the flask first.",
		`Run the stock into the water, let it come to room temperature and fill to the mark (${volume}).`,
		"Close and turn over several times.",
	];
}

/** A dilution of a concentrated stock that is known by its mass fraction and density (85 % phosphoric acid, 37 % hydrochloric acid): the stock by volume and, better, by mass. */
export function diluteConcentrate(
	formula: string,
	fraction: Quantity<"ratio">,
	density: Quantity<"density">,
	wanted: Quantity<"concentration">,
	volume: Quantity<"volume">,
): Preparation {
	const stock = per(massConcentrationOf(fraction, density), molarMass(formula));
	const { portions, ...rest } = dilute(
		formula,
		stock.to("mol/L"),
		wanted,
		volume,
	);
	const byVolume = portions[0].amount as Quantity<"volume">;
	const byMass = named(
		times(density, byVolume).to("g"),
		"m_1",
		`mass of the ${formula} stock`,
	);
	return preparation({
		...rest,
		portions: [
			{ what: `${fraction.to("%")} ${formula}, by mass`, amount: byMass },
			{ what: "or the same by volume", amount: byVolume },
		],
	});
}

/** An exact volume for recipes: 1000 mL of this, half a litre of that. */
export function recipeVolume(millilitres: number): Quantity<"volume"> {
	return input("volume", millilitres, "mL", exact, {
		symbol: "V",
		meaning: "volume to make",
		source: stated("recipe"),
	});
}

/** An amount as one weighs or measures it: four digits. How well the recipe knows the molar mass is no matter for a balance. */
function toMeasure({ value, unit }: Portion["amount"]): string {
	return `${plainNumber(Number(value.toPrecision(4)))} ${unit}`;
}

/** Everything to weigh and measure for a list of solutions, with steps and cautions as notes. */
export function weighingList(preparations: readonly Preparation[]): Table {
	const cautions = [...new Set(preparations.flatMap((p) => p.cautions))];
	return table(
		"Weighing list",
		["solution", "weigh or measure", "amount"],
		preparations.flatMap((p) =>
			p.portions.map(({ what, amount }, i) => [
				i === 0 ? p.solution : "",
				what,
				toMeasure(amount),
			]),
		),
		[
			...preparations.map((p) => `${p.solution}: ${p.steps.join(" ")}`),
			...cautions,
		],
	);
}

/** A recipe in one sentence, for the head of a page. */
export function recipeSentence({ solution, portions }: Preparation): string {
	return `${solution}: ${portions.map(({ what, amount }) => `${toMeasure(amount)} of ${what}`).join(", ")}.`;
}
