import type { IsothermPoints } from "../../kernel-lib/isotherms/index";

/** Residue by halving: start - C = dose q(C). Shares nothing with the library. */
export function residueByHalving(
	q: (c: number) => number,
	start: number,
	dose: number,
	uptakeIn = 0,
): number {
	let low = 0;
	let high = start;
	for (let i = 0; i < 200; i++) {
		const c = (low + high) / 2;
		if (start - c - dose * (q(c) - uptakeIn) > 0) low = c;
		else high = c;
	}
	return (low + high) / 2;
}

/**
 * Flasks of one water with doses of char (g/L) that follow a curve exactly but for an error of each residue (mg/L, given one by one), whose standard deviation is stated; a calibration that moves all residues together comes as a shared error.
 */
export function flasksOf(
	q: (c: number) => number,
	start: number,
	doses: readonly number[],
	errors: readonly number[],
	deviation: number,
	shared: readonly {
		key: string;
		/** Relative standard uncertainty of all residues together. */
		relative: number;
		degreesOfFreedom?: number;
	}[] = [],
): IsothermPoints {
	const residues = doses.map(
		(d, i) => residueByHalving(q, start, d) + errors[i],
	);
	return {
		name: "char",
		probe: "iodine",
		points: doses.map((d, i) => ({
			flask: String(i + 1),
			is: "reading",
			concentration: residues[i],
			uptake: (start - residues[i]) / d,
			balance: { is: "known", intercept: start / d, slope: 1 / d },
			own: {
				concentration: deviation ** 2,
				uptake: (deviation / d) ** 2,
				covariance: -(deviation ** 2) / d,
			},
		})),
		shared: shared.map((s) => ({
			key: s.key,
			what: s.key,
			degreesOfFreedom: s.degreesOfFreedom ?? Number.POSITIVE_INFINITY,
			concentration: Float64Array.from(residues, (c) => s.relative * c),
			uptake: Float64Array.from(
				residues,
				(c, i) => (-s.relative * c) / doses[i],
			),
		})),
		flasks: [],
		leftOut: [],
		file: "",
		hash: "",
	};
}
