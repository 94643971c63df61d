import {
	correlation,
	cosineOf,
	expandedUncertainty,
	input,
	monteCarlo,
	normal,
	per,
	plus,
	type Quantity,
	readTogether,
	rectangular,
	sineOf,
	stated,
	times,
} from "../../kernel-lib/quantity";
import { type Check, referenceData } from "../reference/check";

const data = referenceData<{
	JCGM101_9_2: {
		normals4: { interval95: number; remembered: number };
		rect4: { GUF: number; analytic: number; remembered: number };
		rect3_plus_wide: {
			u: number;
			GUF: number;
			exact95: number;
			remembered: { GUF: number; MCM: number };
		};
	};
	JCGM100_H2: {
		data: { V_V: number[]; I_A: number[]; phi_rad: number[] };
		y: Record<"R" | "X" | "Z", number>;
		u: Record<"R" | "X" | "Z", number>;
		r_RX: number;
		r_RZ: number;
		r_XZ: number;
		read: Record<"V" | "I" | "phi", readonly [number, number]> &
			Record<"R" | "X" | "Z" | "r_V_I" | "r_V_phi" | "r_I_phi", number> & {
				source: string;
			};
	};
}>("uncertainty.json");

function sum(
	spreads: readonly number[],
	shape: "normal" | "rectangular",
): Quantity<"ratio"> {
	const [first, ...more] = spreads.map((u, i) =>
		input(
			"ratio",
			0,
			"1",
			shape === "normal" ? normal(u) : rectangular(u * Math.sqrt(3)),
			{ symbol: `x${i}`, source: stated("JCGM 101:2008, 9.2") },
		),
	);
	return plus(first, ...more);
}

const four = [1, 1, 1, 1];
const wide = [1, 1, 1, 10];

/** Upper 95 % limit from a low-discrepancy run long enough for the tolerances below. */
function limit(q: Quantity, kind: "symmetric" | "shortest"): number {
	const t = monteCarlo(q, { trials: 2 ** 20, sampling: "sobol" })[kind];
	return (t.upper - t.lower) / 2;
}

const jcgm101 = "JCGM 101:2008, clause 9.2";
const h2 = "JCGM 100:2008, H.2, simultaneous resistance and reactance";
const example = data.JCGM100_H2;

function readings(): readonly Quantity<"ratio">[] {
	const series = (readings: number[], symbol: string) => ({
		kind: "ratio" as const,
		unit: "1" as const,
		readings,
		symbol,
		meaning: symbol,
	});
	return readTogether(
		[
			series(example.data.V_V, "V"),
			series(example.data.I_A, "I"),
			series(example.data.phi_rad, "φ"),
		],
		h2,
	);
}

function impedance(): Record<"R" | "X" | "Z", Quantity<"ratio">> {
	const [v, i, phi] = readings();
	const Z = per(v, i);
	return { R: times(Z, cosineOf(phi)), X: times(Z, sineOf(phi)), Z };
}

/** Means of the readings as they are printed, each to its last digit. */
function meanChecks(): Check[] {
	const { read } = example;
	const common = {
		source: read.source,
		provenance: "published" as const,
		unit: "",
	};
	const of = ["V", "I", "phi"] as const;
	return [
		...of.flatMap((name, k): Check[] => [
			{
				...common,
				what: `mean of five readings of ${name}, printed digits`,
				expected: read[name][0],
				got: () => readings()[k].value,
				tolerance: 1e-6,
			},
			{
				...common,
				what: `its standard uncertainty (${name}), two printed digits`,
				expected: read[name][1],
				got: () => readings()[k].standardUncertainty,
				tolerance: 0.02,
			},
		]),
		...(
			[
				["r_V_I", 0, 1],
				["r_V_phi", 0, 2],
				["r_I_phi", 1, 2],
			] as const
		).map(
			([key, a, b]): Check => ({
				...common,
				what: `correlation of the means, ${key}, two printed digits`,
				expected: read[key],
				got: () => correlation(readings()[a], readings()[b]),
				tolerance: 0.005 / Math.abs(read[key]),
			}),
		),
	];
}

export const quantityChecks: Check[] = [
	...meanChecks(),
	{
		what: "four normal inputs, first-order 95 % limit",
		source: `${jcgm101}.2 (printed 3.92), 1.95996 * 2`,
		provenance: "from memory",
		expected: data.JCGM101_9_2.normals4.interval95,
		got: () => expandedUncertainty(sum(four, "normal")).halfWidth,
		tolerance: 1e-9,
		unit: "",
	},
	{
		what: "four normal inputs, Monte Carlo 95 % limit",
		source: `${jcgm101}.2 (printed 3.92), 1.95996 * 2`,
		provenance: "from memory",
		expected: data.JCGM101_9_2.normals4.interval95,
		got: () => limit(sum(four, "normal"), "symmetric"),
		// The accuracy that 2^20 low-discrepancy trials reach.
		tolerance: 1e-3,
		unit: "",
	},
	{
		what: "four rectangular inputs, Monte Carlo 95 % limit (first order gives 3.92)",
		source: `${jcgm101}.3 (printed 3.88), exactly 2 sqrt(3) (2 - (3/5)^(1/4))`,
		provenance: "from memory",
		expected: data.JCGM101_9_2.rect4.analytic,
		got: () => limit(sum(four, "rectangular"), "symmetric"),
		tolerance: 1e-3,
		unit: "",
	},
	{
		what: "four rectangular inputs, shortest 95 % interval",
		source: `${jcgm101}.3 (printed 3.88), symmetric about its middle`,
		provenance: "from memory",
		expected: data.JCGM101_9_2.rect4.remembered,
		got: () => limit(sum(four, "rectangular"), "shortest"),
		tolerance: 2e-3,
		unit: "",
	},
	{
		what: "one rectangular input ten times as wide, standard uncertainty",
		source: `${jcgm101}.4 (printed 10.1), sqrt(103)`,
		provenance: "from memory",
		expected: data.JCGM101_9_2.rect3_plus_wide.u,
		got: () => sum(wide, "rectangular").standardUncertainty,
		tolerance: 1e-12,
		unit: "",
	},
	{
		what: "one rectangular input ten times as wide, first-order 95 % limit",
		source: `${jcgm101}.4 (printed 19.9)`,
		provenance: "from memory",
		expected: data.JCGM101_9_2.rect3_plus_wide.GUF,
		got: () => expandedUncertainty(sum(wide, "rectangular")).halfWidth,
		tolerance: 1e-9,
		unit: "",
	},
	{
		what: "one rectangular input ten times as wide, Monte Carlo 95 % limit",
		source: `${jcgm101}.4 (printed 17.0), exact by convolution`,
		provenance: "from memory",
		expected: data.JCGM101_9_2.rect3_plus_wide.exact95,
		got: () => limit(sum(wide, "rectangular"), "symmetric"),
		tolerance: 1e-3,
		unit: "",
	},
	...(["R", "X", "Z"] as const).flatMap((name): Check[] => [
		{
			what: `${name} from correlated readings, value`,
			source: example.read.source,
			provenance: "published",
			expected: example.read[name],
			got: () => impedance()[name].value,
			// Half of the last printed digit: three of R, two of the others.
			tolerance: (name === "R" ? 0.0005 : 0.005) / example.read[name],
			unit: "ohm",
		},
		{
			what: `${name} from correlated readings, standard uncertainty`,
			source: `${h2}, recomputed with numpy from the single readings, which are from memory`,
			provenance: "computed with a general library",
			expected: example.u[name],
			got: () => impedance()[name].standardUncertainty,
			tolerance: 1e-9,
			unit: "ohm",
		},
	]),
	...(
		[
			["R", "X", example.r_RX],
			["R", "Z", example.r_RZ],
			["X", "Z", example.r_XZ],
		] as const
	).map(
		([a, b, expected]): Check => ({
			what: `correlation of ${a} and ${b}`,
			source: `${h2}, recomputed with numpy from the single readings, which are from memory`,
			provenance: "computed with a general library",
			expected,
			got: () => {
				const found = impedance();
				return correlation(found[a], found[b]);
			},
			tolerance: 1e-9,
			unit: "",
		}),
	),
];
