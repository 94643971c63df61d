import type { FlaskUptake } from "../uptake";

/** Flasks that one curve goes through. */
export interface CurveGroup {
	readonly treatment: string;
	/** What people call it: the treatment, or one of its soaks. */
	readonly name: string;
	readonly flasks: readonly FlaskUptake[];
}

/** Whether a treatment had several soaks (or firings) with several flasks each: then each soak has a curve of its own. */
export function soaksAreUnits(flasks: readonly FlaskUptake[]): boolean {
	const soaks = new Set(flasks.map((u) => u.flask.soak));
	return soaks.size > 1 && soaks.size < flasks.length;
}

/**
 * The curves that the flasks of a treatment are to make. One for each soak where several soaks have several flasks each, since flasks of one soak are no replicates of the treatment; else one for all, be it
 * that there was one soak or that every flask had its own.
 */
export function curveGroupsOf(
	treatment: string,
	flasks: readonly FlaskUptake[],
): CurveGroup[] {
	if (!soaksAreUnits(flasks)) return [{ treatment, name: treatment, flasks }];
	return [...new Set(flasks.map((u) => u.flask.soak))].map((soak) => ({
		treatment,
		name:
			soak === "" ? `${treatment}, soak not recorded` : `${treatment}, ${soak}`,
		flasks: flasks.filter((u) => u.flask.soak === soak),
	}));
}
