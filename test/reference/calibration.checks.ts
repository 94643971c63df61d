import {
	bendTest,
	type CalibrationLine,
	calibrate,
	detectionLimits,
	lackOfFit,
	readBackwards,
} from "../../kernel-lib/residue/colorimetry/index";
import { studentTQuantile } from "../../kernel-lib/stats/index";
import { type Check, referenceData } from "./check";

interface LinearSet {
	readonly name: string;
	readonly source: string;
	readonly provenance: "published" | "from memory";
	readonly certified: Readonly<Record<string, number>>;
	readonly x: readonly number[];
	readonly y: readonly number[];
}

function lineThrough(
	x: readonly number[],
	y: readonly number[],
	options: Parameters<typeof calibrate>[1] = {},
): CalibrationLine {
	return calibrate(
		x.map((concentration, i) => ({ concentration, signal: y[i] })),
		options,
	);
}

function linearChecks(name: string): Check[] {
	const set = referenceData<LinearSet>(`nist-linear/${name}.json`);
	const line = lineThrough(set.x, set.y, {
		model: set.certified.B0 === undefined ? "through zero" : "straight",
	});
	const got: Record<string, () => number> = {
		B0: () => line.coefficients[0],
		seB0: () => Math.sqrt(line.covariance[0][0]),
		B1: () => line.coefficients[1],
		seB1: () => Math.sqrt(line.covariance[1][1]),
		residualSD: () => line.residualDeviation,
	};
	return Object.keys(got)
		.filter((key) => set.certified[key] !== undefined)
		.map((key) => ({
			what: `${name}: ${key}`,
			source: set.source,
			provenance: set.provenance,
			expected: set.certified[key],
			got: got[key],
			tolerance: 1e-9,
			unit: "",
		}));
}

interface InverseCase {
	readonly source: string;
	readonly c_mg_L: readonly number[];
	readonly A: readonly number[];
	readonly sampleReplicates: readonly number[];
	readonly slope: number;
	readonly intercept: number;
	readonly sy: number;
	readonly seSlope: number;
	readonly seIntercept: number;
	readonly corr_a_b: number;
	readonly x0: number;
	readonly se_x0: number;
	readonly ci95_delta: readonly [number, number];
	readonly ci95_fieller: readonly [number, number];
	readonly xNG_detection: number;
	readonly xEG: number;
	readonly xBG_k3: number;
	readonly minimumDetectable: {
		readonly source: string;
		readonly degreesOfFreedom: readonly number[];
		readonly delta: readonly number[];
	};
	readonly throughOrigin: { readonly slope: number; readonly s: number };
}

function inverseChecks(): Check[] {
	const e = referenceData<InverseCase>("calibration-inverse.json");
	const line = lineThrough(e.c_mg_L, e.A);
	const m = e.sampleReplicates.length;
	const mean = e.sampleReplicates.reduce((s, v) => s + v, 0) / m;
	const read = readBackwards(line, mean, m);
	const limits = detectionLimits(line, { readings: m });
	const zero = lineThrough(e.c_mg_L, e.A, { model: "through zero" });
	const exact = (end: "low" | "high"): number =>
		read.exact.is === "interval" ? read.exact[end] : Number.NaN;
	const [vaa, vab] = line.covariance[0];
	const rows: readonly (readonly [string, number, () => number, string])[] = [
		["slope", e.slope, () => line.coefficients[1], "L/mg"],
		["intercept", e.intercept, () => line.coefficients[0], ""],
		["scatter about the line", e.sy, () => line.residualDeviation, ""],
		[
			"error of the slope",
			e.seSlope,
			() => Math.sqrt(line.covariance[1][1]),
			"L/mg",
		],
		["error of the intercept", e.seIntercept, () => Math.sqrt(vaa), ""],
		[
			"correlation of intercept and slope",
			e.corr_a_b,
			() => vab / Math.sqrt(vaa * line.covariance[1][1]),
			"",
		],
		[
			"concentration, mean of three readings",
			e.x0,
			() => read.concentration,
			"mg/L",
		],
		[
			"its standard uncertainty (ISO 8466-1)",
			e.se_x0,
			() => read.standardUncertainty,
			"mg/L",
		],
		["lower end, ISO 8466-1", e.ci95_delta[0], () => read.interval.low, "mg/L"],
		[
			"upper end, ISO 8466-1",
			e.ci95_delta[1],
			() => read.interval.high,
			"mg/L",
		],
		["lower end, Fieller", e.ci95_fieller[0], () => exact("low"), "mg/L"],
		["upper end, Fieller", e.ci95_fieller[1], () => exact("high"), "mg/L"],
		[
			"decision limit, DIN 32645",
			e.xNG_detection,
			() => limits.decision,
			"mg/L",
		],
		["detection limit, DIN 32645", e.xEG, () => limits.detection, "mg/L"],
		[
			"quantification limit, DIN 32645",
			e.xBG_k3,
			() =>
				limits.quantification.is === "value"
					? limits.quantification.value
					: Number.NaN,
			"mg/L",
		],
		[
			"slope through zero",
			e.throughOrigin.slope,
			() => zero.coefficients[1],
			"L/mg",
		],
		[
			"scatter about the line through zero",
			e.throughOrigin.s,
			() => zero.residualDeviation,
			"",
		],
	];
	return rows.map(([what, expected, got, unit]) => ({
		what: `calibration: ${what}`,
		source: e.source,
		provenance: "computed with a general library",
		expected,
		got,
		tolerance: 1e-9,
		unit,
	}));
}

/** The ISO limit over the decision limit is δ/t whatever the line; here of a line with n = ν + 2 standards. */
function minimumDetectableChecks(): Check[] {
	const { minimumDetectable: e } = referenceData<InverseCase>(
		"calibration-inverse.json",
	);
	return e.degreesOfFreedom.map((nu, i) => ({
		what: `minimum detectable value: noncentrality for ${nu} degrees of freedom`,
		source: e.source,
		provenance: "from memory",
		expected: e.delta[i],
		got: () => {
			const c = Array.from({ length: nu + 2 }, (_, j) => j);
			const line = lineThrough(
				c,
				c.map((v) => v + (v % 2) / 100),
			);
			const { decision, detection } = detectionLimits(line, {
				definition: "ISO 11843",
			});
			return (detection / decision) * studentTQuantile(0.95, nu);
		},
		// rounded to three decimals where it was read
		tolerance: 0.0005 / e.delta[i],
		unit: "",
	}));
}

interface ShapeCase {
	readonly c_mg_L: readonly number[];
	readonly A: readonly number[];
	readonly a: number;
	readonly b: number;
	readonly s: number;
	readonly signal: number;
	readonly readings: number;
	readonly x0: number;
	readonly u: number;
}

function shapeChecks(): Check[] {
	const e = referenceData<{
		source: string;
		bent: ShapeCase & { k: number; mandelF: number };
		weighted: ShapeCase & { seB: number };
		lackOfFit: Pick<ShapeCase, "c_mg_L" | "A"> & { F: number };
	}>("calibration-shapes.json");
	const bent = lineThrough(e.bent.c_mg_L, e.bent.A, { model: "quadratic" });
	const straight = lineThrough(e.bent.c_mg_L, e.bent.A);
	const weighted = lineThrough(e.weighted.c_mg_L, e.weighted.A, {
		readingError: "variance with signal",
	});
	const duplicates = lineThrough(e.lackOfFit.c_mg_L, e.lackOfFit.A);
	const fOf = (test: ReturnType<typeof bendTest>): number =>
		test.is === "value" ? test.F : Number.NaN;
	const back = (line: CalibrationLine, c: ShapeCase) =>
		readBackwards(line, c.signal, c.readings);
	const rows: readonly (readonly [string, number, () => number])[] = [
		["bent line: a", e.bent.a, () => bent.coefficients[0]],
		["bent line: b", e.bent.b, () => bent.coefficients[1]],
		["bent line: k", e.bent.k, () => bent.coefficients[2]],
		["bent line: scatter", e.bent.s, () => bent.residualDeviation],
		[
			"bent line: concentration",
			e.bent.x0,
			() => back(bent, e.bent).concentration,
		],
		[
			"bent line: uncertainty",
			e.bent.u,
			() => back(bent, e.bent).standardUncertainty,
		],
		[
			"bent line: F of Mandel's test",
			e.bent.mandelF,
			() => fOf(bendTest(straight)),
		],
		["weighted line: a", e.weighted.a, () => weighted.coefficients[0]],
		["weighted line: b", e.weighted.b, () => weighted.coefficients[1]],
		["weighted line: scatter", e.weighted.s, () => weighted.residualDeviation],
		[
			"weighted line: error of b",
			e.weighted.seB,
			() => Math.sqrt(weighted.covariance[1][1]),
		],
		[
			"weighted line: concentration",
			e.weighted.x0,
			() => back(weighted, e.weighted).concentration,
		],
		[
			"weighted line: uncertainty",
			e.weighted.u,
			() => back(weighted, e.weighted).standardUncertainty,
		],
		["lack of fit: F", e.lackOfFit.F, () => fOf(lackOfFit(duplicates))],
	];
	return rows.map(([what, expected, got]) => ({
		what,
		source: e.source,
		provenance: "computed with a general library",
		expected,
		got,
		tolerance: 1e-9,
		unit: "",
	}));
}

interface Thermometer {
	readonly source: string;
	readonly t_C: readonly number[];
	readonly b_C: readonly number[];
	readonly read: Readonly<
		Record<"y1" | "u1" | "y2" | "u2" | "r" | "rss" | "b30" | "u_b30", number>
	>;
}

/** A calibration line of the guide: a thermometer's corrections against its reading less 20 °C, to the digits that are printed. */
function thermometerChecks(): Check[] {
	const e = referenceData<{ JCGM100_H3: Thermometer }>(
		"uncertainty.json",
	).JCGM100_H3;
	const line = lineThrough(
		e.t_C.map((t) => t - 20),
		e.b_C,
	);
	const [[vaa, vab], [, vbb]] = line.covariance;
	const rows: readonly (readonly [
		string,
		keyof typeof e.read,
		number,
		number,
	])[] = [
		["intercept", "y1", line.coefficients[0], 5e-5],
		["its standard uncertainty", "u1", Math.sqrt(vaa), 5e-5],
		["slope", "y2", line.coefficients[1], 5e-6],
		["its standard uncertainty", "u2", Math.sqrt(vbb), 5e-6],
		["their correlation", "r", vab / Math.sqrt(vaa * vbb), 5e-3],
		["sum of squared residuals", "rss", line.residualDeviation ** 2 * 9, 1e-15],
		[
			"correction at 30 °C",
			"b30",
			line.coefficients[0] + 10 * line.coefficients[1],
			5e-5,
		],
		[
			"its standard uncertainty",
			"u_b30",
			Math.sqrt(vaa + 20 * vab + 100 * vbb),
			5e-5,
		],
	];
	return rows.map(([what, key, got, half]) => ({
		what: `thermometer: ${what} (${key}), printed digits`,
		source: e.source,
		provenance: "published",
		expected: e.read[key],
		got: () => got,
		// Half of the last printed digit.
		tolerance: half / Math.abs(e.read[key]),
		unit: "",
	}));
}

export const calibrationChecks: Check[] = [
	...thermometerChecks(),
	...["Norris", "NoInt1", "NoInt2"].flatMap(linearChecks),
	...inverseChecks(),
	...minimumDetectableChecks(),
	...shapeChecks(),
];
