/**
 * Householder QR on columns of a plain Float64Array, without allocation.
 *
 * Column c of a matrix with `rows` rows begins at `columns[c]`. Columns are named by their offsets so that a caller can
 * choose and order them (linear parameters first, fixed ones left out) without copying numbers.
 *
 * The descents reduce matrices of a few columns hundreds of thousands of times a second, in memory that they own; a QR of ml-matrix, with the
 * copies that it makes, takes several times as long. What is needed once for each fit comes from the room linear.
 *
 * Source: Golub and Van Loan, Matrix Computations, section 5.2.
 */

/**
 * Reduces columns `from` to `to - 1` to upper triangular form and applies each reflection to all columns up to `total - 1`.
 * R is left above and on the diagonal; the reflection vectors replace what lies below, their leading entries go to `heads`.
 */
export function reduceColumns(
	a: Float64Array,
	rows: number,
	columns: Int32Array,
	from: number,
	to: number,
	total: number,
	heads: Float64Array,
): void {
	for (let j = from; j < to; j++) {
		const cj = columns[j];
		const end = cj + rows;
		let squares = 0;
		for (let i = cj + j; i < end; i++) squares += a[i] * a[i];
		if (squares === 0) {
			heads[j] = 0;
			continue;
		}
		const top = a[cj + j];
		const diagonal = top > 0 ? -Math.sqrt(squares) : Math.sqrt(squares);
		const head = top - diagonal;
		heads[j] = head;
		a[cj + j] = diagonal;
		// v = (head, a[j+1..]); v'v = 2 * diagonal * (diagonal - top) = -2 * diagonal * head
		const factor = -1 / (diagonal * head);
		// Two columns at a time: the reflection vector is read once for both.
		let k = j + 1;
		for (; k + 1 < total; k += 2)
			reflectTwo(
				a,
				cj + j,
				end,
				columns[k] + j,
				columns[k + 1] + j,
				head,
				factor,
			);
		if (k < total) reflect(a, cj + j, end, columns[k] + j, head, factor);
	}
}

function reflectTwo(
	a: Float64Array,
	start: number,
	end: number,
	first: number,
	second: number,
	head: number,
	factor: number,
): void {
	let dotFirst = head * a[first];
	let dotSecond = head * a[second];
	for (
		let i = start + 1, f = first + 1, s = second + 1;
		i < end;
		i++, f++, s++
	) {
		const v = a[i];
		dotFirst += v * a[f];
		dotSecond += v * a[s];
	}
	dotFirst *= factor;
	dotSecond *= factor;
	a[first] -= dotFirst * head;
	a[second] -= dotSecond * head;
	for (
		let i = start + 1, f = first + 1, s = second + 1;
		i < end;
		i++, f++, s++
	) {
		const v = a[i];
		a[f] -= dotFirst * v;
		a[s] -= dotSecond * v;
	}
}

function reflect(
	a: Float64Array,
	start: number,
	end: number,
	target: number,
	head: number,
	factor: number,
): void {
	const shift = target - start;
	let dot = head * a[target];
	for (let i = start + 1; i < end; i++) dot += a[i] * a[i + shift];
	const scaled = dot * factor;
	a[target] -= scaled * head;
	for (let i = start + 1; i < end; i++) a[i + shift] -= scaled * a[i];
}
