import { type ResultKind, requireResult } from "../quantity";

/** What a fit of an isotherm is known by. */
export const fitKind: ResultKind = {
	parts: ["isotherm", "points", "theta", "parameters"],
	expected: "a fit, as isotherms.fitIsotherm(isotherm, points) returns it",
};

const pointsKind: ResultKind = {
	parts: ["name", "points", "shared", "leftOut"],
	expected:
		"the points of one treatment, as isotherms.isothermPoints(trial, treatment) returns them",
};

const isothermKind: ResultKind = {
	parts: ["name", "model", "parameters", "slope"],
	expected: "an isotherm, such as isotherms.langmuir",
};

export function requireFit(given: unknown, of: string): void {
	requireResult(given, fitKind, of);
}

export function requirePoints(given: unknown, of: string): void {
	requireResult(given, pointsKind, of);
}

export function requireIsotherm(given: unknown, of: string): void {
	requireResult(given, isothermKind, of);
}
