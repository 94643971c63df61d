import { expect, test } from "vitest";
import { countedFormula } from "../../kernel-lib/substances";

const formula = (written: string): string => {
	const found = countedFormula(written);
	return found.is === "known" ? found.formula : found.because;
};

test.each([
	["CuSO4·5H2O", "CuSO4·5H2O"],
	["copper sulfate", "CuSO4"],
	["iodine", "I2"],
	["Methylene blue trihydrate", "C16H18ClN3S"],
	["LaCl3·7H2O", "LaCl3·7H2O"],
])("%s counts %s", (written, counted) => {
	expect(formula(written)).toBe(counted);
});

test.each(["", "beetroot red", "wood vinegar", "sodium thiosulfate"])(
	'"%s" counts no one formula',
	(written) => {
		expect(formula(written)).toContain(
			"neither a substance whose formula is on the list nor a formula",
		);
	},
);
