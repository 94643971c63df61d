import {
	didYouMean,
	foundName,
	problem,
	quoted,
	throwProblems,
} from "../quantity";
import type { Solute } from "./single";

/** @throws ProblemError for a solute that is not there */
export function placeOf(solutes: readonly Solute[], name: string): number {
	const k = solutes.findIndex((s) => s.name === name);
	const names = solutes.map((s) => s.name);
	throwProblems(
		k >= 0
			? []
			: [
					problem(
						"no-such-solute",
						{},
						foundName("the solute", name),
						`one of ${names.map(quoted).join(", ")}`,
						didYouMean(name, names),
					),
				],
	);
	return k;
}

/** Names of the other solutes. */
export function besideNames(solutes: readonly Solute[], k: number): string[] {
	return solutes.filter((_, i) => i !== k).map((s) => s.name);
}
