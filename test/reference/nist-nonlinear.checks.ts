import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { defineModel, type Fit, fit as fitModel } from "../../kernel-lib/fit";
import { nistModels } from "../fit/nist-models";
import { type Check, passes, referenceData } from "./check";

interface NistSet {
	readonly name: string;
	readonly response: string;
	readonly start1: readonly number[];
	readonly start2: readonly number[];
	readonly certifiedParams: readonly number[];
	readonly certifiedSD: readonly number[];
	readonly certifiedRSS: number;
	readonly x: readonly (number | readonly number[])[];
	readonly y: readonly number[];
}

export const nistSets: readonly NistSet[] = readdirSync(
	fileURLToPath(
		new URL("../../data/reference/nist-nonlinear", import.meta.url),
	),
)
	.filter((name) => name.endsWith(".json"))
	.sort()
	.map((name) => referenceData<NistSet>(`nist-nonlinear/${name}`))
	.filter((set) => set.certifiedParams !== undefined);

function columnsOf(set: NistSet): number[][] {
	const first = set.x[0];
	const width = typeof first === "number" ? 1 : first.length;
	return Array.from({ length: width }, (_, c) =>
		set.x.map((v) => (typeof v === "number" ? v : v[c])),
	);
}

const parameterName = (j: number): string => `b${j + 1}`;

/** One NIST set from one start, with the ordinary settings that every user gets. */
export function fitNist(set: NistSet, start: readonly number[]): Fit {
	const equation = nistModels[set.name];
	const columns = columnsOf(set);
	const point = new Float64Array(equation.parameters);
	const model = defineModel({
		name: set.name,
		parameters: start.map((_, j) => parameterName(j)),
		predictors: columns.length,
		evaluate: (b, x, out) => {
			for (let i = 0; i < out.length; i++) out[i] = equation.value(b, x, i);
		},
		derivatives: (b, x, out) => {
			const n = out.length / equation.parameters;
			for (let i = 0; i < n; i++) {
				equation.slope(b, x, i, point);
				for (let j = 0; j < equation.parameters; j++) out[j * n + i] = point[j];
			}
		},
	});
	return fitModel(
		model,
		{
			x: columns.length === 1 ? columns[0] : columns,
			y: set.response === "log(y)" ? set.y.map(Math.log) : set.y,
		},
		{
			start: Object.fromEntries(start.map((v, j) => [parameterName(j), v])),
		},
	);
}

const fits = new Map<string, Fit>();
/** The same, once for all who ask. */
export function fitted(set: NistSet, which: "start1" | "start2"): Fit {
	const key = `${set.name} ${which}`;
	const known = fits.get(key);
	if (known !== undefined) return known;
	const made = fitNist(set, set[which]);
	fits.set(key, made);
	return made;
}

const source = (set: NistSet): string =>
	`NIST Statistical Reference Datasets, nonlinear regression, ${set.name}`;

function checksOf(set: NistSet, which: "start1" | "start2"): Check[] {
	const label = `${set.name} from ${which === "start1" ? "start 1" : "start 2"}`;
	const common = {
		source: source(set),
		provenance: "published" as const,
		unit: "",
	};
	// Lanczos1 was generated to 14 digits: its residual sum of squares and standard errors are rounding in double precision.
	const rounding = set.name === "Lanczos1";
	return [
		...set.certifiedParams.map(
			(expected, j): Check => ({
				...common,
				what: `${label}: ${parameterName(j)}`,
				fact: parameterName(j),
				expected,
				got: () => fitted(set, which).theta[j],
				tolerance: 1e-6,
			}),
		),
		...(rounding
			? []
			: [
					...set.certifiedSD.map(
						(expected, j): Check => ({
							...common,
							what: `${label}: standard error of ${parameterName(j)}`,
							fact: `standard error of ${parameterName(j)}`,
							expected,
							got: () => {
								const e = fitted(set, which).parameters[j].standardError;
								return e.is === "value" ? e.value : Number.NaN;
							},
							tolerance: 1e-5,
						}),
					),
					{
						...common,
						what: `${label}: residual sum of squares`,
						fact: "residual sum of squares",
						expected: set.certifiedRSS,
						got: () => fitted(set, which).residualSumOfSquares,
						tolerance: 1e-8,
					},
				]),
	];
}

const starts = nistSets.flatMap((set) =>
	(["start1", "start2"] as const).map((which) => ({ set, which })),
);

export const nistNonlinearChecks: Check[] = starts.flatMap(({ set, which }) =>
	checksOf(set, which),
);

/** How many of the starts reach the certified parameters to so many digits; a start counts when every parameter does. */
export function startsReaching(tolerance: number): number {
	return starts.filter(({ set, which }) =>
		checksOf(set, which)
			.slice(0, set.certifiedParams.length)
			.every((check) => passes({ ...check, tolerance }, check.got())),
	).length;
}

export const nistStarts = starts.length;
