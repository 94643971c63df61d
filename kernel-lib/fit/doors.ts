import { doorFor } from "../quantity";

export const requireFit = doorFor({
	parts: ["task", "theta", "parameters"],
	expected: "a fit, as fit.fit(model, data) returns it",
});

export const requireModel = doorFor({
	parts: ["name", "parameters", "evaluate", "prepare"],
	expected: "a model, as fit.defineModel({ ... }) returns it",
});
