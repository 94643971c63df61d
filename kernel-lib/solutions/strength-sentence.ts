import { expandedText } from "../quantity";
import type { Titrants } from "./concentrations";

/**
 * How strong a solution is, in one sentence with its 95 % interval, for the head of a page.
 * @throws ProblemError for a solution that is not known
 */
export function strengthSentence(titrants: Titrants, name: string): string {
	return `${name}: ${expandedText(titrants.concentration(name))}, 95 % interval.`;
}
