import type { ResultKind } from "../quantity";

/** What the results that are drawn are known by. */
export const comparisonKind: ResultKind = {
	parts: ["verdicts", "groups", "margin"],
	expected:
		"a comparison, as compare.compareTreatments(trial, { margin }) returns it",
};

export const vanTHoffKind: ResultKind = {
	parts: ["steps", "enthalpy"],
	expected: "what temperature.vanTHoff(steps) returns",
};

export const removalKind: ResultKind = {
	parts: ["kind", "at", "confidence"],
	expected: "a curve, as dose.removalCurve(fit) returns it",
};

export const sievingKind: ResultKind = {
	parts: ["sample", "sizes"],
	expected: "a sieving, one of properties.readProperties(path).sievings",
};

export const figureKind: ResultKind = {
	parts: ["title", "layers", "x", "y"],
	expected: "a figure, such as figures.differences(comparison)",
};
