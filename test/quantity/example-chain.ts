import {
	certificate,
	exact,
	input,
	massPerMass,
	meanOf,
	minus,
	named,
	normal,
	plus,
	type Quantity,
	rectangular,
	type Source,
	scaled,
	stated,
	times,
} from "../../kernel-lib/quantity/index";

export function cell(row: number, column: string): Source {
	return {
		is: "cell",
		file: "run.csv",
		hash: "0123456789abcdef",
		sheet: "flasks",
		row,
		column,
	};
}

const cells = (row: number): Record<string, number> => ({
	"titre start 1 (mL)": 0.15 + row / 100,
	"titre end 1 (mL)": 12.3 + row / 10,
	"titre start 2 (mL)": 12.3 + row / 10,
	"titre end 2 (mL)": 24.45 + row / 5,
	"dose (mL)": 25,
	"char mass (g)": 1.0123 + row / 1000,
});

const thiosulfate = input(
	"concentration",
	0.1002,
	"mol/L",
	certificate(0.0002),
	{
		symbol: "c_{thio}",
		meaning: "concentration of thiosulfate",
		source: stated("certificate of the invented bottle"),
	},
);
const iodine = input("concentration", 0.05, "mol/L", normal(0.0001, 5), {
	symbol: "c_{I2}",
	meaning: "concentration of iodine, as I2",
	source: stated("standardised, invented"),
});
const molar = input("molarMass", 253.809, "g/mol", exact, {
	symbol: "M_{I2}",
	meaning: "molar mass of I2",
	source: stated("from memory"),
});
const burette = input("volume", 0, "mL", rectangular(0.05), {
	symbol: "δ_{burette}",
	meaning: "calibration of the burette",
	source: stated("from memory: ISO 385, class A"),
});

/** Uptake of an invented flask from its raw readings; `change` alters one cell. */
export function uptakeOf(
	row: number,
	change: Readonly<Record<string, number>> = {},
): {
	uptake: Quantity<"uptake">;
	titre: Quantity<"volume">;
	dosed: Quantity<"amount">;
} {
	const values = { ...cells(row), ...change };
	const volume = (column: string, symbol: string): Quantity<"volume"> =>
		input("volume", values[column], "mL", rectangular(0.05), {
			symbol,
			meaning: column,
			source: cell(row, column),
			scope: "reading",
		});
	const titres = [1, 2].map((n) =>
		named(
			plus(
				minus(
					volume(`titre end ${n} (mL)`, "V_{end}"),
					volume(`titre start ${n} (mL)`, "V_{start}"),
				),
				burette,
			),
			"V_{titre}",
			"titre as read",
		),
	);
	const titre = named(meanOf(titres), "V_{t}", "mean titre");
	const left = named(
		scaled(times(thiosulfate, titre), 0.5),
		"n_{left}",
		"iodine (I2) left",
	);
	const dosed = named(
		times(iodine, volume("dose (mL)", "V_{dose}")),
		"n_{dosed}",
		"iodine (I2) dosed",
	);
	const char = input("mass", values["char mass (g)"], "g", normal(0.001), {
		symbol: "m",
		meaning: "mass of char",
		source: cell(row, "char mass (g)"),
		scope: "reading",
	});
	return {
		uptake: named(
			massPerMass(times(minus(dosed, left), molar), char),
			"q",
			"uptake",
		),
		titre,
		dosed,
	};
}
