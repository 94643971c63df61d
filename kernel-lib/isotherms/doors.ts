import { doorFor, type ResultKind } from "../quantity";

/** What a fit of an isotherm is known by. */
export const fitKind: ResultKind = {
	parts: ["isotherm", "points", "theta", "parameters"],
	expected: "a fit, as isotherms.fitIsotherm(isotherm, points) returns it",
};

export const requireFit = doorFor(fitKind);

export const requirePoints = doorFor({
	parts: ["name", "points", "shared", "leftOut"],
	expected:
		"the points of one treatment, as isotherms.isothermPoints(trial, treatment) returns them",
});

export const requireIsotherm = doorFor({
	parts: ["name", "model", "parameters", "slope"],
	expected: "an isotherm, such as isotherms.langmuir",
});
