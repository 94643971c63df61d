import type { Comparison } from "../compare";

/** The char batches that a treatment's flasks were weighed from; "" for one that is not recorded. */
export function charBatchesOf(
	{ compared }: Comparison,
	treatment: string,
): string[] {
	return [
		...new Set(
			compared
				.filter((o) => o.treatment === treatment)
				.map((o) => o.flask.flask.charBatch),
		),
	].sort();
}
