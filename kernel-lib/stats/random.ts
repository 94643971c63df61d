/**
 * Seeded random numbers, fast enough for Monte Carlo on columns of thousands.
 *
 * Generator: sfc32 of Chris Doty-Humphrey's PractRand (128 bits of state, 32 bits a draw).
 * Normals: ziggurat with 256 layers, Marsaglia and Tsang (2000), J. Stat. Softw. 5(8), in the form of
 * Doornik (2005), "An improved ziggurat method to generate normal random samples": the layer comes from
 * bits that the value does not use.
 */

import { refuse } from "./checks";

/** A stream of random numbers. The same seed gives the same stream on every machine. */
export interface Random {
	/** One number from the rectangular distribution on [0, 1), 53 bits fine. */
	uniform(): number;
	/** One standard normal number. */
	normal(): number;
	/** One integer from 0 to n - 1, each equally likely; n is a whole number from 1 to 2^32. */
	integer(n: number): number;
	/** Fills the column with rectangular numbers on [0, 1), 53 bits fine. */
	fillUniform(column: Float64Array): void;
	/** Fills the column with standard normal numbers, 2^-31 of a layer's width fine. */
	fillNormal(column: Float64Array): void;
	/** Fills the column with rectangular numbers on (-1, 1), 2^-31 fine; the standard deviation is 1/sqrt(3). */
	fillRectangular(column: Float64Array): void;
	/** Fills the column with symmetric triangular numbers on (-1, 1); the standard deviation is 1/sqrt(6). */
	fillTriangular(column: Float64Array): void;
	/** Fills the column with Student t numbers of any positive degrees of freedom (Infinity: normal). Bailey (1994), Math. Comp. 62, 779. */
	fillStudentT(column: Float64Array, degreesOfFreedom: number): void;
	/** An independent stream named by a label. It takes nothing from this stream: the same label gives the same substream, whenever it is asked for. */
	fork(label: string | number): Random;
}

const LAYERS = 256;
/** Where the tail begins, and the area of every layer: Marsaglia and Tsang (2000), for 256 layers. */
const TAIL_START = 3.654152885361009;
const LAYER_AREA = 0.00492867323399;

/** Right edge of each layer; the base layer's edge is that of a rectangle with the area of box and tail together. */
const edge: Float64Array = layerEdges();
/** Below this 31-bit magnitude a point lies inside the layer above and is accepted at once. */
const acceptBelow: Int32Array = Int32Array.from(
	{ length: LAYERS },
	(_, layer) => Math.floor((edge[layer + 1] / edge[layer]) * 2 ** 31),
);
const scale: Float64Array = Float64Array.from(
	{ length: LAYERS },
	(_, layer) => edge[layer] / 2 ** 31,
);

function layerEdges(): Float64Array {
	const density = (x: number): number => Math.exp(-0.5 * x * x);
	const edges = new Float64Array(LAYERS + 1);
	edges[0] = LAYER_AREA / density(TAIL_START);
	edges[1] = TAIL_START;
	for (let layer = 2; layer < LAYERS; layer++) {
		const previous = edges[layer - 1];
		edges[layer] = Math.sqrt(
			-2 * Math.log(LAYER_AREA / previous + density(previous)),
		);
	}
	return edges;
}

/**
 * Makes a stream of random numbers from a seed, a number or a text (1 and "1" are the same seed). The same seed gives the same numbers on every machine.
 */
export function createRandom(seed: number | string): Random {
	const name = String(seed);
	const state = seedState(name);

	function bits(): number {
		const sum = (((state[0] + state[1]) | 0) + state[3]) | 0;
		state[3] = (state[3] + 1) | 0;
		state[0] = state[1] ^ (state[1] >>> 9);
		state[1] = (state[2] + (state[2] << 3)) | 0;
		state[2] = ((state[2] << 21) | (state[2] >>> 11)) + sum;
		return sum;
	}

	function uniform(): number {
		const high = bits() >>> 5;
		const low = bits() >>> 6;
		return (high * 67108864 + low) / 9007199254740992;
	}

	/** Between layers or in the tail: about one normal in eighty comes here. */
	function outsideLayer(firstSigned: number, firstLayer: number): number {
		let signed = firstSigned;
		let layer = firstLayer;
		for (;;) {
			if (layer === 0) return beyondTailStart(signed < 0);
			const x = signed * scale[layer];
			const outer = Math.exp(-0.5 * (edge[layer] * edge[layer] - x * x));
			const inner = Math.exp(
				-0.5 * (edge[layer + 1] * edge[layer + 1] - x * x),
			);
			if (outer + uniform() * (inner - outer) < 1) return x;
			layer = bits() & (LAYERS - 1);
			signed = bits();
			if (magnitude(signed) < acceptBelow[layer]) return signed * scale[layer];
		}
	}

	function beyondTailStart(negative: boolean): number {
		for (;;) {
			const x = -Math.log(1 - uniform()) / TAIL_START;
			const y = -Math.log(1 - uniform());
			if (2 * y > x * x) return negative ? -TAIL_START - x : TAIL_START + x;
		}
	}

	function normal(): number {
		const layer = bits() & (LAYERS - 1);
		const signed = bits();
		return magnitude(signed) < acceptBelow[layer]
			? signed * scale[layer]
			: outsideLayer(signed, layer);
	}

	// The state is kept in local variables here: that doubles the speed of the inner loop of every Monte Carlo.
	function fillNormal(column: Float64Array): void {
		let a = state[0];
		let b = state[1];
		let c = state[2];
		let counter = state[3];
		let layers = 0;
		for (let row = 0; row < column.length; row++) {
			if ((row & 3) === 0) {
				// one draw names the layers of four normals
				layers = (((a + b) | 0) + counter) | 0;
				counter = (counter + 1) | 0;
				a = b ^ (b >>> 9);
				b = (c + (c << 3)) | 0;
				c = (((c << 21) | (c >>> 11)) + layers) | 0;
			} else {
				layers >>>= 8;
			}
			const signed = (((a + b) | 0) + counter) | 0;
			counter = (counter + 1) | 0;
			a = b ^ (b >>> 9);
			b = (c + (c << 3)) | 0;
			c = (((c << 21) | (c >>> 11)) + signed) | 0;
			const layer = layers & (LAYERS - 1);
			if (magnitude(signed) < acceptBelow[layer]) {
				column[row] = signed * scale[layer];
			} else {
				state[0] = a;
				state[1] = b;
				state[2] = c;
				state[3] = counter;
				column[row] = outsideLayer(signed, layer);
				a = state[0];
				b = state[1];
				c = state[2];
				counter = state[3];
			}
		}
		state[0] = a;
		state[1] = b;
		state[2] = c;
		state[3] = counter;
	}

	function fillRectangular(column: Float64Array): void {
		for (let row = 0; row < column.length; row++)
			column[row] = (bits() + 0.5) / 2147483648;
	}

	function fillTriangular(column: Float64Array): void {
		for (let row = 0; row < column.length; row++)
			column[row] = (bits() + bits() + 1) / 4294967296;
	}

	function fillUniform(column: Float64Array): void {
		for (let row = 0; row < column.length; row++) column[row] = uniform();
	}

	function fillStudentT(column: Float64Array, degreesOfFreedom: number): void {
		if (!(degreesOfFreedom > 0)) {
			refuse(
				"degrees-of-freedom",
				`${degreesOfFreedom} degrees of freedom for random numbers of Student's t distribution`,
				"a number above 0 (or Infinity)",
				"A mean of n observations leaves n - 1.",
			);
		}
		if (degreesOfFreedom === Number.POSITIVE_INFINITY) {
			fillNormal(column);
			return;
		}
		for (let row = 0; row < column.length; row++) {
			let u = 0;
			let radius = 0;
			do {
				u = 2 * uniform() - 1;
				const v = 2 * uniform() - 1;
				radius = u * u + v * v;
			} while (radius >= 1 || radius === 0);
			column[row] =
				u *
				Math.sqrt(
					(degreesOfFreedom *
						Math.expm1((-2 / degreesOfFreedom) * Math.log(radius))) /
						radius,
				);
		}
	}

	function integer(n: number): number {
		if (!Number.isInteger(n) || n < 1 || n > 4294967296) {
			refuse(
				"random-integer",
				`${n} for the number of random integers to choose from`,
				"a whole number from 1 to 4294967296",
				"integer(6) gives 0 to 5.",
			);
		}
		// draws beyond the last whole multiple of n would favour the small integers
		const limit = 4294967296 - (4294967296 % n);
		for (;;) {
			const draw = bits() >>> 0;
			if (draw < limit) return draw % n;
		}
	}

	return {
		uniform,
		normal,
		integer,
		fillUniform,
		fillNormal,
		fillRectangular,
		fillTriangular,
		fillStudentT,
		fork: (label) => createRandom(`${name}\u001f${label}`),
	};
}

/** |signed| without leaving the 32-bit integers (one less for negative numbers, so that it always fits). */
function magnitude(signed: number): number {
	return signed ^ (signed >> 31);
}

/** Four state words from a text: its code units are stirred into a 32-bit hash, a splitmix of which makes the words. */
function seedState(name: string): Int32Array {
	let hash = 0x9e3779b9 ^ name.length;
	let second = 0x243f6a88;
	for (let index = 0; index < name.length; index++) {
		const unit = name.charCodeAt(index);
		hash = mix(hash ^ unit);
		second = mix((second + Math.imul(unit, 0x85ebca6b)) ^ (hash >>> 3));
	}
	const state = new Int32Array(4);
	for (let word = 0; word < 3; word++) {
		hash = (hash + 0x9e3779b9) | 0;
		state[word] = mix(hash ^ mix(second + word));
	}
	state[3] = 1;
	for (let round = 0; round < 16; round++) {
		const sum = (((state[0] + state[1]) | 0) + state[3]) | 0;
		state[3] = (state[3] + 1) | 0;
		state[0] = state[1] ^ (state[1] >>> 9);
		state[1] = (state[2] + (state[2] << 3)) | 0;
		state[2] = ((state[2] << 21) | (state[2] >>> 11)) + sum;
	}
	return state;
}

/** The finishing step of splitmix, 32-bit form (constants of MurmurHash3's fmix32). */
function mix(value: number): number {
	let word = value | 0;
	word = Math.imul(word ^ (word >>> 16), 0x85ebca6b);
	word = Math.imul(word ^ (word >>> 13), 0xc2b2ae35);
	return word ^ (word >>> 16);
}
