import {
	type ActivationCondition,
	balanceFaults,
	conditionOf,
	type Finding,
	type FiringYields,
	firingYields,
} from "../../activation";
import {
	type FiringSheet,
	firingsOf,
	nearestName,
	runKey,
	type Trial,
} from "../../bench";
import { type Kind, type Quantity, times } from "../../quantity";
import type { FlaskUptake } from "../flask-uptake";

/** The activation run that a flask's char came from; `linkedBy` says which cell named it. */
export type ActivationLink =
	| {
			readonly recorded: true;
			readonly figures: FiringYields;
			readonly linkedBy: "soak" | "char batch";
			/** Dry char per dry feedstock, over the runs that this one's precursor came from (`precursor batch` names a run). */
			readonly yieldFromFeedstock: Finding<"ratio">;
			/** Names of the runs from feedstock to product. */
			readonly chain: readonly string[];
			/** Names of those among them whose balance does not close: nothing that is computed from their masses is to be relied on. */
			readonly unbalanced: readonly string[];
	  }
	| { readonly recorded: false; readonly because: string };

/** An uptake that carries its activation run; it goes wherever an uptake goes. */
export interface ActivatedUptake extends FlaskUptake {
	readonly activation: ActivationLink;
}

function chainOf(
	name: string,
	runs: ReadonlyMap<string, FiringYields>,
): FiringYields[] {
	const chain: FiringYields[] = [];
	const seen = new Set<string>();
	for (
		let figures = runs.get(runKey(name));
		figures !== undefined && !seen.has(figures.firing.name);
		figures = runs.get(runKey(figures.firing.precursorBatch))
	) {
		seen.add(figures.firing.name);
		chain.unshift(figures);
	}
	return chain;
}

function yieldOf(chain: readonly FiringYields[]): Finding<"ratio"> {
	let product: Quantity<"ratio"> | null = null;
	for (const { charYield } of chain) {
		if (charYield.is !== "value") return charYield;
		product =
			product === null
				? charYield.quantity
				: times(product, charYield.quantity).to("%");
	}
	return product === null
		? { is: "not known", because: "no activation run" }
		: { is: "value", quantity: product };
}

/**
 * Gives every uptake its activation run: the run that the flask's `soak` names, else the one that its `char batch` names. Case and extra spaces do not count. A `soak` that nearly is the name of a
 * run is most likely that run mistyped: its flask gets no run, and the reason asks for the name that was perhaps meant.
 *
 * @param from the bench sheet that the uptakes came from, or a sheet of activation runs of its own
 */
export function withActivation(
	uptakes: readonly FlaskUptake[],
	from: Trial | FiringSheet,
): ActivatedUptake[] {
	const figures = new Map(
		firingsOf(from).map((firing) => [
			runKey(firing.name),
			firingYields(firing),
		]),
	);
	const names = [...figures.values()].map((f) => f.firing.name);
	return uptakes.map((u): ActivatedUptake => {
		const { soak, charBatch } = u.flask;
		const none = (because: string): ActivatedUptake => ({
			...u,
			activation: { recorded: false, because },
		});
		const linkedBy = figures.has(runKey(soak)) ? "soak" : "char batch";
		const meant = linkedBy === "soak" ? "" : nearestName(soak, names);
		if (meant !== "")
			return none(
				`the soak "${soak}" is no activation run (did you mean "${meant}"?)`,
			);
		const found = figures.get(runKey(linkedBy === "soak" ? soak : charBatch));
		if (found === undefined)
			return none(
				soak === "" && charBatch === ""
					? "neither a soak nor a char batch is named"
					: `neither the soak "${soak}" nor the char batch "${charBatch}" is the name of an activation run`,
			);
		const chain = chainOf(found.firing.name, figures);
		return {
			...u,
			activation: {
				recorded: true,
				figures: found,
				linkedBy,
				yieldFromFeedstock: yieldOf(chain),
				chain: chain.map((f) => f.firing.name),
				unbalanced: chain.flatMap((f) =>
					balanceFaults(f).length > 0 ? [f.firing.name] : [],
				),
			},
		};
	});
}

/** A condition's value where the flask's run is known. */
export function conditionOfUptake(
	uptake: ActivatedUptake,
	condition: ActivationCondition,
): Finding<Kind> {
	return uptake.activation.recorded
		? conditionOf(uptake.activation.figures, condition)
		: { is: "not known", because: uptake.activation.because };
}
