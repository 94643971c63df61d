/**
 * A smooth function tabulated piece by piece where it is asked for: on each panel [j width, (j + 1) width] that is
 * touched, the Chebyshev interpolant through so many points.
 */
export function onPanels(
	f: (x: number) => number,
	width: number,
	points: number,
): (x: number) => number {
	const panels = new Map<number, Float64Array>();
	return (x) => {
		const number = Math.floor(x / width);
		let coefficients = panels.get(number);
		if (coefficients === undefined) {
			coefficients = panelCoefficients(f, number * width, width, points);
			panels.set(number, coefficients);
		}
		return chebyshevSum(coefficients, 2 * (x / width - number) - 1);
	};
}

/** cos(order angle[k]) of each order; angle[k] are those of the points. */
const cosinesOf = new Map<number, readonly Float64Array[]>();

function cosines(points: number): readonly Float64Array[] {
	const known = cosinesOf.get(points);
	if (known !== undefined) return known;
	const made = Array.from({ length: points }, (_, order) =>
		Float64Array.from({ length: points }, (_, k) =>
			Math.cos(order * ((Math.PI * (k + 0.5)) / points)),
		),
	);
	cosinesOf.set(points, made);
	return made;
}

function panelCoefficients(
	f: (x: number) => number,
	from: number,
	width: number,
	points: number,
): Float64Array {
	const along = cosines(points);
	const value = along[1].map((cosine) => f(from + (width * (1 + cosine)) / 2));
	return value.map((_, order) => {
		let sum = 0;
		for (let k = 0; k < points; k++) sum += value[k] * along[order][k];
		return (order === 0 ? 1 : 2) * (sum / points);
	});
}

/** Sum of c[k] T_k(x) by Clenshaw's recurrence, for x from -1 to 1. */
export function chebyshevSum(c: Float64Array, x: number): number {
	let current = 0;
	let previous = 0;
	for (let order = c.length - 1; order > 0; order--) {
		const next = 2 * x * current - previous + c[order];
		previous = current;
		current = next;
	}
	return x * current - previous + c[0];
}
