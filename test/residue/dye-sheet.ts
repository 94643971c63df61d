import type { TypedRow, TypedRows } from "../../kernel-lib/bench";

/** A line of slope 0.2 per mg/L and zero 0.004 that every standard stands on but for ± 0.001. */
export const standards: readonly TypedRow[] = [0, 1, 2, 4, 6, 8].map(
	(c, i) => ({
		standard: `E${i}`,
		"concentration (mg/L)": c,
		"absorbance 1": 0.004 + 0.2 * c + (i % 2 === 0 ? 0.001 : -0.001),
	}),
);

/** 10 mg of dye in 100 mL on 0.2 g of char. */
export const dyeFlask = (
	flask: string,
	absorbance: number | "",
	more: TypedRow = {},
): TypedRow => ({
	flask,
	treatment: "control",
	"char mass (g)": 0.2,
	"dose (mL)": 50,
	"made up to (mL)": 100,
	"char in when made up": "no",
	"absorbance 1": absorbance,
	...more,
});

/** A blank of water and reagents that an instrument read. */
export const readBlank = (
	flask: string,
	absorbance: number,
	more: TypedRow = {},
): TypedRow => ({
	flask,
	contents: "reagent blank",
	"absorbance 1": absorbance,
	...more,
});

/** Flasks dosed with 200 mg/L of rhodamine B, known to 1 %, and read on the line of `standards`. */
export const dyeSheet = (
	flasks: readonly TypedRow[],
	more: Partial<TypedRows> = {},
): TypedRows => ({
	flasks,
	solutions: [
		{
			solution: "red",
			substance: "rhodamine B",
			"concentration (mg/L)": 200,
			"uncertainty (%)": 1,
		},
	],
	calibration: standards,
	...more,
});
