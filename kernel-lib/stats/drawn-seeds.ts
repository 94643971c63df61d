/** A seed that chance was drawn from, and what was drawn. */
export interface DrawnSeed {
	/** "Monte Carlo", "bootstrap" ... */
	readonly for: string;
	readonly seed: string;
}

const drawn = new Map<string, DrawnSeed>();

/** Writes down that chance was drawn from a seed, so that whoever reads the results can draw it again. */
export function noteSeed(purpose: string, seed: number | string): void {
	const one = { for: purpose, seed: String(seed) };
	drawn.set(JSON.stringify(one), one);
}

/** The seeds that this session has drawn from, each once, in the order of their first use. */
export function drawnSeeds(): readonly DrawnSeed[] {
	return [...drawn.values()];
}
