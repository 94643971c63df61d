// @ts-check
/**
 * Iodine, char and thiosulfate as they behave in made-up data: what truly happens in a jar and what a person then reads from a burette.
 * Nothing here is taken from the library that analyses the data; the molar mass, the mass balance and the random numbers are its own.
 *
 * Units throughout: mL, g, mmol of I2, mmol/mL (= mol/L), mg/L for residual concentrations, mg of I2 per g of dry char for uptakes.
 *
 * @typedef {import("./generator.mjs").Generator} Generator
 * @typedef {{ capacity: number, exponent: number }} PowerLaw uptake (mg/g) = capacity * residue (mg/L) ^ exponent
 * @typedef {PowerLaw | { uptakeAt: (residue: number) => number }} Isotherm a power law, or any curve that grows with the residue (mg/L)
 * @typedef {{ dissolved: number, onChar: number, consumed: number, lost: number, liquid: number }} Jar
 * @typedef {{ start: number, end: number, refilledAt?: number, refilledTo?: number }} Reading
 */

/** mg per mmol of I2; 2 x 126.90447 (IUPAC abridged atomic weight, from memory). */
export const iodineMolarMass = 253.80894;
/** mg per mmol of KIO3 (from memory). */
export const iodateMolarMass = 214.001;

/** @param {number} iodine mmol @param {number} liquid mL @returns {number} mg/L */
export const milligramsPerLitre = (iodine, liquid) =>
	(iodine * iodineMolarMass * 1000) / liquid;

/**
 * The isotherm that passes through a given uptake at a given residual concentration.
 * @param {number} uptake mg/g @param {number} residue mg/L @param {number} exponent
 * @returns {PowerLaw}
 */
export const isothermThrough = (uptake, residue, exponent) => ({
	capacity: uptake / residue ** exponent,
	exponent,
});

/** @returns {Jar} */
export const emptyJar = () => ({
	dissolved: 0,
	onChar: 0,
	consumed: 0,
	lost: 0,
	liquid: 0,
});

/**
 * Lets a jar stand until char and liquid are in equilibrium. First the residues of the soak consume what they can; then iodine divides itself between liquid and char; a share of the iodine in solution
 * escapes meanwhile. Uptake is quick at first, so that the mean iodine in solution lies nearer to what is left than to what was there: left + early * (at first - left).
 * The mass balance dissolved + on char + lost = what there was is solved for the residue by bisection.
 *
 * @param {Jar} jar
 * @param {{ isotherm: Isotherm, char: number, demandLeft: number, lossShare: number, early: number }} nature char: dry g (0 for none), demandLeft: mmol
 * @returns {Jar}
 */
export function stand(jar, nature) {
	const { isotherm, char, lossShare, early } = nature;
	const consumed = Math.min(nature.demandLeft, jar.dissolved);
	const first = jar.dissolved - consumed;
	const all = first + jar.onChar;
	const uptakeAt = (/** @type {number} */ residue) =>
		"uptakeAt" in isotherm
			? isotherm.uptakeAt(residue)
			: isotherm.capacity * residue ** isotherm.exponent;
	const onCharAt = (/** @type {number} */ left) =>
		(char * uptakeAt(milligramsPerLitre(left, jar.liquid))) / iodineMolarMass;
	const lostAt = (/** @type {number} */ left) =>
		lossShare * (left + early * Math.max(0, first - left));
	let low = 0;
	let high = all;
	for (let i = 0; i < 80; i++) {
		const left = (low + high) / 2;
		if (left + onCharAt(left) + lostAt(left) < all) low = left;
		else high = left;
	}
	const left = (low + high) / 2;
	const lost = lostAt(left);
	return {
		dissolved: left,
		onChar: all - left - lost,
		consumed: jar.consumed + consumed,
		lost: jar.lost + lost,
		liquid: jar.liquid,
	};
}

/**
 * Takes liquid, with the iodine in it, away (an aliquot, or a leak).
 * @param {Jar} jar @param {number} volume mL @returns {Jar}
 */
export const without = (jar, volume) => ({
	...jar,
	dissolved: jar.dissolved * (1 - volume / jar.liquid),
	liquid: jar.liquid - volume,
});

/**
 * A burette of 50 mL in the hands of one person: remembers where the meniscus stands, is refilled when it is low, and is read to half a division.
 *
 * @param {Generator} random
 * @param {{ scale: number, readingSpread: number, dropSize: number, step: number }} habits
 * scale: true mL per mL indicated; readingSpread: mL; dropSize: mL, the end point is overshot by anything from nothing to one drop; step: mL, readings are written in steps of this size
 */
export function burette(random, { scale, readingSpread, dropSize, step }) {
	const written = (/** @type {number} */ position) =>
		Math.max(
			0,
			Math.round((position + random.normal(readingSpread)) / step) * step,
		);
	const filled = () => {
		const position = 0.4 * random.uniform();
		return { position, reading: written(position) };
	};
	let meniscus = filled();
	/**
	 * @param {number} volume mL of titrant that the iodine and the reagents need
	 * @returns {Reading}
	 */
	const titrate = (volume) => {
		if (meniscus.position > 33) meniscus = filled();
		const start = meniscus.reading;
		const indicated = (volume + dropSize * random.uniform()) / scale;
		let end = meniscus.position + indicated;
		/** @type {Partial<Reading>} */
		const refill = {};
		if (end > 49.5) {
			const at = 48 + random.uniform();
			refill.refilledAt = written(at);
			const again = filled();
			refill.refilledTo = again.reading;
			end = again.position + (end - at);
		}
		// Nobody writes down a burette that ran backwards: a titre too small to be seen is none.
		const least = refill.refilledTo ?? start;
		meniscus = { position: end, reading: Math.max(least, written(end)) };
		return { start, end: meniscus.reading, ...refill };
	};
	/** An aliquot in which starch shows no blue: nothing is let in. @returns {Reading} */
	const nothing = () => ({ start: meniscus.reading, end: meniscus.reading });
	/** Filled anew, so that no two titres lean on one reading. */
	const topUp = () => {
		meniscus = filled();
	};
	return { titrate, nothing, topUp };
}

/** @param {Reading} r @returns {number} titre as a person works it out, mL */
export const titreOf = (r) =>
	r.refilledAt === undefined || r.refilledTo === undefined
		? r.end - r.start
		: r.refilledAt - r.start + (r.end - r.refilledTo);
