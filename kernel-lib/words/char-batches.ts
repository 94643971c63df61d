import { batchesOf, type Comparison } from "../compare";

/** The char batches that a treatment's flasks were weighed from, in order; "" for one that is not recorded. */
export const charBatchesOf = (
	{ compared }: Comparison,
	treatment: string,
): string[] => batchesOf(compared, treatment).sort();
