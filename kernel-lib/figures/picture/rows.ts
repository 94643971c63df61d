import type { Axis } from "../description";
import { leading, spacing, typeSize } from "../look";
import { textWidth, wordsFit, wrapped } from "../text";

/** How the names of a category y axis are set: beside the rows, or above them where they would take too much of the width. */
export interface Rows {
	readonly above: boolean;
	readonly names: readonly (readonly string[])[];
	readonly ends: readonly (readonly string[])[];
	readonly left: number;
	readonly right: number;
	readonly height: number;
	/** Height of the names above a row's marks; 0 where they stand beside. */
	readonly head: number;
}

export function rowsOf(axis: Axis, width: number): Rows {
	const names = axis.scale.is === "categories" ? axis.scale.names : [];
	const ends = axis.scale.is === "categories" ? (axis.scale.ends ?? []) : [];
	const size = typeSize.tick;
	const inner = width - 2 * spacing.edge;
	const widest = (lines: readonly (readonly string[])[], bold: boolean) =>
		Math.max(0, ...lines.flat().map((l) => textWidth(l, size, bold)));
	const marks = Math.min(38, Math.max(20, 420 / Math.max(1, names.length)));
	const most = Math.min(0.34 * inner, 230);
	const endMost = Math.min(0.24 * inner, 170);
	const beside = names.map((n) => wrapped(n, most, size, false, 4));
	const endsBeside = ends.map((e) => wrapped(e, endMost, size, true, 3));
	const fits =
		names.every((n, i) => wordsFit(n, most, size) && beside[i].length <= 3) &&
		ends.every((e) => wordsFit(e, endMost / 1.06, size)) &&
		(width >= 520 || ends.length === 0);
	if (fits) {
		const lines = Math.max(
			1,
			...[...beside, ...endsBeside].map((l) => l.length),
		);
		return {
			above: false,
			names: beside,
			ends: endsBeside,
			left: widest(beside, false) + spacing.gap,
			right: ends.length === 0 ? 0 : widest(endsBeside, true) + spacing.gap,
			height: Math.max(marks, lines * size * leading + 6),
			head: 0,
		};
	}
	const nameMost = ends.length === 0 ? inner : 0.56 * inner;
	const above = names.map((n) => wrapped(n, nameMost, size, false, 3));
	const endsAbove = ends.map((e) => wrapped(e, 0.4 * inner, size, true, 3));
	const lines = Math.max(1, ...[...above, ...endsAbove].map((l) => l.length));
	const head = lines * size * leading + 4;
	return {
		above: true,
		names: above,
		ends: endsAbove,
		left: 0,
		right: 0,
		height: head + Math.max(20, Math.min(26, marks)),
		head,
	};
}
