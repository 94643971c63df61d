import { grouped } from "../../quantity";
import { type VarianceComponent, varianceComponents } from "../../stats";
import type { Observation } from "../observations";
import type { Comparison } from "../verdict";
import { type Single, singlesOf } from "./readings";

/** Where repetitions differ, from the outermost to the innermost. */
export const levelNames = [
	"batch",
	"day",
	"soak",
	"flask",
	"titration",
] as const;
export type LevelName = (typeof levelNames)[number];

/** Scatter of one level, (mg/g)^2. */
export type Component =
	| (Extract<VarianceComponent, { readonly estimate: number }> & {
			readonly name: LevelName;
			/** Levels within it that nothing tells from it, because each had one only. */
			readonly holds: readonly LevelName[];
	  })
	| {
			readonly name: LevelName;
			readonly is: "not known";
			readonly why:
				| Extract<VarianceComponent, { readonly is: "not known" }>["why"]
				| "not recorded";
	  };

export interface Scatter {
	readonly components: readonly Component[];
	/** Standard uncertainty of one titration by its reading and end point, mg/g (root mean square); 0 where nothing was titrated. */
	readonly reading: number;
	readonly flasks: readonly Observation[];
}

const keyOf: Readonly<Record<LevelName, (s: Single, i: number) => string>> = {
	batch: ({ of }) => of.flask.flask.charBatch,
	day: ({ of }) => of.flask.flask.day,
	soak: ({ of }) =>
		of.flask.flask.soak === "" ? "" : `${of.treatment}\n${of.flask.flask.soak}`,
	flask: ({ of }) => of.name,
	titration: (_, i) => String(i),
};

interface Level {
	readonly name: LevelName;
	readonly groups: readonly string[];
	readonly holds: readonly LevelName[];
}

const count = (groups: readonly string[]): number => new Set(groups).size;

/** The levels that can be told apart: one that has a single member in each group of the level around it is held by that one. */
function levelsOf(singles: readonly Single[]): Level[] {
	const levels: Level[] = [];
	for (const name of levelNames) {
		const groups = singles.map(keyOf[name]);
		// A level that is not recorded everywhere cannot be fitted.
		if (groups.includes("")) continue;
		const around = levels.at(-1);
		const nested = name === "flask" || name === "titration";
		if (
			nested &&
			around !== undefined &&
			(around.name === "soak" || around.name === "flask") &&
			count(groups) === count(around.groups)
		)
			levels[levels.length - 1] = {
				...around,
				holds: [...around.holds, name],
			};
		else levels.push({ name, groups, holds: [] });
	}
	return levels;
}

/**
 * Where the scatter of a trial's uptakes comes from, as it acts on the uptakes that are compared; treatments are fixed. Nothing on isotherms, where doses differ flask by flask and the scatter is that about the curves.
 */
export function scatterOfTrial(c: Comparison): Scatter | null {
	const { at, trial, compared } = c;
	if (at.is !== "carried") return null;
	const flasks = compared.filter((o) => o.side === "value");
	const singles = flasks.flatMap((o) =>
		singlesOf(o, at, trial.settings.endPoint),
	);
	const levels = levelsOf(singles);
	const found = varianceComponents(
		singles.map((s) => s.value),
		singles.map((s) => s.of.treatment),
		levels,
		c.confidence,
	);
	const titrated = singles.filter((s) => s.reading > 0);
	return {
		flasks,
		reading:
			titrated.length === 0
				? 0
				: Math.sqrt(
						titrated.reduce((sum, s) => sum + s.reading ** 2, 0) /
							titrated.length,
					),
		components: levelNames.map((name): Component => {
			const k = levels.findIndex((l) => l.name === name);
			if (k < 0)
				return {
					name,
					is: "not known",
					why: levels.some((l) => l.holds.includes(name))
						? "nothing repeated"
						: "not recorded",
				};
			const own = found[k];
			return own.is === "not known"
				? { name, is: own.is, why: own.why }
				: { ...own, name, holds: levels[k].holds };
		}),
	};
}

/** How a treatment is repeated: its soaks, the flasks of each, the titrations of each flask. */
export function repetitionOf(
	flasks: readonly Observation[],
	treatment: string,
): readonly (readonly number[])[] {
	const own = flasks.filter((o) => o.treatment === treatment);
	return [...grouped(own, (o) => o.flask.flask.soak).values()].map((soak) =>
		soak.map((o) => Math.max(1, o.flask.flask.titrations.length)),
	);
}
