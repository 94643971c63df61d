import { plainStructure, type Structure } from "./linearity";
import { minimise } from "./minimise";
import type { DescentSettings } from "./settings";
import { createWorkspace, type Objective, type Workspace } from "./workspace";

/** Descents on one set of points, with the linear parameters projected out as long as they keep within their limits. */
export interface Descent {
	/**
	 * Moves theta to the nearest minimum and returns the workspace that it was reached with, which holds the sum of
	 * squares, the reason for stopping and the triangular factor. Nothing is allocated but the first time limits interfere.
	 */
	run(
		response: Float64Array,
		theta: Float64Array,
		settings: DescentSettings,
	): Workspace;
}

export function createDescent(
	objective: Objective,
	structure: Structure,
): Descent {
	const { points, size } = objective;
	const projected = createWorkspace(points, size, structure);
	let plain: Workspace | null = null;
	return {
		run: (response, theta, settings) => {
			minimise(objective, response, projected, theta, settings);
			if (
				projected.linearCount === 0 ||
				linearWithinLimits(projected, theta, settings)
			)
				return projected;
			plain ??= createWorkspace(points, size, plainStructure(structure));
			for (let j = 0; j < size; j++)
				theta[j] = Math.min(
					settings.upper[j],
					Math.max(settings.lower[j], theta[j]),
				);
			minimise(objective, response, plain, theta, settings);
			return plain;
		},
	};
}

function linearWithinLimits(
	w: Workspace,
	theta: Float64Array,
	settings: DescentSettings,
): boolean {
	for (let c = 0; c < w.linearCount; c++) {
		const j = w.order[c];
		if (!(theta[j] >= settings.lower[j] && theta[j] <= settings.upper[j]))
			return false;
	}
	return true;
}
