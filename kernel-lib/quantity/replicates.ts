import { sampleStandardDeviation } from "../stats";
import { meanOf, plus } from "./arithmetic";
import { ancestors, sensitivities } from "./graph";
import { idsOf } from "./ids";
import { input, normal, stated } from "./input";
import { keyOfValueAlone } from "./input-key";
import type { Kind } from "./kinds";
import { asQuantity, nodeOf, type Quantity, QuantityNode } from "./quantity";
import { type UnitOf, unitFactor } from "./units";

/** The part of a standard uncertainty that comes from inputs of scope "reading", in the unit of the quantity. */
export function readingUncertainty(q: Quantity): number {
	let variance = 0;
	for (const s of sensitivities(nodeOf(q)).values())
		if (s.input.scope === "reading")
			variance += (s.derivative * s.input.uncertainty) ** 2;
	return Math.sqrt(variance) / unitFactor(q.kind, q.unit);
}

/**
 * The same value from the same readings without their independent errors (of readings, and of what differs from one replicate to the next): for means whose replicates already show those errors as scatter. What is shared (a calibration, a
 * titrant) stays.
 */
export function withoutReadingErrors<K extends Kind>(
	q: Quantity<K>,
): Quantity<K> {
	const copy = new Map<QuantityNode, QuantityNode>();
	for (const node of ancestors(nodeOf(q) as QuantityNode)) {
		if (node.input !== null) {
			const { input } = node;
			if (input.scope !== "shared" && input.uncertainty > 0)
				copy.set(
					node,
					new QuantityNode(
						node.kind,
						node.unit,
						node.base,
						node.name,
						{
							...input,
							key: keyOfValueAlone(input.key),
							uncertainty: 0,
							distribution: "exact",
							degreesOfFreedom: Number.POSITIVE_INFINITY,
						},
						null,
						[],
						0,
					),
				);
		} else if (node.operands.some((x) => copy.has(x))) {
			copy.set(
				node,
				new QuantityNode(
					node.kind,
					node.unit,
					node.base,
					node.name,
					null,
					node.operation,
					node.operands.map((x) => copy.get(x) ?? x),
					node.parameter,
				),
			);
		}
	}
	const root = nodeOf(q) as QuantityNode;
	return asQuantity((copy.get(root) ?? root) as QuantityNode<K>);
}

/**
 * Mean of replicates. From three on, their scatter is the measure of the independent errors: the standard deviation of the mean, s/sqrt(n) with n - 1 degrees of freedom
 * (type A, JCGM 100:2008, 4.2), in place of the readings' own errors, never both; where the scatter is smaller than the readings can be read, their reading error stands. One
 * or two replicates say too little: their own errors are kept.
 *
 * @param of what was replicated, in words; it names the scatter in the trace and must tell one set of replicates from another
 * @throws ProblemError for an empty list
 */
export function meanOfReplicates<K extends Kind>(
	values: readonly Quantity<K>[],
	of: string,
): Quantity<K> {
	const mean = meanOf(values);
	const n = values.length;
	if (n < 3) return mean;
	const { kind, unit } = mean;
	const scatter =
		sampleStandardDeviation(values.map((v) => v.in(unit as UnitOf<K>))) /
		Math.sqrt(n);
	const reading = readingUncertainty(mean);
	const readable = scatter >= reading;
	return plus(
		withoutReadingErrors(mean),
		input(
			kind,
			0,
			unit as UnitOf<K>,
			readable ? normal(scatter, n - 1) : normal(reading),
			{
				symbol: "δ_{scatter}",
				meaning: `scatter of the mean of ${n}: ${of}`,
				source: stated(
					readable
						? `standard deviation of ${n} replicates divided by √${n}: ${of}`
						: `reading error of the mean of ${n}, which is larger than their scatter: ${of}`,
				),
				computedFrom: idsOf(values).join(" "),
			},
		) as Quantity<K> as Parameters<typeof plus<K>>[1],
	);
}
