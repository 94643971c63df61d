import type { Comparison } from "../compare";

/** Treatments that are compared with one control, the control first. */
export interface Family {
	readonly control: string;
	readonly treatments: readonly string[];
}

/** Each control with what is compared with it, in the order in which the comparison lists them. */
export function families(comparison: Comparison): Family[] {
	const controls = [...new Set(comparison.verdicts.map((v) => v.control))];
	return controls.map((control) => ({
		control,
		treatments: comparison.verdicts
			.filter((v) => v.control === control)
			.map((v) => v.treatment),
	}));
}

/** Every treatment once: each control followed by what is compared with it, then what no verdict names. */
export function treatmentOrder(
	comparison: Comparison,
	others: readonly string[],
): string[] {
	return [
		...new Set([
			...families(comparison).flatMap((f) => [f.control, ...f.treatments]),
			...comparison.groups.map((g) => g.treatment),
			...others,
		]),
	];
}
