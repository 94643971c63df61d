import {
	effectiveDegreesOfFreedom,
	input,
	normal,
	per,
	plus,
	type Quantity,
	rectangular,
	times,
	triangular,
} from "../../kernel-lib/quantity";
import { type Check, referenceData } from "./check";

type Pair = readonly [number, number];

const data = referenceData<{
	QUAM_A1: {
		inputs: { m_mg: Pair; P: Pair };
		c: number;
		u_fullPrecision: number;
		remembered: { c: number };
	};
	QUAM_A2: {
		inputs: Record<"rep" | "m_g" | "P" | "M" | "V_mL", Pair>;
		c: number;
		u: number;
		published: { c: number; u: number };
	};
	QUAM_A3: {
		inputs: Record<
			"rep" | "m_g" | "P" | "M" | "VT2_mL" | "VT1_mL" | "VHCl_mL",
			Pair
		>;
		c: number;
		u_recomputed: number;
		published: { c: number };
	};
	welchSatterthwaite: { inputs: Pair[]; uc: number; nuEff: number };
	JCGM100_H3: {
		u1: number;
		read: {
			withSystematic: { systematic: number; u1: number; nuEff: number };
		};
	};
}>("uncertainty.json");

const ratio = (value: number, u: number, symbol: string): Quantity<"ratio"> =>
	input("ratio", value, "1", normal(u), { symbol });

/** QUAM A1: cadmium standard, c = m P / V; volume: tolerance (triangular), repeatability, temperature (rectangular). */
function cadmium(): Quantity<"massConcentration"> {
	const { m_mg, P } = data.QUAM_A1.inputs;
	const mass = input("mass", m_mg[0], "mg", normal(m_mg[1]), { symbol: "m" });
	const volume = plus(
		input("volume", 100, "mL", triangular(0.1), { symbol: "V" }),
		input("volume", 0, "mL", normal(0.02), { symbol: "V_rep" }),
		input("volume", 0, "mL", rectangular(100 * 2.1e-4 * 4), {
			symbol: "V_temp",
		}),
	);
	return per(
		times(
			mass,
			input("ratio", P[0], "1", rectangular(0.0001), { symbol: "P" }),
		),
		volume,
	);
}

/** QUAM A2: sodium hydroxide against potassium hydrogen phthalate, c = rep m P / (M V). */
function hydroxide(): Quantity<"concentration"> {
	const x = data.QUAM_A2.inputs;
	const mass = input("mass", x.m_g[0], "g", normal(x.m_g[1]), { symbol: "m" });
	const molarMass = input("molarMass", x.M[0], "g/mol", normal(x.M[1]), {
		symbol: "M",
	});
	const volume = input("volume", x.V_mL[0], "mL", normal(x.V_mL[1]), {
		symbol: "V",
	});
	return per(
		per(
			times(times(ratio(...x.rep, "rep"), mass), ratio(...x.P, "P")),
			molarMass,
		),
		volume,
	);
}

/** QUAM A3: hydrochloric acid by two titrations, c = rep m P V2 / (V1 M VH). */
function hydrochloric(): Quantity<"concentration"> {
	const x = data.QUAM_A3.inputs;
	const volume = (pair: Pair, symbol: string): Quantity<"volume"> =>
		input("volume", pair[0], "mL", normal(pair[1]), { symbol });
	const amount = per(
		times(
			times(
				ratio(...x.rep, "rep"),
				input("mass", x.m_g[0], "g", normal(x.m_g[1]), { symbol: "m" }),
			),
			ratio(...x.P, "P"),
		),
		input("molarMass", x.M[0], "g/mol", normal(x.M[1]), { symbol: "M" }),
	);
	return per(
		times(amount, per(volume(x.VT2_mL, "V2"), volume(x.VT1_mL, "V1"))),
		volume(x.VHCl_mL, "VH"),
	);
}

function welch(): Quantity<"ratio"> {
	const [a, b, c] = data.welchSatterthwaite.inputs.map(([u, df], i) =>
		input(
			"ratio",
			0,
			"1",
			normal(u, df > 1e200 ? Number.POSITIVE_INFINITY : df),
			{
				symbol: `x${i}`,
			},
		),
	);
	return plus(a, b, c);
}

/** The intercept of the thermometer's line, of eleven readings, and a systematic error that no readings tell. */
function intercept(): Quantity<"ratio"> {
	const { u1, read } = data.JCGM100_H3;
	return plus(
		input("ratio", 0, "1", normal(u1, 9), { symbol: "y1" }),
		input("ratio", 0, "1", normal(read.withSystematic.systematic), {
			symbol: "e",
		}),
	);
}

const quam = "EURACHEM/CITAC Guide QUAM:2012";

export const uncertaintyChecks: Check[] = [
	{
		what: "cadmium standard, value",
		source: `${quam}, example A1 (1002.7 mg/L, from memory)`,
		provenance: "from memory",
		expected: data.QUAM_A1.remembered.c,
		got: () => cadmium().in("mg/L"),
		tolerance: 5e-5,
		unit: "mg/L",
	},
	{
		what: "cadmium standard, standard uncertainty (recomputed; printed as 0.9)",
		source: `${quam}, example A1, recomputed with numpy from its inputs`,
		provenance: "computed with a general library",
		expected: data.QUAM_A1.u_fullPrecision,
		got: () => cadmium().to("mg/L").standardUncertainty,
		tolerance: 1e-6,
		unit: "mg/L",
	},
	{
		what: "hydroxide against phthalate, value",
		source: `${quam}, example A2, table A2.1 (printed 0.10214 mol/L)`,
		provenance: "published",
		expected: data.QUAM_A2.published.c,
		got: () => hydroxide().in("mol/L"),
		tolerance: 5e-5,
		unit: "mol/L",
	},
	{
		what: "hydroxide against phthalate, standard uncertainty (printed digits)",
		source: `${quam}, example A2, table A2.1 (printed 0.00010 mol/L)`,
		provenance: "published",
		expected: data.QUAM_A2.published.u,
		got: () => hydroxide().standardUncertainty,
		tolerance: 0.05,
		unit: "mol/L",
	},
	{
		what: "hydroxide against phthalate, standard uncertainty (all digits)",
		source: `${quam}, example A2, recomputed with numpy from its inputs`,
		provenance: "computed with a general library",
		expected: data.QUAM_A2.u,
		got: () => hydroxide().standardUncertainty,
		tolerance: 1e-6,
		unit: "mol/L",
	},
	{
		what: "hydrochloric acid by two titrations, value",
		source: `${quam}, example A3, table A3.1 (printed 0.10139 mol/L)`,
		provenance: "published",
		expected: data.QUAM_A3.published.c,
		got: () => hydrochloric().in("mol/L"),
		tolerance: 5e-5,
		unit: "mol/L",
	},
	{
		what: "hydrochloric acid, standard uncertainty (the printed 0.00016 does not follow from the printed inputs; recomputed)",
		source: `${quam}, example A3, recomputed with numpy from its inputs`,
		provenance: "computed with a general library",
		expected: data.QUAM_A3.u_recomputed,
		got: () => hydrochloric().standardUncertainty,
		tolerance: 1e-6,
		unit: "mol/L",
	},
	{
		what: "Welch-Satterthwaite, combined uncertainty",
		source:
			"JCGM 100:2008, G.4.1, three invented components, computed with numpy",
		provenance: "computed with a general library",
		expected: data.welchSatterthwaite.uc,
		got: () => welch().standardUncertainty,
		tolerance: 1e-12,
		unit: "",
	},
	{
		what: "Welch-Satterthwaite, effective degrees of freedom",
		source:
			"JCGM 100:2008, G.4.1, three invented components, computed with numpy",
		provenance: "computed with a general library",
		expected: data.welchSatterthwaite.nuEff,
		got: () => effectiveDegreesOfFreedom(welch()),
		tolerance: 1e-9,
		unit: "",
	},
	{
		what: "thermometer with a systematic error, standard uncertainty of the intercept",
		source:
			"JCGM 100:2008, H.3.6, with an error of 0.005 as the documentation of GTC 1.4 (MSLNZ, page GUM_H3) works it",
		provenance: "published",
		expected: data.JCGM100_H3.read.withSystematic.u1,
		got: () => intercept().standardUncertainty,
		tolerance: 1e-12,
		unit: "",
	},
	{
		what: "thermometer with a systematic error, effective degrees of freedom",
		source:
			"JCGM 100:2008, H.3.6, with an error of 0.005 as the documentation of GTC 1.4 (MSLNZ, page GUM_H3) works it",
		provenance: "published",
		expected: data.JCGM100_H3.read.withSystematic.nuEff,
		got: () => effectiveDegreesOfFreedom(intercept()),
		tolerance: 1e-9,
		unit: "",
	},
];
