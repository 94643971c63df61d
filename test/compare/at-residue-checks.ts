import { marginOf, residueOf } from "../../kernel-lib/compare";
import { langmuir } from "../../kernel-lib/isotherms/index";
import { type Check, referenceData } from "../reference/check";
import {
	type AtStatedResidue,
	compareAtResidue,
	type FlaskFixture,
	flasks,
	verdictOf,
} from "./fixtures";

interface Curve {
	readonly theta: readonly [number, number];
	readonly uptake: number;
}

interface Example {
	readonly about: string;
	readonly balanceSlope: number;
	readonly ownResidue: number;
	readonly ownUptake: number;
	readonly residue: number;
	readonly flasks: readonly {
		readonly treatment: string;
		readonly flask: string;
		readonly residue: number;
		readonly uptake: number;
		readonly shared: Record<string, number>;
	}[];
	readonly curves: Record<string, Curve>;
	readonly differences: readonly {
		readonly treatment: string;
		readonly degreesOfFreedom: number;
		readonly estimate: number;
		readonly standardError: number;
		readonly low: number;
		readonly high: number;
	}[];
}

const example = referenceData<Example>("comparison-at-residue.json");

/** Three treatments of seven flasks each, with two errors that flasks of several treatments share. */
export function atResidueExample(): AtStatedResidue {
	return compareAtResidue(
		flasks(
			example.flasks.map(
				(f): FlaskFixture => ({
					...f,
					control: f.treatment === "water" ? "" : "water",
					reading: example.ownUptake,
					residueReading: example.ownResidue,
					liquid: 1000 * example.balanceSlope,
				}),
			),
		),
		{
			residue: residueOf(example.residue),
			margin: marginOf(10),
			isotherms: [langmuir],
		},
	);
}

let computed: AtStatedResidue | null = null;
const comparison = (): AtStatedResidue => {
	computed ??= atResidueExample();
	return computed;
};

const check = (
	what: string,
	expected: number,
	tolerance: number,
	unit: string,
	got: () => number,
): Check => ({
	what,
	source:
		"invented flasks; computed with NumPy 2.4 and SciPy 1.17, data/reference/remake/at_residue.py",
	provenance: "computed with a general library",
	expected,
	got,
	tolerance,
	unit,
});

function differenceOf(
	treatment: string,
	what: "estimate" | "standardError" | "low" | "high" | "degreesOfFreedom",
): number {
	const { difference } = verdictOf(comparison(), treatment);
	return difference.is === "estimate" ? difference[what] : Number.NaN;
}

/** Curves, uptakes on them, and simultaneous intervals of their differences. */
export const atResidueChecks: readonly Check[] = [
	...Object.entries(example.curves).flatMap(([name, { theta, uptake }]) => [
		...theta.map((value, j) =>
			check(
				`${name}: ${langmuir.parameters[j].name}`,
				value,
				1e-6,
				langmuir.parameters[j].unit,
				() =>
					comparison().fits.find((f) => f.points.name === name)?.theta[j] ??
					Number.NaN,
			),
		),
		check(
			`${name}: uptake at the stated residue`,
			uptake,
			1e-7,
			"mg/g",
			() =>
				comparison().groups.find((g) => g.treatment === name)?.mean ??
				Number.NaN,
		),
	]),
	...example.differences.flatMap((d) => {
		const of = `${d.treatment} less water at the stated residue`;
		return [
			check(of, d.estimate, 1e-5, "mg/g", () =>
				differenceOf(d.treatment, "estimate"),
			),
			check(
				`${of}: standard error, shared errors with their signs`,
				d.standardError,
				1e-5,
				"mg/g",
				() => differenceOf(d.treatment, "standardError"),
			),
			...(["low", "high"] as const).map((end) =>
				check(
					`${of}: ${end} end of the simultaneous interval`,
					d[end],
					// An end near zero shows the fourth digit of the half-width only.
					(1e-4 * (d.high - d.low)) / Math.abs(d[end]),
					"mg/g",
					() => differenceOf(d.treatment, end),
				),
			),
		];
	}),
	...example.differences.map((d) =>
		check(
			`${d.treatment}: degrees of freedom of its interval`,
			d.degreesOfFreedom,
			1e-4,
			"",
			() => differenceOf(d.treatment, "degreesOfFreedom"),
		),
	),
];
