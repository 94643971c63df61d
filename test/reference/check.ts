import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** Where an expected value comes from. */
export type Provenance =
	| "published"
	| "from memory"
	| "computed with a general library"
	| "common practice, no source";

/** One comparison of a number of ours with the world outside. */
export interface Check {
	readonly what: string;
	/** The published source, or the general library that computed it. */
	readonly source: string;
	readonly provenance: Provenance;
	readonly expected: number;
	/** Calls the public function that a notebook would call. */
	readonly got: () => number;
	/** Largest relative difference that passes (absolute where the expected value is 0); why it is that large, where it is not rounding. */
	readonly tolerance: number;
	readonly unit: string;
	/** The fact that it rests on, where several checks hold the same one (from two starts); its own words unless told otherwise. */
	readonly fact?: string;
}

/** How many facts of each provenance a list of checks rests on, each counted once. */
export function factsByProvenance(
	checks: readonly Check[],
): ReadonlyMap<Provenance, number> {
	const facts = new Map<Provenance, Set<string>>();
	for (const { provenance, fact, what, source, expected } of checks)
		facts.set(
			provenance,
			(facts.get(provenance) ?? new Set()).add(
				`${fact ?? what}|${source}|${expected}`,
			),
		);
	return new Map([...facts].map(([p, known]) => [p, known.size]));
}

/** Agreeing significant digits: -log10 of the relative difference, 0 for none, at most 15. */
export function agreeingDigits(got: number, expected: number): number {
	if (!Number.isFinite(got)) return 0;
	if (got === expected) return 15;
	const scale = expected === 0 ? 1 : Math.abs(expected);
	return Math.max(
		0,
		Math.min(15, -Math.log10(Math.abs(got - expected) / scale)),
	);
}

export function passes(check: Check, got: number): boolean {
	const scale = check.expected === 0 ? 1 : Math.abs(check.expected);
	return (
		Number.isFinite(got) &&
		Math.abs(got - check.expected) <= check.tolerance * scale
	);
}

/** A reference data file of this repository. */
export function referenceData<T>(name: string): T {
	const path = fileURLToPath(
		new URL(`../../data/reference/${name}`, import.meta.url),
	);
	return JSON.parse(readFileSync(path, "utf8")) as T;
}
