// @ts-check
/**
 * Seeded random numbers for made-up data. The generator is Mulberry32 (public domain, 32 bits of state, from memory); normal numbers by the Box-Muller formula.
 * A seed is a text, so that design "A", run 7 has a stream of its own.
 *
 * @typedef {{ uniform(): number, normal(spread: number): number }} Generator
 */

/** @param {string} text @returns {number} 32-bit FNV-1a hash */
function hash(text) {
	let h = 0x811c9dc5;
	for (const character of text)
		h = Math.imul(h ^ (character.codePointAt(0) ?? 0), 0x01000193);
	return h >>> 0;
}

/** @param {string} seed @returns {Generator} */
export function generator(seed) {
	let state = hash(seed);
	const uniform = () => {
		state = (state + 0x6d2b79f5) | 0;
		let t = Math.imul(state ^ (state >>> 15), 1 | state);
		t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
		return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
	};
	const normal = (/** @type {number} */ spread) => {
		const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
		return spread * radius * Math.cos(2 * Math.PI * uniform());
	};
	return { uniform, normal };
}
