import { doorFor } from "../quantity";

export const requireFit = doorFor({
	parts: ["task", "theta", "parameters"],
	expected: "a fit, as fit.fit(model, data) returns it",
});

export const requireData = doorFor({
	parts: [],
	expected: "the points in braces, such as { x: [1, 2, 3], y: [2, 4, 6] }",
});

export const requireModel = doorFor({
	parts: ["name", "parameters", "evaluate", "prepare"],
	expected: "a model, as fit.defineModel({ ... }) returns it",
});
