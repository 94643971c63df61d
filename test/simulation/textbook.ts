/** The plain textbook route, for power: Dunnett on soak means and two one-sided tests, at the residues that the flasks happen to have. Nothing of compare is used. */
import {
	mean,
	simultaneousCriticalValue,
	studentTQuantile,
} from "../../kernel-lib/stats";

/** One flask's uptake, mg/g. */
export interface Measured {
	readonly treatment: string;
	readonly soak: string;
	readonly uptake: number;
}

export type Direction = "higher" | "lower" | "";

export interface Textbook {
	readonly treatment: string;
	/** Dunnett's simultaneous 95 % interval leaves out zero. */
	readonly dunnett: Direction;
	/** Both one-sided 5 % tests put the difference within the margin. */
	readonly same: boolean;
}

/** Means of the soaks of a treatment; its flasks where every treatment was made once. */
function unitsOf(
	flasks: readonly Measured[],
	treatment: string,
	byFlask: boolean,
): number[] {
	const own = flasks.filter((f) => f.treatment === treatment);
	if (byFlask) return own.map((f) => f.uptake);
	return [...new Set(own.map((f) => f.soak))].map((soak) =>
		mean(own.filter((f) => f.soak === soak).map((f) => f.uptake)),
	);
}

/** Treatments against a control; none where nothing is repeated. */
export function textbook(
	flasks: readonly Measured[],
	control: string,
	margin: number,
): Textbook[] {
	const names = [...new Set(flasks.map((f) => f.treatment))];
	const soaks = new Set(flasks.map((f) => `${f.treatment}/${f.soak}`)).size;
	const groups = names.map((name) => ({
		name,
		units: unitsOf(flasks, name, soaks === names.length),
	}));
	const all = groups.reduce((sum, g) => sum + g.units.length, 0);
	const degrees = all - groups.length;
	const own = groups.find((g) => g.name === control);
	if (own === undefined || degrees < 1) return [];
	const squares = groups.flatMap(({ units }) =>
		units.map((x) => (x - mean(units)) ** 2),
	);
	const variance = squares.reduce((a, b) => a + b, 0) / degrees;
	const treated = groups.filter((g) => g !== own);
	// Dunnett's correlations: the control is shared.
	const loading = treated.map((g) =>
		Math.sqrt(g.units.length / (g.units.length + own.units.length)),
	);
	const critical = simultaneousCriticalValue(
		loading.map((a, i) => loading.map((b, j) => (i === j ? 1 : a * b))),
		degrees,
		0.05,
		"two-sided",
	);
	const oneSided = studentTQuantile(0.95, degrees);
	return treated.map(({ name, units }) => {
		const difference = mean(units) - mean(own.units);
		const error = Math.sqrt(
			variance * (1 / units.length + 1 / own.units.length),
		);
		const clear = Math.abs(difference) > critical * error;
		return {
			treatment: name,
			dunnett: clear ? (difference > 0 ? "higher" : "lower") : "",
			same: Math.abs(difference) + oneSided * error < margin,
		};
	});
}
