// @ts-check
/**
 * What somebody in a hurry would make of the demo sheet: dose minus what is left, with the strengths on the labels, no blank, no losses, no moisture, no liquid displaced, no iodine consumed by the soak's residue,
 * every jar counted as a replicate, jars that stayed colourless thrown out, and "different" wherever a difference exceeds twice its standard error. It is written down so that a test can hold the
 * verdict page against it.
 */

/** @typedef {import("../simulation/plan.mjs").Row} Row */

/** Labels on the bottles, mol/L; mg per mmol of I2. */
const labels = { iodine: 0.05, thiosulfate: 0.05, iodineMolarMass: 253.8 };

/** @param {Row} row as in hazelnut.csv; mL, g */
function uptake(row) {
	const number = (/** @type {string} */ column) => Number(row[column] || 0);
	const dosed = labels.iodine * (number("dose 1 (mL)") + number("dose 2 (mL)"));
	const titres = [1, 2].map(
		(i) =>
			number(`burette end ${i} (mL)`) -
			number(`burette start ${i} (mL)`) +
			number(`refilled at ${i} (mL)`) -
			number(`refilled to ${i} (mL)`),
	);
	const titre = (titres[0] + titres[1]) / 2;
	const left =
		((labels.thiosulfate * titre) / 2) *
		(number("made up to (mL)") / number("aliquot (mL)"));
	return {
		titre,
		uptake: ((dosed - left) * labels.iodineMolarMass) / number("char mass (g)"),
	};
}

/** @param {number[]} x */
const mean = (x) => x.reduce((a, b) => a + b, 0) / x.length;
/** @param {number[]} x */
const squaredError = (x) =>
	x.reduce((a, b) => a + (b - mean(x)) ** 2, 0) / (x.length - 1) / x.length;

/**
 * @param {Row[]} rows
 * @returns {{ treatment: string, control: string, difference: number, standardError: number, word: string }[]}
 */
export function naiveAnswer(rows) {
	const jars = rows
		.filter((row) => row.contents === "char")
		.map((row) => ({ ...uptake(row), treatment: String(row.treatment) }))
		.filter((jar) => jar.titre > 0.05);
	const of = (/** @type {string} */ treatment) =>
		jars.filter((jar) => jar.treatment === treatment).map((jar) => jar.uptake);
	const pairs = new Map(
		rows
			.filter((r) => r.control)
			.map((r) => [String(r.treatment), String(r.control)]),
	);
	return [...pairs].map(([treatment, control]) => {
		const difference = mean(of(treatment)) - mean(of(control));
		const standardError = Math.sqrt(
			squaredError(of(treatment)) + squaredError(of(control)),
		);
		const told = Math.abs(difference) > 2 * standardError;
		return {
			treatment,
			control,
			difference: Number(difference.toFixed(1)),
			standardError: Number(standardError.toFixed(1)),
			word: told ? (difference > 0 ? "higher" : "lower") : "no difference",
		};
	});
}
