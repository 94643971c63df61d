import {
	massPerMass,
	named,
	per,
	type Quantity,
	type Table,
	table,
	times,
} from "../../quantity";
import type { TitrationDefinition } from "./definitions";

/** A methylene-blue number by titration to a colour, in both ways of writing it. */
export interface MethyleneBlueNumber {
	readonly definition: TitrationDefinition;
	/** Dye per gram of char. */
	readonly uptake: Quantity<"uptake">;
	/** Volume of dye solution per gram of char; a tenth of it is the number "in mL for 0.1 g". */
	readonly volume: Quantity<"volumePerMass">;
}

/**
 * The methylene-blue number of a titration to a colour: volume times strength over mass of char. The strength is that of the dye itself, not of the powder that was weighed.
 *
 * @throws RangeError for a volume, strength or mass that is not above zero
 */
export function methyleneBlueNumber(
	definition: TitrationDefinition,
	titrated: {
		readonly volume: Quantity<"volume">;
		readonly strength: Quantity<"massConcentration">;
		readonly char: Quantity<"mass">;
	},
): MethyleneBlueNumber {
	for (const q of [titrated.volume, titrated.strength, titrated.char])
		if (!(q.value > 0))
			throw new RangeError(
				`Volume, strength and mass of char lie above 0, found ${q}.`,
			);
	return {
		definition,
		uptake: named(
			massPerMass(times(titrated.strength, titrated.volume), titrated.char),
			"q_{MB}",
			`methylene-blue number (${definition.standard})`,
		),
		volume: named(
			per(titrated.volume, titrated.char),
			"V_{MB}/m",
			"methylene-blue solution for a gram of char",
		),
	};
}

/** How far conditions may lie from the definition's before the table says so, relative. A decision of ours. */
const near = 0.05;

/** Methylene-blue numbers with the definition that each follows and what was done otherwise. */
export function methyleneBlueTable(
	numbers: readonly (MethyleneBlueNumber & {
		readonly sample: string;
		readonly strength: Quantity<"massConcentration">;
		readonly char: Quantity<"mass">;
	})[],
): Table {
	const used = [...new Set(numbers.map((n) => n.definition))];
	return table(
		"Methylene-blue numbers by titration to a colour",
		["sample", "definition", "mg/g", "mL for 0.1 g", "done otherwise"],
		numbers.map((n) => {
			const { definition } = n;
			const strength = n.strength.in("g/L");
			const char = n.char.in("g");
			return [
				n.sample,
				definition.standard,
				n.uptake.to("mg/g"),
				(n.volume.in("mL/g") / 10).toPrecision(3),
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
