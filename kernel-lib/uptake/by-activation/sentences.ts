import { meanOf, type Quantity } from "../../quantity";
import { feedstockCapacity } from "./feedstock";
import type { ActivatedUptake } from "./link";

function rangeOf(values: readonly number[]): string {
	const [low, high] = [Math.min(...values), Math.max(...values)].map((v) =>
		String(Number(v.toPrecision(3))),
	);
	return low === high ? low : `${low} to ${high}`;
}

/** Mean of the flasks of one run, or the range of their limits where one of them is a limit. */
function meanText(
	measured: readonly {
		readonly is: string;
		readonly quantity: Quantity<"uptake">;
	}[],
): string {
	const bounded = measured.filter((m) => m.is !== "value");
	return bounded.length === 0
		? String(meanOf(measured.map((m) => m.quantity.to("mg/g"))))
		: `${rangeOf(measured.map((m) => m.quantity.in("mg/g")))} mg/g (${bounded.length} of ${measured.length} only ${bounded[0].is})`;
}

/**
 * One sentence a run: what its flasks took up, at which residue, and what that is per gram of dry feedstock. Means carry the measuring uncertainty, correlations included; how much another firing would differ they do not show.
 */
export function runUptakeSentences(
	uptakes: readonly ActivatedUptake[],
): string[] {
	const byRun = new Map<string, ActivatedUptake[]>();
	for (const u of uptakes)
		if (u.activation.recorded) {
			const name = u.activation.figures.run.name;
			byRun.set(name, [...(byRun.get(name) ?? []), u]);
		}
	return [...byRun].map(([run, own]) => {
		const residues = rangeOf(own.map((u) => u.residue.quantity.in("mg/L")));
		const capacities = own.flatMap((u) => {
			const capacity = feedstockCapacity(u);
			return capacity.is === "not known" ? [] : [capacity];
		});
		const probe = own[0].probe;
		const flasks = `${own.length} flask${own.length === 1 ? "" : "s"}`;
		const feedstock =
			capacities.length === own.length
				? `; per gram of dry feedstock ${meanText(capacities)}`
				: "";
		return `${run}: ${flasks} took up ${meanText(own.map((u) => u.uptake))} of ${probe} at a residue of ${residues} mg/L${feedstock}.`;
	});
}
