import { type NotKnown, notKnown } from "../quantity";
import { composition, type Substance, substancesIn } from "../substances";

/** What a char is impregnated with before or after charring, as far as masses and rinses need it. */
export interface ActivationAgent {
	readonly name: string;
	/** Formula without water of crystallisation: the mass in the sheet counts what the formula says, a hydrate goes into the purity. */
	readonly formula: string;
	/**
	 * Power of its concentration that the hydroxide (or hydrogen) ions of a rinse go with: 1 where it gives them off wholly, 1/2 where water and it share them (a salt of
	 * a weak acid or base: [OH] = sqrt(K c)).
	 */
	readonly order: 1 | 0.5;
	/** What its rinses do not show, as a sentence; "" for nothing in particular. */
	readonly washingCaution: string;
}

function agentOf(substance: Substance): ActivationAgent {
	return {
		name: substance.name,
		formula: substance.formula,
		order: substance.dissociation === "whole" ? 1 : 0.5,
		washingCaution: substance.washingCaution,
	};
}

/** What carries an agent or a gas along is no agent where another substance is named. */
function isCarrier({ name }: Substance): boolean {
	return name === "water" || name === "steam";
}

/** The agent that a cell of the sheet names: the first substance with a formula that the list knows, else a formula of its own. */
export function agentNamed(
	text: string,
): { readonly is: "known"; readonly agent: ActivationAgent } | NotKnown {
	const listed = substancesIn(text)
		.flatMap((s) => (s.is === "known" ? [s.substance] : []))
		.find((s) => s.formula !== "" && !isCarrier(s));
	if (listed !== undefined) return { is: "known", agent: agentOf(listed) };
	const written = text.trim();
	return /^[A-Z]/.test(written) && composition(written).ok
		? {
				is: "known",
				agent: {
					name: written,
					formula: written,
					order: 1,
					washingCaution: "",
				},
			}
		: notKnown(
				`"${text}" is no name or formula that a molar mass is known for`,
			);
}
