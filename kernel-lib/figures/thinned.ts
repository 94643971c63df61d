/** Fewer marks for a figure of very many, so that it stays small and can be read. */
import type { Arrow, Layer, Point } from "./description";

/** Points and arrows that a figure draws all of. Our decision: some sixty flasks with what else is drawn of them. */
export const allMarks = 150;

/** A layer is never thinned to fewer marks than this, so that no treatment is lost in the crowd of another. Our decision. */
const fewestOfALayer = 20;

/** So many of a number of places, at even steps from the first; all where there are no more. */
export function evenly(count: number, wanted: number): number[] {
	return count <= wanted
		? Array.from({ length: count }, (_, i) => i)
		: Array.from({ length: wanted }, (_, i) =>
				Math.floor((i * count) / wanted),
			);
}

/** The places of the least and of the greatest value, the first of those that are alike. */
export function outermost(values: readonly number[]): number[] {
	let least = 0;
	let greatest = 0;
	values.forEach((value, i) => {
		if (value < values[least]) least = i;
		if (value > values[greatest]) greatest = i;
	});
	return [least, greatest];
}

function thin<Mark extends Point | Arrow>(
	marks: readonly Mark[],
	share: number,
): readonly Mark[] {
	const wanted = Math.max(fewestOfALayer, Math.round(share * marks.length));
	if (marks.length <= wanted) return marks;
	const kept = new Set([
		...outermost(marks.map((m) => m.x)),
		...outermost(marks.map((m) => m.y)),
		...evenly(marks.length, wanted),
	]);
	return marks.filter((_, i) => kept.has(i));
}

function marksOf(layer: Layer): number {
	if (layer.is === "points") return layer.points.length;
	return layer.is === "arrows" ? layer.arrows.length : 0;
}

const countOf = (layers: readonly Layer[]): number =>
	layers.reduce((sum, layer) => sum + marksOf(layer), 0);

/** The layers with as many points and arrows as can be seen, and a note where there were more. Curves, bars and lines stay. */
export function thinned(layers: readonly Layer[]): {
	readonly layers: readonly Layer[];
	readonly notes: readonly string[];
} {
	const all = countOf(layers);
	if (all <= allMarks) return { layers, notes: [] };
	const share = allMarks / all;
	const fewer = layers.map((layer): Layer => {
		if (layer.is === "points")
			return { ...layer, points: thin(layer.points, share) };
		return layer.is === "arrows"
			? { ...layer, arrows: thin(layer.arrows, share) }
			: layer;
	});
	const drawn = countOf(fewer);
	return {
		layers: fewer,
		notes:
			drawn === all
				? []
				: [
						`Drawn are ${drawn} of ${all} marks: of each kind the outermost, and others at even steps in the order of the sheet.`,
					],
	};
}
