import type { Layer } from "./description";

/** Values that lie on an axis, those that must be positive on a log axis (`placed`) apart from ends that may be cut off at its foot. */
export function axisValues(
	layer: Layer,
	axis: "x" | "y",
): { readonly placed: number[]; readonly ends: number[] } {
	switch (layer.is) {
		case "points": {
			const ends: number[] = [];
			for (const p of layer.points) {
				const interval = axis === "x" ? p.xInterval : p.yInterval;
				if (interval) ends.push(interval.low, interval.high);
			}
			return { placed: layer.points.map((p) => p[axis]), ends };
		}
		case "arrows":
			return { placed: layer.arrows.map((a) => a[axis]), ends: [] };
		case "bars":
			return layer.along === axis
				? { placed: [], ends: layer.bars.flatMap((b) => [b.from, b.to]) }
				: { placed: layer.bars.map((b) => b.at), ends: [] };
		case "line":
		case "region":
			return { placed: layer.points.map((p) => p[axis]), ends: [] };
		case "band":
			return axis === "x"
				? { placed: layer.points.map((p) => p.x), ends: [] }
				: { placed: [], ends: layer.points.flatMap((p) => [p.low, p.high]) };
		case "reference line":
			return layer.axis === axis
				? { placed: [layer.at], ends: [] }
				: {
						placed: [],
						ends: layer.over ? [layer.over.low, layer.over.high] : [],
					};
		case "zone":
			return layer.axis === axis
				? { placed: [], ends: [layer.from, layer.to] }
				: { placed: [], ends: [] };
		case "labels":
			return { placed: layer.labels.map((l) => l[axis]), ends: [] };
	}
}
