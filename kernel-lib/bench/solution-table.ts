import {
	certificate,
	type Evidence,
	exact,
	input,
	type Kind,
	normal,
	plus,
	type Quantity,
	quoted,
	rectangular,
	stated,
	toBase,
	type UnitOf,
} from "../quantity";
import {
	isPreparation,
	isTitrimetricStandard,
	type Role,
	roleOf,
	titrimetricName,
} from "../substances";
import { readingOf, sourceOf } from "./cell-source";
import type { SolutionKey } from "./columns";
import type { Instruments } from "./glassware/instruments";
import {
	extraOf,
	isEmpty,
	momentOf,
	type NumberCell,
	numberOf,
	numbersOf,
	type ParsedRow,
	type ParsedTable,
	placeOf,
	textOf,
} from "./parsed-table";
import type {
	Recorded,
	Solution,
	SolutionBasis,
	StatedConcentration,
	TitrationReading,
} from "./trial";

export type SolutionTable = ParsedTable<SolutionKey>;

/** What the flasks need to know of the solutions. */
export interface SolutionNames {
	readonly roles: ReadonlyMap<string, Role>;
	/** Names of one role, in the order of the table. */
	of(role: Role): readonly string[];
	/** Names that a flask read by an instrument may have been dosed with where it does not say: all but titrants and their standards. */
	readonly probes: readonly string[];
}

export function solutionNames(table: SolutionTable): SolutionNames {
	const roles = new Map<string, Role>();
	const probes: string[] = [];
	for (const row of table.rows) {
		const substance = titrimetricName(textOf(table, row, "substance"));
		if (
			roleOf(substance) === "iodine" ||
			(roleOf(substance) === "other" && !isTitrimetricStandard(substance))
		)
			probes.push(textOf(table, row, "solution"));
	}
	for (const row of table.rows)
		roles.set(
			textOf(table, row, "solution"),
			roleOf(titrimetricName(textOf(table, row, "substance"))),
		);
	const named = (role: Role): string[] =>
		[...roles].filter(([, r]) => r === role).map(([n]) => n);
	const byRole: Readonly<Record<Role, readonly string[]>> = {
		iodine: named("iodine"),
		thiosulfate: named("thiosulfate"),
		other: named("other"),
	};
	return { roles, of: (role) => byRole[role], probes };
}

/** Builds the solutions; only after the checks found nothing. */
export function buildSolutions(
	table: SolutionTable,
	instruments: Instruments,
	assumptions: Set<string>,
): Solution[] {
	return table.rows.map((row, i) => {
		const written = textOf(table, row, "substance");
		const standardisedOn = momentOf(table, row, "standardised on");
		const extra = extraOf(table, table.raw.rows[i].cells);
		const substance = titrimetricName(written);
		return {
			name: textOf(table, row, "solution"),
			substance,
			basis: basisOf(table, row, instruments, assumptions),
			standardisedOn:
				standardisedOn === null
					? { recorded: false }
					: { recorded: true, value: standardisedOn.date },
			notes: textOf(table, row, "notes"),
			extra: isPreparation(written)
				? { ...extra, "substance as written": written }
				: extra,
			marks: [],
			place: placeOf(table, row, "solution"),
		};
	});
}

type BasisOf<Is extends SolutionBasis["is"]> = Extract<
	SolutionBasis,
	{ is: Is }
>;

function basisOf(
	table: SolutionTable,
	row: ParsedRow,
	instruments: Instruments,
	assumptions: Set<string>,
): SolutionBasis {
	if (textOf(table, row, "standardised against") !== "")
		return standardisedBasis(table, row, instruments, assumptions);
	return isEmpty(table, row, "weighed")
		? {
				is: "stated",
				concentration: statedConcentration(table, row, assumptions),
			}
		: weighedBasis(table, row, instruments, assumptions);
}

function titrationOf(
	table: SolutionTable,
	row: ParsedRow,
	n: number,
	instruments: Instruments,
): TitrationReading {
	const name = textOf(table, row, "solution");
	const own = roleOf(titrimetricName(textOf(table, row, "substance")));
	const reading = readingOf(
		table,
		row,
		numberOf(table, row, "titre #", n) as NumberCell,
		`V_{\\text{titre ${n}}}`,
		`titre ${n} of the standardisation of ${quoted(name)}`,
	);
	return {
		is: "titre",
		number: n,
		marks: [],
		titre: instruments.titre("standard titre", reading),
		calibration: instruments.titreCalibration(
			"standard titre",
			toBase("volume", reading.value, reading.unit) * 1000,
			0,
		),
		titrant:
			own === "thiosulfate" ? name : textOf(table, row, "standardised against"),
		place: placeOf(table, row, "titre #", n),
	};
}

function standardisedBasis(
	table: SolutionTable,
	row: ParsedRow,
	instruments: Instruments,
	assumptions: Set<string>,
): BasisOf<"standardised"> {
	const name = textOf(table, row, "solution");
	return {
		is: "standardised",
		against: textOf(table, row, "standardised against"),
		aliquot: instruments.volume(
			"standard aliquot",
			readingOf(
				table,
				row,
				numberOf(table, row, "aliquot") as NumberCell,
				"V_{\\text{aliquot}}",
				`aliquot in the standardisation of ${quoted(name)}`,
			),
		),
		titrations: numbersOf(table, "titre #")
			.filter((n) => !isEmpty(table, row, "titre #", n))
			.map((n) => titrationOf(table, row, n, instruments)),
		blankTitre: blankTitre(table, row, name, instruments),
		nominal: isEmpty(table, row, "concentration")
			? { recorded: false }
			: {
					recorded: true,
					value: statedConcentration(table, row, assumptions),
				},
	};
}

/** A purity is taken as good to so many points of per cent either way, all values in it equally likely: labels give limits and seldom an uncertainty. Our decision. */
export const purityHalfWidth = 0.5;

function purityOf(
	table: SolutionTable,
	row: ParsedRow,
	name: string,
	assumptions: Set<string>,
): Quantity<"ratio"> {
	const purity = numberOf(table, row, "purity");
	if (purity === null) {
		assumptions.add(
			`Purity of ${quoted(name)} not recorded: 100 % assumed, give or take ${purityHalfWidth} points.`,
		);
		return input("ratio", 100, "%", rectangular(purityHalfWidth), {
			symbol: "p",
			meaning: `purity of ${quoted(name)}, assumed`,
			source: stated("not recorded; a decision of ours"),
			computedFrom: [table.raw.hash, name].join("|"),
		});
	}
	return input(
		"ratio",
		purity.value,
		purity.unit as UnitOf<"ratio">,
		rectangular(purityHalfWidth * (purity.unit === "%" ? 1 : 0.01)),
		{
			symbol: "p",
			meaning: `purity of ${quoted(name)}`,
			source: sourceOf(table, row, purity.header),
		},
	);
}

function weighedBasis(
	table: SolutionTable,
	row: ParsedRow,
	instruments: Instruments,
	assumptions: Set<string>,
): BasisOf<"weighed"> {
	const name = textOf(table, row, "solution");
	const purity = purityOf(table, row, name, assumptions);
	if (!isEmpty(table, row, "concentration"))
		assumptions.add(
			`The concentration of ${quoted(name)} is worked out from what was weighed; the one stated beside it is not used.`,
		);
	return {
		is: "weighed",
		mass: instruments.mass(
			"weighed",
			readingOf(
				table,
				row,
				numberOf(table, row, "weighed") as NumberCell,
				"m",
				`mass of ${quoted(name)} weighed out`,
			),
		),
		purity,
		volume: instruments.volume(
			"made up",
			readingOf(
				table,
				row,
				numberOf(table, row, "made up to") as NumberCell,
				"V",
				`volume that ${quoted(name)} was made up to`,
			),
		),
	};
}

function blankTitre(
	table: SolutionTable,
	row: ParsedRow,
	name: string,
	instruments: Instruments,
): Recorded<Quantity<"volume">> {
	const cell = numberOf(table, row, "blank titre");
	if (cell === null) return { recorded: false };
	const reading = readingOf(
		table,
		row,
		cell,
		"V_{\\text{blank}}",
		`blank titre in the standardisation of ${quoted(name)}`,
	);
	return {
		recorded: true,
		value: plus(
			instruments.titre("standard titre", reading),
			instruments.titreCalibration(
				"standard titre",
				toBase("volume", cell.value, cell.unit) * 1000,
				0,
			),
		),
	};
}

function evidenceOf(
	table: SolutionTable,
	row: ParsedRow,
	cell: NumberCell,
	assumptions: Set<string>,
): Evidence {
	const u = numberOf(table, row, "uncertainty");
	if (u === null) return exact;
	const size =
		u.kind === "ratio"
			? toBase("ratio", u.value, u.unit) * cell.value
			: toBase(u.kind, u.value, u.unit) / toBase(cell.kind, 1, cell.unit);
	const is = textOf(table, row, "uncertainty is");
	if (is === "")
		assumptions.add(
			"Uncertainties of solutions are taken as standard uncertainties (k = 1) where the sheet does not say what they are.",
		);
	return is === "k=2"
		? certificate(size)
		: is === "tolerance"
			? rectangular(size)
			: normal(size);
}

function statedConcentration(
	table: SolutionTable,
	row: ParsedRow,
	assumptions: Set<string>,
): StatedConcentration {
	const cell = numberOf(table, row, "concentration") as NumberCell;
	const name = textOf(table, row, "solution");
	const evidence = evidenceOf(table, row, cell, assumptions);
	const make = <K extends Kind>(kind: K, unit: string): Quantity<K> =>
		input(kind, cell.value, unit as UnitOf<K>, evidence, {
			symbol: "c",
			meaning: `concentration of ${quoted(name)}, as stated`,
			source: sourceOf(table, row, cell.header),
			scope: "shared",
		});
	switch (cell.kind) {
		case "normality":
			return { as: "normality", quantity: make("normality", cell.unit) };
		case "massConcentration":
			return {
				as: "mass concentration",
				quantity: make("massConcentration", cell.unit),
			};
		case "ratio": {
			const density = numberOf(table, row, "density") as NumberCell;
			return {
				as: "mass fraction",
				quantity: make("ratio", cell.unit),
				density: input(
					"density",
					density.value,
					density.unit as UnitOf<"density">,
					exact,
					{
						symbol: "\\rho",
						meaning: `density of ${quoted(name)}`,
						source: sourceOf(table, row, density.header),
					},
				),
			};
		}
		default: {
			const equivalents =
				textOf(table, row, "counts") === "equivalents" &&
				roleOf(titrimetricName(textOf(table, row, "substance"))) === "iodine";
			return equivalents
				? {
						as: "normality",
						quantity: make("normality", cell.unit.replace("mol/L", "N")),
					}
				: { as: "concentration", quantity: make("concentration", cell.unit) };
		}
	}
}
