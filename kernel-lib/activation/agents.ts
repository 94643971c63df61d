import { composition } from "../solutions";
import { mentions } from "./soak";

/** What a char is impregnated with before or after charring. */
export interface ActivationAgent {
	readonly name: string;
	/** Formula without water of crystallisation: the mass in the sheet counts what the formula says, a hydrate goes into the purity. */
	readonly formula: string;
	/** Words by which people name it, lower case, matched as whole words. */
	readonly words: readonly string[];
	/** Which way it moves the pH of a rinse. */
	readonly pull: "alkaline" | "acid" | "neutral";
	/**
	 * Power of its concentration that the hydroxide (or hydrogen) ions of a rinse go with: 1 where it gives them off wholly, 1/2 where water and it share them (a salt of
	 * a weak acid or base: [OH] = sqrt(K c)).
	 */
	readonly order: 1 | 0.5;
	/** What its rinses do not show, as a sentence; "" for nothing in particular. */
	readonly washingCaution: string;
}

const agent = (
	name: string,
	formula: string,
	words: readonly string[],
	pull: ActivationAgent["pull"],
	order: ActivationAgent["order"],
	washingCaution = "",
): ActivationAgent => ({
	name,
	formula,
	words: [formula.toLowerCase(), name, ...words],
	pull,
	order,
	washingCaution,
});

/** Agents in common use; acid-base behaviour from general chemistry. */
export const activationAgents: readonly ActivationAgent[] = [
	agent("potassium carbonate", "K2CO3", ["potash"], "alkaline", 0.5),
	agent(
		"sodium carbonate",
		"Na2CO3",
		["washing soda", "soda ash"],
		"alkaline",
		0.5,
	),
	agent("sodium bicarbonate", "NaHCO3", ["baking soda"], "alkaline", 0.5),
	agent("potassium hydroxide", "KOH", ["caustic potash"], "alkaline", 1),
	agent("sodium hydroxide", "NaOH", ["caustic soda", "lye"], "alkaline", 1),
	agent("calcium hydroxide", "Ca(OH)2", ["slaked lime", "lime"], "alkaline", 1),
	agent(
		"phosphoric acid",
		"H3PO4",
		["phosphoric"],
		"acid",
		1,
		"Below about pH 2.7 phosphoric acid is not wholly dissociated: there the pH rises more slowly than the strength falls. Phosphates that hold to the char do not show in the rinses.",
	),
	agent("sulfuric acid", "H2SO4", ["sulphuric acid"], "acid", 1),
	agent("hydrochloric acid", "HCl", [], "acid", 1),
	agent(
		"zinc chloride",
		"ZnCl2",
		[],
		"acid",
		0.5,
		"Zinc falls out as a basic salt while it is washed with water, and no rinse shows it: it is usually washed with dilute hydrochloric acid first, and what is left is found by analysis alone.",
	),
	agent("calcium chloride", "CaCl2", [], "neutral", 1),
	agent("sodium chloride", "NaCl", ["table salt", "salt"], "neutral", 1),
	agent("potassium chloride", "KCl", [], "neutral", 1),
];

/** The agent that a cell of the sheet names. An unknown name that reads as a formula is taken at its formula; else `found` is false. */
export function agentNamed(
	text: string,
):
	| { readonly found: true; readonly agent: ActivationAgent }
	| { readonly found: false } {
	const lower = text.toLowerCase();
	const known = activationAgents.find((a) =>
		a.words.some((word) => mentions(lower, word)),
	);
	if (known !== undefined) return { found: true, agent: known };
	return /^[A-Z]/.test(text.trim()) && composition(text).ok
		? {
				found: true,
				agent: {
					name: text.trim(),
					formula: text.trim(),
					words: [],
					pull: "neutral",
					order: 1,
					washingCaution: "",
				},
			}
		: { found: false };
}
