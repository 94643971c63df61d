import { valueOrThrow } from "../problem";
import { sampleStandardDeviation } from "../stats";
import { plus, scaled, times } from "./arithmetic";
import {
	glasswareTolerance,
	type PieceOfGlassware,
} from "./glassware-tolerances";
import {
	type Evidence,
	exact,
	halfDivision,
	type InputDescription,
	input,
	normal,
	rectangular,
	stated,
	triangular,
} from "./input";
import type { Kind } from "./kinds";
import { named, type Quantity } from "./quantity";
import type { UnitOf } from "./units";

type Description = Partial<InputDescription>;

/**
 * Mean of repeated readings of the same thing, type A (JCGM 100:2008, 4.2): u = s/sqrt(n), Student's t with n - 1 degrees of freedom. With two or three readings that
 * distribution has no variance (JCGM 101:2008, 6.4.9.4) and the source says so.
 *
 * @param readings at least two, in `unit`
 * @throws RangeError for fewer than two readings
 */
export function repeatedReadings<K extends Kind>(
	kind: K,
	readings: readonly number[],
	unit: UnitOf<K>,
	description: Description = {},
): Quantity<K> {
	const n = readings.length;
	if (n < 2)
		throw new RangeError(
			`Scatter needs at least two readings, found ${n}. State the uncertainty of a single reading instead.`,
		);
	const mean = readings.reduce((sum, x) => sum + x, 0) / n;
	const scatter = sampleStandardDeviation(readings) / Math.sqrt(n);
	const few =
		n <= 3
			? `; with ${n} readings Student's t has no variance (JCGM 101), so give an interval, not a Monte Carlo standard deviation`
			: "";
	return input(kind, mean, unit, normal(scatter, n - 1), {
		...description,
		source:
			description.source ??
			stated(`mean of ${n} readings: ${readings.join(", ")} ${unit}${few}`),
	});
}

/** The calibration error of a piece of glassware, value 0: one for each `name`, shared by all that it measures. */
export function glasswareCalibration(
	piece: PieceOfGlassware,
	size: number,
	options: Partial<GlasswareOptions> = {},
): Quantity<"volume"> {
	const { accuracyClass, division, shape, name } = {
		...glasswareDefaults,
		...options,
	};
	const { tolerance, source } = valueOrThrow(
		glasswareTolerance(piece, size, accuracyClass, division),
	);
	return input(
		"volume",
		0,
		"mL",
		shape === "rectangular" ? rectangular(tolerance) : triangular(tolerance),
		{
			symbol: `δ_{${name === "" ? piece : name}}`,
			meaning: `calibration of the ${size} mL ${piece}${name === "" ? "" : ` ${name}`}`,
			source: stated(source),
		},
	);
}

export interface GlasswareOptions {
	/** "A" or "B"; B, the more cautious, unless told otherwise. */
	readonly accuracyClass: "A" | "B";
	/** Smallest division, mL; 0 takes the coarsest on record for the size. */
	readonly division: number;
	/** How errors lie within the tolerance. Rectangular unless told otherwise; triangular where values near the nominal one are likelier. */
	readonly shape: "rectangular" | "triangular";
	/** Tells two pieces of one size apart; "" where there is one only. */
	readonly name: string;
}

const glasswareDefaults: GlasswareOptions = {
	accuracyClass: "B",
	division: 0,
	shape: "rectangular",
	name: "",
};

/**
 * A volume measured with a piece of glassware, mL: reading or filling error (half a division where it is divided, `fillingSpread` where it is filled to a mark) and the
 * calibration of the piece by its nominal size.
 *
 * @param fillingSpread standard deviation of filling and draining, mL
 * @throws ProblemError for a size that the standard does not list
 */
export function measuredVolume(
	piece: PieceOfGlassware,
	size: number,
	value: number,
	options: Partial<GlasswareOptions & { fillingSpread: number }> = {},
	description: Description = {},
): Quantity<"volume"> {
	const { fillingSpread = 0, ...glass } = options;
	const line = valueOrThrow(
		glasswareTolerance(
			piece,
			size,
			glass.accuracyClass ?? "B",
			glass.division ?? 0,
		),
	);
	const reading: Evidence =
		fillingSpread > 0
			? normal(fillingSpread)
			: line.division > 0
				? halfDivision(line.division)
				: normal(line.repeatability);
	return named(
		plus(
			input("volume", value, "mL", reading, {
				scope: "reading",
				symbol: "V_{read}",
				meaning: `volume by the ${piece}`,
				...description,
			}),
			glasswareCalibration(piece, size, glass),
		),
		description.symbol ?? "V",
		description.meaning ?? `volume by the ${size} mL ${piece}`,
	);
}

export interface Balance {
	/** Smallest step of the display, g. */
	readonly readability: number;
	/** Standard deviation of repeated weighings, g; 0 where not known. */
	readonly repeatability: number;
	/** Greatest deviation from linearity, plus or minus, g; 0 where not known. */
	readonly linearity: number;
}

/**
 * A mass by difference (tare and load), g: two readings to the nearest step, the repeatability of the difference, and the linearity of the balance counted twice, tare and
 * load being independent places on its scale (as in EURACHEM/CITAC QUAM, example A2; from memory).
 */
export function weighedMass(
	value: number,
	balance: Partial<Balance>,
	description: Description = {},
): Quantity<"mass"> {
	const { readability = 0, repeatability = 0, linearity = 0 } = balance;
	const meaning = description.meaning ?? "mass";
	const shared = { scope: "reading" as const };
	const { source } = description;
	const parts: Quantity<"mass">[] = [];
	const error = (evidence: Evidence, what: string, where: string): void => {
		parts.push(
			input("mass", 0, "g", evidence, {
				...shared,
				...(source === undefined ? {} : { source, component: what }),
				symbol: `δ_{${what}}`,
				meaning: `${where} of the balance, ${meaning}`,
			}),
		);
	};
	if (repeatability > 0) error(normal(repeatability), "rep", "repeatability");
	if (linearity > 0) {
		error(rectangular(linearity), "tare", "linearity at the tare");
		error(rectangular(linearity), "load", "linearity at the load");
	}
	const reading = input("mass", value, "g", triangular(readability), {
		...shared,
		symbol: "m_{read}",
		meaning,
		...description,
	});
	if (parts.length === 0) return reading;
	return named(plus(reading, ...parts), description.symbol ?? "m", meaning);
}

/** Volumetric expansion of water near 20 °C, per °C, as EURACHEM/CITAC QUAM takes it; from memory. Glass (about 1e-5) is small beside it. */
const waterExpansion = 2.1e-4;

/**
 * A volume that was used at a temperature within plus or minus `halfWidth` °C of the 20 °C of its calibration, every temperature equally likely: V (1 + β ΔT) with ΔT = 0.
 *
 * @param room names the temperature: volumes measured in one room at one time share it, and so does their error
 */
export function withTemperatureSpread(
	volume: Quantity<"volume">,
	halfWidth: number,
	room = "room",
): Quantity<"volume"> {
	const beta = input("perTemperature", waterExpansion, "1/°C", exact, {
		symbol: "β",
		meaning: "volumetric expansion of water",
		source: stated(
			"2.1e-4 per °C near 20 °C; from memory: EURACHEM/CITAC QUAM",
		),
	});
	const spread = input(
		"temperatureDifference",
		0,
		"°C",
		rectangular(halfWidth),
		{
			symbol: "ΔT",
			meaning: `temperature of the ${room} less 20 °C`,
			source: stated(`within ${halfWidth} °C of 20 °C: ${room}`),
		},
	);
	return named(
		plus(volume, times(volume, times(beta, spread))),
		volume.name.symbol,
		volume.name.meaning,
	);
}

/**
 * Purity as a mass fraction. "99.9 % ± 0.1 %" is `purity(99.9, 0.1)`, "at least 99.5 %" is `purityAtLeast(99.5)`; every value within the limits is equally likely.
 *
 * @param percent, halfWidth in %
 */
export function purity(
	percent: number,
	halfWidth: number,
	description: Description = {},
): Quantity<"ratio"> {
	if (!(percent > 0 && percent <= 100))
		throw new RangeError(
			`A purity lies above 0 and up to 100 %, found ${percent}.`,
		);
	return input("ratio", percent, "%", rectangular(halfWidth), {
		symbol: "P",
		meaning: "purity",
		...description,
	});
}

export function purityAtLeast(
	percent: number,
	description: Description = {},
): Quantity<"ratio"> {
	return purity((100 + percent) / 2, (100 - percent) / 2, description);
}

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

/** Lower triangle L with L L' = matrix. Throws RangeError where the matrix is not a correlation matrix. */
function cholesky(matrix: readonly (readonly number[])[]): number[][] {
	const n = matrix.length;
	const l = Array.from({ length: n }, () => new Array<number>(n).fill(0));
	for (let i = 0; i < n; i++) {
		if (matrix[i].length !== n || Math.abs(matrix[i][i] - 1) > 1e-12)
			throw new RangeError(
				`A correlation matrix of ${n} inputs has ${n} rows of ${n} numbers and ones on its diagonal.`,
			);
		for (let j = 0; j <= i; j++) {
			if (Math.abs(matrix[i][j] - matrix[j][i]) > 1e-12)
				throw new RangeError(
					`A correlation matrix is symmetric; ${matrix[i][j]} and ${matrix[j][i]} stand across from each other.`,
				);
			let sum = matrix[i][j];
			for (let k = 0; k < j; k++) sum -= l[i][k] * l[j][k];
			if (i === j) {
				if (sum < -1e-10)
					throw new RangeError(
						"These correlations contradict each other: no errors could have them all.",
					);
				l[i][i] = Math.sqrt(Math.max(0, sum));
			} else l[i][j] = l[j][j] > 1e-12 ? sum / l[j][j] : 0;
		}
	}
	return l;
}

/**
 * Inputs whose errors are correlated, by the Cholesky factor of their correlation matrix: each is its value plus a mix of independent standard errors (JCGM 101:2008, 6.4.8),
 * so that first order, Monte Carlo and the budget all see the correlation. Normal; with a finite number of degrees of freedom each standard error has its own Student's t.
 *
 * @param correlations matrix, row by row
 * @param source where values and correlations come from, in words; it also tells one set from another
 * @throws RangeError for a matrix that is not a correlation matrix
 */
export function correlatedInputs<const T extends readonly CorrelatedInput[]>(
	inputs: T,
	correlations: readonly (readonly number[])[],
	source: string,
	degreesOfFreedom = Number.POSITIVE_INFINITY,
): QuantitiesOf<T> {
	if (correlations.length !== inputs.length)
		throw new RangeError(
			`${inputs.length} inputs need a correlation matrix of ${inputs.length} rows, found ${correlations.length}.`,
		);
	const l = cholesky(correlations);
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
		});
		const mixed = errors
			.slice(0, i + 1)
			.map((e, j) => scaled(e, l[i][j]))
			.reduce((sum, e) => plus(sum, e));
		const value = input(x.kind, x.value, x.unit, exact, {
			symbol: x.symbol,
			meaning: x.meaning,
			source: stated(source),
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
 * @throws RangeError for different numbers of readings or fewer than two
 */
export function readTogether<const T extends readonly ReadTogether[]>(
	series: T,
	source: string,
): { -readonly [I in keyof T]: Quantity<T[I]["kind"]> } {
	const n = series[0]?.readings.length ?? 0;
	if (n < 2 || series.some((s) => s.readings.length !== n))
		throw new RangeError(
			`Things read together need the same number of readings, at least two; found ${series.map((s) => s.readings.length).join(", ")}.`,
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
