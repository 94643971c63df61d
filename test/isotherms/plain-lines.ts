import { meet } from "../../kernel-lib/isotherms/balance-line";
import type {
	Isotherm,
	IsothermPoint,
	IsothermPoints,
	SharedEffect,
} from "../../kernel-lib/isotherms/index";

/** A flask as a test says it: milligrams of iodine per gram of char, litres per gram. */
export interface PlannedLine {
	readonly intercept: number;
	readonly slope: number;
}

/** Doses that go well over a factor of a hundred in residue for the isotherms of these tests. */
export const goodLines: readonly PlannedLine[] = [
	{ intercept: 120, slope: 0.1 },
	{ intercept: 200, slope: 0.1 },
	{ intercept: 260, slope: 0.1 },
	{ intercept: 320, slope: 0.1 },
	{ intercept: 380, slope: 0.1 },
	{ intercept: 450, slope: 0.1 },
	{ intercept: 550, slope: 0.1 },
	{ intercept: 700, slope: 0.1 },
	{ intercept: 900, slope: 0.1 },
];

/**
 * Points whose residues are those of a known isotherm plus the errors given (mg/L, of the titre alone, so that uptake errs by -slope times as much). A flask whose residue stays below `limit` ran dry.
 */
export function pointsOn(
	isotherm: Isotherm,
	theta: readonly number[],
	lines: readonly PlannedLine[],
	given: {
		readonly name?: string;
		readonly probe?: string;
		readonly errors?: readonly number[];
		readonly deviation?: number;
		readonly limit?: number;
		readonly shared?: readonly SharedEffect[];
	} = {},
): IsothermPoints {
	const { errors, deviation = 4, limit = 0, shared = [] } = given;
	const residues = new Float64Array(lines.length);
	meet(
		isotherm,
		Float64Array.from(theta),
		{
			intercept: lines.map((l) => l.intercept),
			slope: lines.map((l) => l.slope),
			near: lines.map(() => 1),
		},
		residues,
	);
	return {
		name: given.name ?? "char",
		probe: given.probe ?? "iodine",
		points: lines.map(({ intercept, slope }, i): IsothermPoint => {
			const read = residues[i] + (errors?.[i] ?? 0);
			const dry = read < limit;
			const concentration = dry ? limit : read;
			return {
				flask: String(i + 1),
				is: dry ? "below detection" : "reading",
				concentration,
				uptake: intercept - slope * concentration,
				balance: { is: "known", intercept, slope },
				own: {
					concentration: deviation ** 2,
					uptake: (slope * deviation) ** 2,
					covariance: -slope * deviation ** 2,
				},
			};
		}),
		shared,
		flasks: [],
		leftOut: [],
		file: "",
		hash: "",
	};
}
