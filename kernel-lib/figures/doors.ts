import type { ResultKind } from "../quantity";

/** What the results that are drawn are known by. */
export const calibrationLineKind: ResultKind = {
	parts: ["model", "coefficients", "covariance", "points"],
	expected:
		"a calibration line, as residue.calibrate(standards) or residue.calibrationLines(trial) gives it",
};

export const frameKind: ResultKind = {
	parts: ["columns", "shape", "values"],
	expected: "a dataframe, such as uptake.uptakeFrame(trial)",
};

/** What a figure is made of, before it is one. */
export const descriptionKind: ResultKind = {
	parts: ["title", "alt", "x", "y", "layers", "notes"],
	expected: "the parts of a figure: { title, alt, x, y, layers, notes }",
};

export const axisKind: ResultKind = {
	parts: ["label", "unit", "scale"],
	expected:
		'an axis, such as { label: "Time", unit: "h", scale: { is: "linear" } }',
};

export const vanTHoffKind: ResultKind = {
	parts: ["steps", "enthalpy"],
	expected: "what temperature.vanTHoff(steps) returns",
};

export const removalKind: ResultKind = {
	parts: ["kind", "at", "confidence"],
	expected: "a curve, as dose.removalCurve(fit) returns it",
};

export const answerKind: ResultKind = {
	parts: ["is", "target"],
	expected:
		"an answer, as dose.doseForTarget or mixtures.doseInMixture returns it",
};

export const removalPointKind: ResultKind = {
	parts: ["flask", "dose", "removal", "start"],
	expected: "a flask, as dose.removalCurve(fit).flasks lists them",
};

export const sievingKind: ResultKind = {
	parts: ["sample", "sizes"],
	expected: "a sieving, one of properties.readProperties(path).sievings",
};

export const figureKind: ResultKind = {
	parts: ["title", "layers", "x", "y"],
	expected: "a figure, such as figures.differences(comparison)",
};
