import { didYouMean, foundName, problem, throwProblems } from "../quantity";
import type { Claim } from "./word";

const claims: readonly Claim[] = ["difference", "at least the margin more"];

/**
 * The claim of a notebook that has it as a text among its parameters.
 *
 * @param text "difference", or "at least the margin more"
 * @throws ProblemError for any other text
 * @example
 * compare.chosenClaim("at least the margin more") // => "at least the margin more"
 */
export function chosenClaim(text: string): Claim {
	const claim = claims.find((c) => c === text);
	if (claim !== undefined) return claim;
	throwProblems([
		problem(
			"claim-unknown",
			{},
			foundName("the claim", text),
			claims.map((c) => `"${c}"`).join(" or "),
			didYouMean(text, claims),
		),
	]);
	return "difference";
}
