import {
	massPerMass,
	named,
	objectOption,
	per,
	problem,
	type Quantity,
	quantityOption,
	requireList,
	requireOptions,
	type Table,
	table,
	textOption,
	throwProblems,
	times,
	type WithTable,
	withTable,
} from "../../quantity";
import type { TitrationDefinition } from "./definitions";

/** What was used up in a titration to a colour. */
export interface DyeTitration {
	/** One of `methyleneBlueTitrations`, or your own. */
	readonly definition: TitrationDefinition;
	/** Name of the char. */
	readonly sample: string;
	readonly volume: Quantity<"volume">;
	/** Of the dye itself, not of the powder that was weighed. */
	readonly strength: Quantity<"massConcentration">;
	readonly char: Quantity<"mass">;
}

/** A methylene-blue number by titration to a colour, in both ways of writing it. */
export interface MethyleneBlueNumber {
	readonly titrated: DyeTitration;
	/** Dye per gram of char. */
	readonly uptake: Quantity<"uptake">;
	/** Volume of dye solution per gram of char; a tenth of it is the number "in mL for 0.1 g". */
	readonly volumePerGram: Quantity<"volumePerMass">;
}

/** What stands in a titration, by name. */
const titrationRules = {
	definition: objectOption("one of uptake.methyleneBlueTitrations"),
	sample: textOption,
	volume: quantityOption("volume"),
	strength: quantityOption("massConcentration"),
	char: quantityOption("mass"),
};

/**
 * Methylene-blue numbers of titrations to a colour: volume times strength over mass of char, in mg/g, and in mL for a gram of char. Shown as a table, with the definition that each follows and what was done otherwise.
 *
 * @param titrations what was used up, each with its definition; the strength is of the dye itself, not of the powder that was weighed
 * @throws ProblemError for a volume, strength or mass that is not above zero, for a titration without a definition, and for names that a titration does not have
 * @example
 * const volume = quantity.input("volume", 20, "mL", quantity.exact, {});
 * const strength = quantity.input("massConcentration", 1.5, "g/L", quantity.exact, {});
 * const char = quantity.input("mass", 0.1, "g", quantity.exact, {});
 * const numbers = uptake.methyleneBlueNumbers([{ definition: uptake.methyleneBlueTitrations.CEFIC, sample: "steam", volume: volume, strength: strength, char: char }]);
 * numbers[0].uptake.in("mg/g") // => 300
 * numbers.table // => "Methylene-blue numbers by titration to a colour"
 */
export function methyleneBlueNumbers(
	titrations: readonly DyeTitration[],
): WithTable<readonly MethyleneBlueNumber[]> {
	requireList(
		titrations,
		"a titration: { definition, sample, volume, strength, char }",
		"methyleneBlueNumbers",
	);
	return withTable(titrations.map(numberOf), methyleneBlueTable);
}

function numberOf(titrated: DyeTitration): MethyleneBlueNumber {
	requireOptions(titrated, titrationRules, "methyleneBlueNumbers");
	throwProblems([
		...(titrated.definition?.form !== "titration to a colour"
			? [
					problem(
						"no-definition",
						{ column: "definition" },
						"a titration without the definition of its number",
						"one of uptake.methyleneBlueTitrations, or your own of that form",
						"Write for instance definition: uptake.methyleneBlueTitrations.CEFIC.",
					),
				]
			: []),
		...(["volume", "strength", "char"] as const)
			.filter((name) => !(titrated[name]?.value > 0))
			.map((name) =>
				problem(
					"not-above-zero",
					{ column: name },
					`${titrated[name] ?? "nothing"}`,
					"a quantity above 0",
					"Volume, strength and mass of char are all needed, and all above 0.",
				),
			),
	]);
	return {
		titrated,
		uptake: named(
			massPerMass(times(titrated.strength, titrated.volume), titrated.char),
			"q_{MB}",
			`methylene-blue number (${titrated.definition.standard})`,
		),
		volumePerGram: named(
			per(titrated.volume, titrated.char),
			"V_{MB}/m",
			"methylene-blue solution for a gram of char",
		),
	};
}

/** How far conditions may lie from the definition's before the table says so, relative. A decision of ours. */
const near = 0.05;

function methyleneBlueTable(numbers: readonly MethyleneBlueNumber[]): Table {
	const used = [...new Set(numbers.map((n) => n.titrated.definition))];
	return table(
		"Methylene-blue numbers by titration to a colour",
		["sample", "definition", "number (mg/g)", "mL for 0.1 g", "done otherwise"],
		numbers.map((n) => {
			const { definition } = n.titrated;
			const strength = n.titrated.strength.in("g/L");
			const char = n.titrated.char.in("g");
			return [
				n.titrated.sample,
				definition.standard,
				n.uptake.to("mg/g"),
				(n.volumePerGram.in("mL/g") / 10).toPrecision(3),
				[
					Math.abs(strength / definition.strength - 1) > near
						? `${strength.toPrecision(3)} g/L instead of ${definition.strength}`
						: "",
					Math.abs(char / definition.char - 1) > near
						? `${char.toPrecision(3)} g of char instead of ${definition.char}`
						: "",
				]
					.filter((text) => text !== "")
					.join("; "),
			];
		}),
		[
			...used.map(
				(d) =>
					`${d.standard}: ${d.words} (${d.provenance}; check the edition).`,
			),
			used.length > 1
				? "The definitions stop at different colours and times: their numbers are not to be mixed."
				: "Other definitions stop at another colour or time and give other numbers.",
		],
	);
}
