import { input, type Quantity, rectangular, stated } from "../quantity";

/**
 * How far the mean opening of a test sieve may lie from its nominal opening w, in µm: Y = w^0.98/27 + 1.6 (ISO 3310-1, woven wire; from memory).
 */
export function openingTolerance(opening_um: number): number {
	return opening_um ** 0.98 / 27 + 1.6;
}

/**
 * The opening of a test sieve by its nominal size, with the tolerance of its mean opening, every value in it equally likely. Sieves of one nominal size are taken for one and the same
 * sieve: chars that were sieved on it share its error.
 *
 * @param opening in mm, above 0
 */
export function sieveOpening(opening: number): Quantity<"length"> {
	if (!(opening > 0))
		throw new Error(`The opening of a sieve is above 0 mm, found ${opening}.`);
	return input(
		"length",
		opening,
		"mm",
		rectangular(openingTolerance(opening * 1000) / 1000),
		{
			symbol: `d_{${opening}}`,
			meaning: `opening of the ${opening} mm sieve`,
			source: stated(
				"nominal; tolerance of the mean opening by ISO 3310-1 (from memory)",
			),
		},
	);
}
