import { refuse } from "./checks";
import { normalQuantile } from "./normal";
import { createRandom } from "./random";
import { SOBOL_DIRECTIONS } from "./sobol-directions";

/**
 * Scrambled Sobol points: a low-discrepancy sequence of up to 2^32 points, read column by column and from any point on.
 * Blocks whose length is a power of two, starting at a multiple of it, are the best balanced.
 */
export interface Sobol {
	readonly dimensions: number;
	/** Fills the column with coordinate `dimension` (from 0) of the points `first`, `first + 1`, ...: numbers inside (0, 1), uniform. */
	fillUniform(dimension: number, first: number, column: Float64Array): void;
	/** The same through the inverse normal distribution. */
	fillNormal(dimension: number, first: number, column: Float64Array): void;
}

const BITS = 32;
/** The most dimensions there are direction numbers for. */
export const SOBOL_MAX_DIMENSIONS: number = SOBOL_DIRECTIONS.length + 1;

/**
 * Sobol points with direction numbers of Joe and Kuo (2008), scrambled by a random lower triangular matrix and a
 * digital shift per dimension (Matousek 1998, J. Complexity 14, 527), which has the mean square error of Owen's full
 * scrambling. Every point is uniform, so means over the points are unbiased, and several seeds give an error estimate.
 */
export function createSobol(dimensions: number, seed: number | string): Sobol {
	if (
		!Number.isInteger(dimensions) ||
		dimensions < 1 ||
		dimensions > SOBOL_MAX_DIMENSIONS
	) {
		refuse(
			"number-of-dimensions",
			`${dimensions} dimensions for Sobol points`,
			`a whole number from 1 to ${SOBOL_MAX_DIMENSIONS}`,
			"For more dimensions take random numbers.",
		);
	}
	const random = createRandom(seed).fork("sobol");
	const word = (): number => random.integer(4294967296) | 0;
	const generators = Array.from({ length: dimensions }, (_, dimension) => ({
		directions: scrambled(directionNumbers(dimension), word),
		shift: word(),
	}));

	function fillUniform(
		dimension: number,
		first: number,
		column: Float64Array,
	): void {
		if (
			!Number.isInteger(dimension) ||
			dimension < 0 ||
			dimension >= dimensions
		) {
			refuse(
				"no-such-dimension",
				`dimension ${dimension} for Sobol points`,
				`a whole number from 0 to ${dimensions - 1}`,
				"Dimensions are counted from 0.",
			);
		}
		if (
			!Number.isInteger(first) ||
			first < 0 ||
			first + column.length > 2 ** BITS
		) {
			refuse(
				"no-such-points",
				`Sobol points ${first} to ${first + column.length - 1}`,
				"whole numbers from 0 to 4294967295",
				"Points are counted from 0.",
			);
		}
		const { directions, shift } = generators[dimension];
		let digits = shift;
		const gray = (first ^ (first >>> 1)) >>> 0;
		for (let bit = 0; bit < BITS; bit++)
			if ((gray >>> bit) & 1) digits ^= directions[bit];
		let index = first;
		for (let row = 0; row < column.length; row++) {
			column[row] = ((digits >>> 0) + 0.5) / 4294967296;
			// Gray code order: the next point differs by the direction of the lowest set bit of its index
			index += 1;
			digits ^= directions[31 - Math.clz32(index & -index)];
		}
	}

	function fillNormal(
		dimension: number,
		first: number,
		column: Float64Array,
	): void {
		fillUniform(dimension, first, column);
		for (let row = 0; row < column.length; row++)
			column[row] = normalQuantile(column[row]);
	}

	return { dimensions, fillUniform, fillNormal };
}

/** Direction numbers of one dimension as 32-bit words, first binary digit highest. */
function directionNumbers(dimension: number): Int32Array {
	const directions = new Int32Array(BITS);
	if (dimension === 0) {
		for (let bit = 0; bit < BITS; bit++) directions[bit] = 1 << (31 - bit);
		return directions;
	}
	const [polynomial, ...initial] = SOBOL_DIRECTIONS[dimension - 1];
	const degree = initial.length;
	for (let bit = 0; bit < BITS; bit++) {
		if (bit < degree) {
			directions[bit] = initial[bit] << (31 - bit);
			continue;
		}
		let value =
			directions[bit - degree] ^ (directions[bit - degree] >>> degree);
		for (let power = 1; power < degree; power++) {
			if ((polynomial >>> (degree - power)) & 1)
				value ^= directions[bit - power];
		}
		directions[bit] = value;
	}
	return directions;
}

/** Multiplies every direction number by the same random lower triangular binary matrix with ones on its diagonal. */
function scrambled(directions: Int32Array, word: () => number): Int32Array {
	// row d of the matrix reads the digits above d at random and digit d itself
	const matrix = Int32Array.from({ length: BITS }, (_, digit) => {
		const itself = 1 << (31 - digit);
		const above = digit === 0 ? 0 : -1 << (32 - digit);
		return (word() & above) | itself;
	});
	return directions.map((direction) => {
		let result = 0;
		for (let digit = 0; digit < BITS; digit++) {
			if (oddParity(direction & matrix[digit])) result |= 1 << (31 - digit);
		}
		return result;
	});
}

function oddParity(value: number): boolean {
	let folded = value ^ (value >>> 16);
	folded ^= folded >>> 8;
	folded ^= folded >>> 4;
	folded ^= folded >>> 2;
	folded ^= folded >>> 1;
	return (folded & 1) === 1;
}
