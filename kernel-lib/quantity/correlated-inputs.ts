import { semidefiniteFactor } from "../linear";
import { refuse } from "../problem";
import { sampleStandardDeviation } from "../stats";
import { computedMultiple, plus, times } from "./arithmetic";
import { exact, input, normal, stated } from "./input";
import type { Kind } from "./kinds";
import { listed } from "./listed";
import { named, type Quantity } from "./quantity";
import type { UnitOf } from "./units";

/** One of several inputs whose errors go together. */
export interface CorrelatedInput<K extends Kind = Kind> {
	readonly kind: K;
	readonly value: number;
	readonly unit: UnitOf<K>;
	readonly standardUncertainty: number;
	readonly symbol: string;
	readonly meaning: string;
}

type QuantitiesOf<T extends readonly CorrelatedInput[]> = {
	-readonly [I in keyof T]: Quantity<T[I]["kind"]>;
};

/** Digits to which a correlation matrix must be one. */
const matrixTolerance = 1e-12;

function wrongMatrix(found: string, expected: string): never {
	return refuse(
		"correlations-wrong",
		"correlatedInputs",
		found,
		expected,
		"Check the correlations.",
	);
}

/** Refuses what cannot be a correlation matrix by its form. */
function requireCorrelations(
	matrix: readonly (readonly number[])[],
	n: number,
): void {
	if (matrix.length !== n)
		wrongMatrix(
			`a correlation matrix of ${matrix.length} rows for ${n} inputs`,
			`${n} rows`,
		);
	matrix.forEach((row, i) => {
		if (row.length !== n || Math.abs(row[i] - 1) > matrixTolerance)
			wrongMatrix(
				`the row ${row.join(", ")}`,
				`${n} numbers with a 1 at place ${i + 1}`,
			);
		row.forEach((value, j) => {
			if (Math.abs(value - matrix[j][i]) > matrixTolerance)
				wrongMatrix(
					`${value} and ${matrix[j][i]} across from each other`,
					"the same number twice: a correlation matrix is symmetric",
				);
		});
	});
}

/** Lower triangle L with L L' = matrix. */
function factorOf(
	matrix: readonly (readonly number[])[],
): readonly Float64Array[] {
	const found = semidefiniteFactor(matrix);
	return found.is === "factor"
		? found.factor
		: wrongMatrix(
				"correlations that contradict each other: no errors could have them all",
				"correlations that can hold together",
			);
}

/**
 * Inputs whose errors are correlated, by the Cholesky factor of their correlation matrix: each is its value plus a mix of independent standard errors (JCGM 101:2008, 6.4.8),
 * so that first order, Monte Carlo and the budget all see the correlation. Normal; with a finite number of degrees of freedom each standard error has its own Student's t.
 *
 * @param correlations matrix, row by row
 * @param source where values and correlations come from, in words; it also tells one set from another
 * @throws ProblemError for a matrix that is not a correlation matrix
 */
export function correlatedInputs<const T extends readonly CorrelatedInput[]>(
	inputs: T,
	correlations: readonly (readonly number[])[],
	source: string,
	degreesOfFreedom = Number.POSITIVE_INFINITY,
): QuantitiesOf<T> {
	requireCorrelations(correlations, inputs.length);
	const l = factorOf(correlations);
	const errors = inputs.map((x, j) =>
		input("ratio", 0, "1", normal(1, degreesOfFreedom), {
			symbol: `ε_{${j + 1}}`,
			meaning: `independent error ${j + 1} behind ${inputs.map((i) => i.symbol).join(", ")}`,
			source: stated(source),
			component: x.symbol,
		}),
	);
	return inputs.map((x, i) => {
		const size = input(x.kind, x.standardUncertainty, x.unit, exact, {
			symbol: `u_{${x.symbol}}`,
			meaning: `standard uncertainty of ${x.meaning}`,
			source: stated(source),
			computedFrom: source,
		});
		const mixed = errors
			.slice(0, i + 1)
			.map((e, j) => computedMultiple(e, l[i][j]))
			.reduce((sum, e) => plus(sum, e));
		const value = input(x.kind, x.value, x.unit, exact, {
			symbol: x.symbol,
			meaning: x.meaning,
			source: stated(source),
			computedFrom: source,
		});
		return named(
			plus(value, times(mixed, size) as Quantity),
			x.symbol,
			x.meaning,
		);
	}) as QuantitiesOf<T>;
}

/** One of several things that were read together, again and again. */
export interface ReadTogether<K extends Kind = Kind> {
	readonly kind: K;
	readonly unit: UnitOf<K>;
	/** One for each repetition, in the order of the repetitions. */
	readonly readings: readonly number[];
	readonly symbol: string;
	readonly meaning: string;
}

/**
 * Means of things that were read together n times: their scatter gives the uncertainties of the means and the correlations between them (JCGM 100:2008, 5.2.3 and H.2).
 *
 * @throws ProblemError for different numbers of readings or fewer than two
 */
export function readTogether<const T extends readonly ReadTogether[]>(
	series: T,
	source: string,
): { -readonly [I in keyof T]: Quantity<T[I]["kind"]> } {
	const n = series[0]?.readings.length ?? 0;
	if (n < 2 || series.some((s) => s.readings.length !== n))
		refuse(
			"readings-not-together",
			"readTogether",
			`series of ${listed(series.map((s) => String(s.readings.length)))} readings`,
			"the same number of readings of each, at least two",
			"Leave out repetitions in which one of them was not read.",
		);
	const means = series.map((s) => s.readings.reduce((a, b) => a + b, 0) / n);
	const spreads = series.map((s) => sampleStandardDeviation(s.readings));
	const correlations = series.map((a, i) =>
		series.map((b, j) => {
			if (i === j) return 1;
			const covariance =
				a.readings.reduce(
					(sum, x, k) => sum + (x - means[i]) * (b.readings[k] - means[j]),
					0,
				) /
				(n - 1);
			return spreads[i] > 0 && spreads[j] > 0
				? covariance / (spreads[i] * spreads[j])
				: 0;
		}),
	);
	return correlatedInputs(
		series.map((s, i) => ({
			kind: s.kind,
			unit: s.unit,
			value: means[i],
			standardUncertainty: spreads[i] / Math.sqrt(n),
			symbol: s.symbol,
			meaning: s.meaning,
		})),
		correlations,
		source,
		n - 1,
	) as { -readonly [I in keyof T]: Quantity<T[I]["kind"]> };
}
