import { type Difference, marginOf } from "../../kernel-lib/compare";
import { type Check, referenceData } from "../reference/check";
import { compareTreatments, flasks, group, verdictOf } from "./fixtures";

interface Expected {
	readonly diff: number;
	readonly se: number;
	readonly p: number;
	readonly ci95: readonly [number, number];
}

interface Example {
	readonly data: {
		readonly source: string;
		readonly control: readonly number[];
		readonly A: readonly number[];
		readonly B: readonly number[];
	};
	readonly expected: {
		readonly meanSquare: number;
		readonly degreesOfFreedom: number;
		readonly twoSided: {
			readonly crit95: number;
			readonly A: Expected;
			readonly B: Expected;
		};
	};
}

const { data, expected } = referenceData<Example>("dunnett-example.json");

/** The example's numbers taken for exact uptakes, each of a soak of its own. */
export function dunnettExample(): ReturnType<typeof compareTreatments> {
	return compareTreatments(
		flasks([
			...group("control", "", data.control),
			...group("A", "control", data.A),
			...group("B", "control", data.B),
		]),
		{ margin: marginOf(0.5), spread: "pooled" },
	);
}

type Estimate = Extract<Difference, { is: "estimate" }>;

function estimateOf(treatment: string): Estimate {
	const { difference } = verdictOf(dunnettExample(), treatment);
	if (difference.is !== "estimate")
		throw new Error(`No estimate for ${treatment}.`);
	return difference;
}

function check(what: string, value: number, got: () => number): Check {
	return {
		what: `Dunnett's example of 1955, ${what}`,
		source: `${data.source}; computed by deterministic quadrature, p as by a general statistics library`,
		provenance: "computed with a general library",
		expected: value,
		got,
		tolerance: 1e-8,
		unit: "",
	};
}

/** The whole path from uptakes to a verdict against the published example, two-sided. */
export const dunnettChecks: readonly Check[] = [
	check("mean square", expected.meanSquare, () => {
		return dunnettExample().pooledDeviation ** 2;
	}),
	check("degrees of freedom", expected.degreesOfFreedom, () => {
		return dunnettExample().degreesOfFreedom;
	}),
	...(["A", "B"] as const).flatMap((t): Check[] => {
		const e = expected.twoSided[t];
		return [
			check(`difference ${t}`, e.diff, () => estimateOf(t).estimate),
			check(`standard error ${t}`, e.se, () => estimateOf(t).standardError),
			check(`adjusted p ${t}`, e.p, () => estimateOf(t).adjustedP),
			check(`lower end ${t}`, e.ci95[0], () => estimateOf(t).low),
			check(`upper end ${t}`, e.ci95[1], () => estimateOf(t).high),
		];
	}),
];
