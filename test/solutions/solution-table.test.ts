import { expect, test } from "vitest";
import { type TypedRow, trialFromRows } from "../../kernel-lib/bench";
import { concentrations } from "../../kernel-lib/solutions";

const flask = (name: string, reading: TypedRow): TypedRow => ({
	flask: name,
	treatment: "control",
	"char mass (g)": 1,
	"dose (mL)": 40,
	"made up to (mL)": 100,
	"char in when made up": "no",
	...reading,
});
const titrated = flask("t", { "aliquot (mL)": 25, "titre (mL)": 5 });
const read = flask("r", { "absorbance 1": 0.5, dilution: 10 });

const columns = (...flasks: readonly TypedRow[]): readonly string[] =>
	concentrations(
		trialFromRows({
			flasks,
			solutions: [
				{ solution: "iodine", substance: "iodine", "concentration (N)": 0.1 },
				{
					solution: "thiosulfate",
					substance: "sodium thiosulfate",
					"concentration (N)": 0.1,
				},
			],
		}),
	).table.columns;

test("moles where any flask was titrated, mass per volume where all were read", () => {
	expect(columns(titrated)).toContain("concentration (mol/L)");
	expect(columns(titrated, read)).toContain("concentration (mol/L)");
	expect(columns(read)).toContain("strength (mg/L)");
});
