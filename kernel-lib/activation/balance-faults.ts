import { massBalance, type NoBalance, type StageBalance } from "./mass-balance";
import type { FiringYields } from "./yields";

/** Half-width of a 95 % interval in standard uncertainties. */
const normal95 = 1.96;

/**
 * Why no figure of a run's masses is to be relied on: each stage whose balance does not close, and more dry product than there was dry precursor, where measuring does not explain it. Empty where
 * nothing is wrong.
 */
export function balanceFaults(
	figures: FiringYields,
	stages: readonly (StageBalance | NoBalance)[] = massBalance(figures.firing),
): string[] {
	const astray = stages.flatMap((s) => {
		if (
			s.is !== "balance" ||
			s.verdict !== "does not close" ||
			s.stage === "whole run"
		)
			return [];
		const value = s.unaccounted.in("g");
		const amount = Number(Math.abs(value).toPrecision(3));
		return [`${s.stage}: ${amount} g ${value < 0 ? "too much" : "missing"}`];
	});
	const { charYield } = figures;
	if (charYield.is !== "value") return astray;
	const { value, standardUncertainty } = charYield.quantity.to("1");
	return value - 1 > normal95 * standardUncertainty + 1e-9
		? [...astray, "more dry product than dry precursor"]
		: astray;
}
