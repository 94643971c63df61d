import * as properties from "../../kernel-lib/properties/index";
import { exact, input, type Quantity } from "../../kernel-lib/quantity/index";

const grams = (value: number): Quantity<"mass"> =>
	input("mass", value, "g", exact, {});

/** Invented: openings in mm, from coarse to fine, then the pan. */
function sieved(
	sample: string,
	name: string,
	openings: readonly number[],
	masses: readonly number[],
): properties.SievingOfSample {
	return {
		sample,
		name,
		sizes: properties.particleSizes({
			sieves: openings.map((opening, i) => ({
				opening: properties.sieveOpening(opening),
				retained: grams(masses[i]),
			})),
			pan: grams(masses[openings.length]),
		}),
	};
}

const openings = [2.36, 1.7, 1.18, 0.85, 0.6, 0.425];

export const sievings = [
	sieved("shell char", "S1", openings, [0, 4.2, 28.6, 37.9, 22.3, 5.8, 1.2]),
	sieved("shell char", "S2", openings, [0, 5.1, 29.4, 36.2, 21.9, 6.1, 1.3]),
	sieved("steamed", "S3", openings, [0, 1.6, 17.2, 35.1, 31, 11.7, 3.4]),
];

export const fineSieving = [
	sieved("dusty char", "S4", openings.slice(0, 4), [12, 14, 17, 28, 29]),
];
