import { type Lines, meet } from "./balance-line";
import type { Isotherm } from "./catalogue/index";
import { deviationsAt } from "./deviations";
import { movedPoint } from "./moved-points";
import type { IsothermPoint, IsothermPoints, SharedEffect } from "./points";
import type { ResidueFitOptions } from "./raw-fit";
import { effectsOn } from "./shared-errors";

/** The points of one fit in the form that the engine takes. */
export interface Setting {
	readonly isotherm: Isotherm;
	readonly sets: readonly IsothermPoints[];
	readonly points: readonly IsothermPoint[];
	/** Set that each point belongs to. */
	readonly setOf: readonly number[];
	readonly lines: Lines;
	readonly read: readonly boolean[];
	readonly index: readonly (readonly number[])[];
	readonly effects: readonly SharedEffect[];
	readonly options: ResidueFitOptions;
}

export function settingOf(
	isotherm: Isotherm,
	sets: readonly IsothermPoints[],
	options: ResidueFitOptions,
): Setting {
	const points = sets.flatMap((s) => s.points);
	return {
		isotherm,
		sets,
		points,
		setOf: sets.flatMap((s, k) => s.points.map(() => k)),
		lines: linesOf(points),
		read: points.map((p) => p.is === "reading"),
		index: indexOf(isotherm, sets, options.shared),
		effects: effectsOn(points, sets),
		options,
	};
}

export function linesOf(points: readonly IsothermPoint[]): Lines {
	const column = (f: (p: IsothermPoint) => number): Float64Array =>
		Float64Array.from(points, f);
	return {
		intercept: column((p) =>
			p.balance.is === "known" ? p.balance.intercept : 0,
		),
		slope: column((p) => (p.balance.is === "known" ? p.balance.slope : 1)),
		near: column((p) => p.concentration),
	};
}

/** The engine's order of combined parameters: parameter by parameter, one for each set unless it is shared. */
function indexOf(
	isotherm: Isotherm,
	sets: readonly IsothermPoints[],
	shared: readonly string[],
): number[][] {
	const index: number[][] = sets.map(() => []);
	let next = 0;
	for (const { name } of isotherm.model.parameters) {
		const common = shared.includes(name);
		sets.forEach((_, k) => {
			index[k].push(common ? next : next + k);
		});
		next += common ? 1 : sets.length;
	}
	return index;
}

/** Each set's own parameters out of the combined ones. */
export function thetas(
	{ index }: Setting,
	combined: Float64Array,
): Float64Array[] {
	return index.map((places) => Float64Array.from(places, (c) => combined[c]));
}

/** Cuts a list over all points into the sets. */
export function cut<T extends Float64Array | readonly unknown[]>(
	{ sets }: Setting,
	all: T,
): T[] {
	let first = 0;
	return sets.map((s) => {
		const part = all.slice(first, first + s.points.length) as T;
		first += s.points.length;
		return part;
	});
}

function joined(parts: readonly Float64Array[]): Float64Array {
	return Float64Array.from(parts.flatMap((p) => Array.from(p)));
}

export function residuesAt(
	setting: Setting,
	combined: Float64Array,
): Float64Array {
	const { isotherm, lines, sets } = setting;
	const own = thetas(setting, combined);
	const column = (all: ArrayLike<number>): Float64Array[] =>
		cut(setting, Float64Array.from(all));
	const intercept = column(lines.intercept);
	const slope = column(lines.slope);
	const near = column(lines.near);
	return joined(
		sets.map((s, k) => {
			const out = new Float64Array(s.points.length);
			meet(
				isotherm,
				own[k],
				{ intercept: intercept[k], slope: slope[k], near: near[k] },
				out,
			);
			return out;
		}),
	);
}

export function deviationsOfSets(
	setting: Setting,
	own: readonly Float64Array[],
	at: ArrayLike<number>,
): Float64Array {
	const parts = cut(setting, Float64Array.from(at));
	return joined(
		setting.sets.map((s, k) =>
			deviationsAt(setting.isotherm, own[k], s.points, parts[k]),
		),
	);
}

/** The same points after shared errors have moved them. */
export function moved(setting: Setting, amounts: readonly number[]): Setting {
	let first = 0;
	const sets = setting.sets.map((set) => {
		const begin = first;
		first += set.points.length;
		return {
			...set,
			points: set.points.map((p, i) =>
				movedPoint(p, setting.effects, amounts, begin + i),
			),
		};
	});
	return { ...setting, sets, points: sets.flatMap((s) => s.points) };
}
