import {
	d4607,
	dosageFor,
	iodineNumbers,
} from "../../kernel-lib/uptake/iodine-number";
import { steps } from "../uptake/sheets";
import { type Check, referenceData } from "./check";

interface Case {
	readonly id: string;
	readonly note: string;
	readonly inputs: {
		readonly N1: number;
		readonly N2: number;
		readonly M: readonly number[];
		readonly S: readonly number[];
	};
	readonly expected: {
		readonly slope_1_over_n: number;
		readonly r: number;
		readonly iodineNumber_mg_g: number;
		readonly XoverM_mg_g: readonly number[];
	};
}

const data = referenceData<{
	source: string;
	cases: readonly Case[];
	dosage: readonly { E_mg_g: number; C_N: number; M_g: number }[];
}>("iodine-number.json");

/** The case through the whole chain, as a bench sheet with the standard's own volumes. */
export function iodineNumberOfCase(
	c: Case,
): Extract<ReturnType<typeof iodineNumbers>[number], { is: "value" }> {
	const { trial } = steps(
		c.inputs.M.map((mass, i) => ({
			flask: `${i + 1}`,
			treatment: "control",
			"char mass (g)": mass,
			"liquid added (mL)": d4607.acidVolume_mL,
			"dose (mL)": d4607.iodineVolume_mL,
			"aliquot (mL)": d4607.aliquot_mL,
			"titre (mL)": c.inputs.S[i],
		})),
		[
			{
				solution: "iodine",
				substance: "iodine",
				"concentration (N)": c.inputs.N2,
			},
			{
				solution: "thiosulfate",
				substance: "sodium thiosulfate",
				"concentration (N)": c.inputs.N1,
			},
		],
	);
	const [result] = iodineNumbers(trial);
	if (result.is !== "value") throw new Error(result.because);
	return result;
}

export const iodineNumberCases = data.cases;

export const iodineNumberChecks: Check[] = [
	...data.cases.flatMap((c): Check[] => {
		const common = {
			source: data.source,
			provenance: "computed with a general library" as const,
			tolerance: 1e-9,
		};
		return [
			{
				...common,
				what: `${c.id}: uptake at 0.02 N`,
				expected: c.expected.iodineNumber_mg_g,
				got: () => iodineNumberOfCase(c).line.value.in("mg/g"),
				unit: "mg/g",
			},
			{
				...common,
				what: `${c.id}: slope 1/n`,
				expected: c.expected.slope_1_over_n,
				got: () => iodineNumberOfCase(c).line.slope,
				unit: "",
			},
			{
				...common,
				what: `${c.id}: correlation r`,
				expected: c.expected.r,
				got: () => iodineNumberOfCase(c).line.correlation,
				unit: "",
			},
			{
				...common,
				what: `${c.id}: X/M of the first dosage`,
				expected: c.expected.XoverM_mg_g[0],
				got: () => iodineNumberOfCase(c).points[0].uptake.in("mg/g"),
				unit: "mg/g",
			},
		];
	}),
	...data.dosage.map(
		(d): Check => ({
			source: data.source,
			provenance: "computed with a general library",
			what: `char for an expected ${d.E_mg_g} mg/g at a residue of ${d.C_N} N`,
			expected: d.M_g,
			got: () => dosageFor(d.E_mg_g, d.C_N),
			tolerance: 1e-7,
			unit: "g",
		}),
	),
];
