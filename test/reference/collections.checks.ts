import { type Fit, fit as fitCurve } from "../../kernel-lib/fit";
import { sips } from "../../kernel-lib/isotherms/index";
import { calibrate } from "../../kernel-lib/residue/colorimetry/index";
import { type RandomLevel, varianceComponents } from "../../kernel-lib/stats";
import { type Check, referenceData } from "./check";

interface Components {
	readonly name: string;
	readonly source: string;
	readonly values: readonly number[];
	readonly outer?: readonly string[];
	readonly unit: readonly string[];
	readonly degreesOfFreedom: readonly number[];
	readonly components: readonly number[];
}

interface Line {
	readonly intercept: number;
	readonly slope: number;
	readonly seIntercept: number;
	readonly seSlope: number;
}

const data = referenceData<{
	readonly saturation: readonly {
		readonly name: string;
		readonly source: string;
		readonly x: readonly number[];
		readonly y: readonly number[];
		readonly parameters: readonly number[];
		readonly standardErrors: readonly number[];
		readonly ssr: number;
	}[];
	readonly line: Line & {
		readonly name: string;
		readonly source: string;
		readonly x: readonly number[];
		readonly y: readonly number[];
		readonly scatter: number;
		readonly published: Line & { readonly source: string };
	};
	readonly components: readonly Components[];
	readonly single: Components;
}>("collections.json");

const byR = "with R 4.2.2; data/reference/collections.json";
const computed = {
	provenance: "computed with a general library" as const,
	unit: "",
};

function saturationChecks(set: (typeof data.saturation)[number]): Check[] {
	let made: Fit | undefined;
	const fitted = (): Fit => {
		made ??= fitCurve(sips.model, { x: set.x, y: set.y });
		return made;
	};
	const common = { ...computed, source: `${set.source}; nls ${byR}` };
	return [
		...set.parameters.flatMap((expected, j): Check[] => [
			{
				...common,
				what: `${set.name}, Sips: ${sips.parameters[j].name}`,
				expected,
				got: () => fitted().theta[j],
				tolerance: 1e-6,
			},
			{
				...common,
				what: `${set.name}, Sips: standard error of ${sips.parameters[j].name}`,
				expected: set.standardErrors[j],
				got: () => {
					const e = fitted().parameters[j].standardError;
					return e.is === "value" ? e.value : Number.NaN;
				},
				tolerance: 1e-4,
			},
		]),
		{
			...common,
			what: `${set.name}, Sips: residual sum of squares`,
			expected: set.ssr,
			got: () => fitted().residualSumOfSquares,
			tolerance: 1e-8,
		},
	];
}

function lineChecks(): Check[] {
	const { line } = data;
	const ours = calibrate(
		line.x.map((concentration, i) => ({ concentration, signal: line.y[i] })),
	);
	const got = {
		intercept: () => ours.coefficients[0],
		slope: () => ours.coefficients[1],
		seIntercept: () => Math.sqrt(ours.covariance[0][0]),
		seSlope: () => Math.sqrt(ours.covariance[1][1]),
	};
	const names = Object.keys(got) as (keyof Line)[];
	return [
		...names.map(
			(name): Check => ({
				what: `${line.name}, calibration line: ${name}, printed digits`,
				source: `${line.source}; ${line.published.source}`,
				provenance: "published",
				expected: line.published[name],
				got: got[name],
				// Six digits are printed.
				tolerance: 5e-6,
				unit: "",
			}),
		),
		...names.map(
			(name): Check => ({
				...computed,
				what: `${line.name}, calibration line: ${name}`,
				source: `${line.source}; lm ${byR}`,
				expected: line[name],
				got: got[name],
				tolerance: 1e-9,
			}),
		),
		{
			...computed,
			what: `${line.name}, calibration line: scatter`,
			source: `${line.source}; lm ${byR}`,
			expected: line.scatter,
			got: () => ours.residualDeviation,
			tolerance: 1e-9,
		},
	];
}

function componentChecks(set: Components): Check[] {
	const levels: RandomLevel[] = [
		...(set.outer === undefined ? [] : [{ name: "outer", groups: set.outer }]),
		{ name: "unit", groups: set.unit },
		{ name: "single", groups: set.values.map((_, i) => String(i)) },
	];
	const found = varianceComponents(
		set.values,
		set.values.map(() => "all"),
		levels,
		0.95,
	);
	return set.components.flatMap((expected, k): Check[] => {
		const c = found[k];
		const common = {
			...computed,
			source: `${set.source}; mean squares ${byR}`,
		};
		return [
			{
				...common,
				what: `${set.name}: variance of level ${k + 1} of ${levels.length}`,
				expected,
				got: () => ("estimate" in c ? c.estimate : Number.NaN),
				tolerance: 1e-8,
			},
			{
				...common,
				what: `${set.name}: degrees of freedom of level ${k + 1}`,
				expected: set.degreesOfFreedom[k],
				got: () => ("estimate" in c ? c.degreesOfFreedom : Number.NaN),
				tolerance: 0,
			},
		];
	});
}

/** Data that others measured, from general collections: the same curves, the same line, the same levels of scatter as a trial's. */
export const collectionChecks: readonly Check[] = [
	...data.saturation.flatMap(saturationChecks),
	...lineChecks(),
	...[...data.components, data.single].flatMap(componentChecks),
];
