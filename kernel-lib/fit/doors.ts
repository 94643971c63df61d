import { type ResultKind, requireResult } from "../quantity";

const fitKind: ResultKind = {
	parts: ["task", "theta", "parameters"],
	expected: "a fit, as fit.fit(model, data) returns it",
};

const modelKind: ResultKind = {
	parts: ["name", "parameters", "evaluate", "prepare"],
	expected: "a model, as fit.defineModel({ ... }) returns it",
};

export function requireFit(given: unknown, of: string): void {
	requireResult(given, fitKind, of);
}

export function requireModel(given: unknown, of: string): void {
	requireResult(given, modelKind, of);
}
