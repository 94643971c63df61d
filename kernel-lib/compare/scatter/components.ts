import { grouped } from "../../quantity";
import { type VarianceComponent, varianceComponents } from "../../stats";
import type { Observation } from "../observations";
import type { Comparison } from "../verdict";
import { brought, followedByCurves, nearEnough } from "./brought";
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

/** Parameters of curves that are taken off at most: the work grows with their square, and these take a second. Our decision. */
export const mostFollowed = 300;

/**
 * Where the scatter of a trial's uptakes comes from, as it acts on the uptakes that are compared; treatments are fixed, and so is what isotherms followed of their flasks. Null where no flask can be brought to the residue of the
 * comparison, or where too many curves were fitted.
 */
export function scatterOfTrial(c: Comparison): Scatter | null {
	const atResidue = nearEnough(brought(c));
	if (atResidue.length === 0) return null;
	const parts = atResidue.map((b) => singlesOf(b, c.trial.settings.endPoint));
	const singles = parts.flat();
	const levels = levelsOf(singles);
	const followed = followedByCurves(
		atResidue.flatMap((b, i) => parts[i].map(() => b)),
	);
	if (followed.length > mostFollowed) return null;
	const found = varianceComponents(
		singles.map((s) => s.value),
		singles.map((s) => s.of.treatment),
		levels,
		c.confidence,
		followed,
	);
	const titrated = singles.filter((s) => s.reading > 0);
	return {
		flasks: atResidue.map((b) => b.of),
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
