import type { Firing } from "../bench";
import { normalCoverage } from "./confidence";
import type { FiringYields } from "./firing-yields";
import { stageBalances } from "./mass-balance";

/** The stages whose balance does not close, each with the mass that is missing or too much. */
function faultyStages(firing: Firing): string[] {
	return stageBalances(firing).flatMap((s) => {
		if (
			s.is !== "balance" ||
			s.verdict !== "does not close" ||
			s.stage === "whole firing"
		)
			return [];
		const value = s.unaccounted.in("g");
		const amount = Number(Math.abs(value).toPrecision(3));
		return [`${s.stage}: ${amount} g ${value < 0 ? "too much" : "missing"}`];
	});
}

/**
 * Why no yield of a firing is to be relied on: each stage whose balance does not close, and more dry product than there was dry precursor, where measuring does not explain it. Empty where
 * nothing is wrong.
 */
export function balanceFaults({ firing, charYield }: FiringYields): string[] {
	const stages = faultyStages(firing);
	if (charYield.is !== "value") return stages;
	const { value, standardUncertainty } = charYield.quantity.to("1");
	return value - 1 > normalCoverage * standardUncertainty + 1e-9
		? [...stages, "more dry product than dry precursor"]
		: stages;
}
