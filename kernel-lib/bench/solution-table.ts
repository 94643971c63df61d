import {
	certificate,
	type Evidence,
	exact,
	exactRatio,
	input,
	type Kind,
	normal,
	type Problem,
	type ProblemPlace,
	plus,
	problem,
	type Quantity,
	rectangular,
	toBase,
	type UnitOf,
} from "../quantity";
import {
	isPreparation,
	isThiosulfateOfEitherSalt,
	isTitrimetricStandard,
	type Role,
	roleOf,
	titrimetricName,
} from "../substances";
import { readingOf, sourceOf } from "./cell-source";
import type { SolutionKey } from "./columns";
import type { Instruments } from "./glassware/instruments";
import { missingCells } from "./missing-cells";
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

/** All problems of the solutions table beyond single cells. */
export function checkSolutions(
	table: SolutionTable,
	names: SolutionNames,
	problems: Problem[],
): void {
	const seen = new Map<string, number>();
	const missing = missingCells(table, problems);
	for (const row of table.rows) {
		const name = textOf(table, row, "solution");
		missing.require(row, "solution", "a name for the solution");
		missing.require(row, "substance", "what is dissolved");
		const before = seen.get(name);
		if (name !== "" && before !== undefined)
			problems.push(
				problem(
					"solution-twice",
					placeOf(table, row, "solution"),
					`the solution "${name}" in rows ${before} and ${row.row}`,
					"each name once",
					"Rename one of them, or take one row away.",
				),
			);
		seen.set(name, row.row);
		checkBasis(table, row, names, problems, missing.require);
	}
	missing.report();
	checkCircles(table, problems);
}

function checkBasis(
	table: SolutionTable,
	row: ParsedRow,
	names: SolutionNames,
	problems: Problem[],
	require: (row: ParsedRow, key: SolutionKey, expected: string) => void,
): void {
	const at = (key: SolutionKey): ProblemPlace => placeOf(table, row, key);
	const filled = (key: SolutionKey): boolean => !isEmpty(table, row, key);
	const written = textOf(table, row, "substance");
	const role = roleOf(titrimetricName(written));
	const against = textOf(table, row, "standardised against");
	const titred = numbersOf(table, "titre #").some(
		(n) => !isEmpty(table, row, "titre #", n),
	);
	if (filled("standardised against")) {
		require(row, "aliquot", "the volume that was titrated in the standardisation");
		if (!titred)
			require(row, "titre #", "at least one titre of the standardisation");
		const other = names.roles.get(against);
		if (against !== "" && other === undefined)
			problems.push(
				problem(
					"solution-not-found",
					at("standardised against"),
					`"${against}"`,
					`a solution of this table: ${[...names.roles.keys()].map((n) => `"${n}"`).join(", ")}`,
					"Write the name as in the column `solution`, or add a row for it.",
				),
			);
		else if (
			against !== "" &&
			(role === "other" ||
				(role === "iodine" && other !== "thiosulfate") ||
				(role === "thiosulfate" &&
					other === "thiosulfate" &&
					against !== textOf(table, row, "solution")))
		)
			problems.push(
				problem(
					"standardisation-pair",
					at("standardised against"),
					`${written} against "${against}"`,
					"thiosulfate against iodate, dichromate or iodine, or iodine against thiosulfate",
					"Mend the substances, or give the concentration itself with its uncertainty.",
				),
			);
	} else {
		for (const key of ["aliquot", "blank titre"] as const)
			if (filled(key)) notStandardised(at(key), problems);
		if (titred) notStandardised(at("titre #"), problems);
		if (filled("weighed")) {
			require(row, "made up to", "the volume that the weighed substance was made up to");
			if (isThiosulfateOfEitherSalt(written))
				problems.push(whichSalt(at("substance"), `"${written}", weighed out`));
		} else if (!filled("concentration"))
			require(row, "concentration", "a concentration, or `weighed`, or `standardised against`");
	}
	if (filled("concentration")) checkConcentration(table, row, problems);
	else if (isPreparation(written) && !filled("standardised against"))
		problems.push(tincture(at("substance"), written));
	if (filled("uncertainty") && !filled("concentration"))
		problems.push(
			problem(
				"uncertainty-alone",
				at("uncertainty"),
				"an uncertainty without a concentration",
				"a concentration that it belongs to",
				"Fill the concentration, or empty this cell: the uncertainty of a weighed or standardised solution is worked out from its readings.",
			),
		);
}

function notStandardised(at: ProblemPlace, problems: Problem[]): void {
	problems.push(
		problem(
			"standardisation-incomplete",
			at,
			"a reading of a standardisation",
			"the name of the solution that it was titrated against",
			"Fill `standardised against`, or empty this cell.",
		),
	);
}

function whichSalt(at: ProblemPlace, found: string): Problem {
	return problem(
		"which-salt",
		at,
		found,
		'"sodium thiosulfate pentahydrate" or "sodium thiosulfate anhydrous"',
		"Say which salt the grams are of: a mole of the pentahydrate weighs 1.57 times as much as one of the anhydrous salt.",
	);
}

function tincture(at: ProblemPlace, written: string): Problem {
	return problem(
		"tincture",
		at,
		`"${written}" in percent`,
		"its concentration of iodine as found by titration",
		"The percentage of a tincture or of povidone iodine is not iodine in potassium iodide. Titrate it against thiosulfate and fill `standardised against`, `aliquot (mL)` and `titre 1 (mL)`, or give the concentration found.",
	);
}

function checkConcentration(
	table: SolutionTable,
	row: ParsedRow,
	problems: Problem[],
): void {
	const cell = numberOf(table, row, "concentration");
	if (cell === null) return;
	const at = { ...placeOf(table, row, "concentration"), column: cell.header };
	const written = textOf(table, row, "substance");
	const role = roleOf(titrimetricName(written));
	const counts = textOf(table, row, "counts");
	const countsEmpty = isEmpty(table, row, "counts");
	if (isPreparation(written) && cell.kind === "ratio")
		problems.push(tincture(at, written));
	else if (cell.kind === "ratio" && isEmpty(table, row, "density"))
		problems.push(
			problem(
				"density-missing",
				placeOf(table, row, "density"),
				`${cell.value} ${cell.unit} without a density`,
				"the density of the solution",
				'Fill "density (g/mL)": a percentage by weight needs it to become a concentration.',
			),
		);
	if (
		(cell.kind === "ratio" || cell.kind === "massConcentration") &&
		isThiosulfateOfEitherSalt(written) &&
		isEmpty(table, row, "weighed") &&
		isEmpty(table, row, "standardised against")
	)
		problems.push(
			whichSalt(
				placeOf(table, row, "substance"),
				`"${written}" at ${cell.value} ${cell.unit}`,
			),
		);
	if (role === "iodine" && cell.kind === "concentration" && countsEmpty)
		problems.push(
			problem(
				"counts-missing",
				at,
				`${cell.value} ${cell.unit} of iodine, which may count I2 or equivalents`,
				'"I2" or "equivalents" in the column "counts"',
				`Which is it? The two differ by a factor of two: ${cell.value} ${cell.unit} of I2 is ${2 * cell.value} of equivalents.`,
			),
		);
	if (role === "iodine" && cell.kind === "normality" && counts === "I2")
		problems.push(
			problem(
				"counts-contradiction",
				placeOf(table, row, "counts"),
				'"I2" for a concentration in N',
				'"equivalents", or an empty cell',
				"A normality counts equivalents. If molecules are meant, give it in mol/L.",
			),
		);
	if (cell.kind === "ratio" && toBase("ratio", cell.value, cell.unit) > 1)
		problems.push(
			problem(
				"out-of-range",
				at,
				`${cell.value} ${cell.unit}`,
				"at most 100 %",
				"Look the concentration up again.",
			),
		);
	const u = numberOf(table, row, "uncertainty");
	if (u !== null && u.kind !== "ratio" && u.kind !== cell.kind)
		problems.push(
			problem(
				"uncertainty-unit",
				{ ...at, column: u.header },
				`an uncertainty in ${u.unit} for a concentration in ${cell.unit}`,
				`% or ${cell.unit}`,
				"Give the uncertainty in % or in the unit of the concentration.",
			),
		);
}

/** A standardisation may not lead back to itself. Each circle is told once. */
function checkCircles(table: SolutionTable, problems: Problem[]): void {
	const next = new Map<string, { to: string; row: ParsedRow }>();
	for (const row of table.rows)
		next.set(textOf(table, row, "solution"), {
			to: textOf(table, row, "standardised against"),
			row,
		});
	const told = new Set<string>();
	for (const start of next.keys()) {
		const path: string[] = [];
		for (
			let name = start;
			name !== "" && next.has(name) && !told.has(name);
			name = next.get(name)?.to ?? ""
		) {
			const from = path.indexOf(name);
			if (from >= 0) {
				const circle = path.slice(from);
				const { row } = next.get(circle[0]) as { row: ParsedRow };
				problems.push(
					problem(
						"standardisation-circle",
						placeOf(table, row, "standardised against"),
						`a circle: ${[...circle, circle[0]].map((n) => `"${n}"`).join(" against ")}`,
						"a chain that ends in a weighed or a stated solution",
						"State the concentration of one of them, or how much of it was weighed.",
					),
				);
				break;
			}
			path.push(name);
		}
		for (const name of path) told.add(name);
	}
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

function basisOf(
	table: SolutionTable,
	row: ParsedRow,
	instruments: Instruments,
	assumptions: Set<string>,
): SolutionBasis {
	const name = textOf(table, row, "solution");
	const read = (
		key: SolutionKey,
		symbol: string,
		meaning: string,
		n = 1,
	): Parameters<Instruments["volume"]>[1] =>
		readingOf(
			table,
			row,
			numberOf(table, row, key, n) as NumberCell,
			symbol,
			meaning,
		);
	const against = textOf(table, row, "standardised against");
	if (against !== "") {
		const own = roleOf(titrimetricName(textOf(table, row, "substance")));
		const titration = (n: number): TitrationReading => {
			const reading = read(
				"titre #",
				`V_{\\text{titre ${n}}}`,
				`titre ${n} of the standardisation of ${name}`,
				n,
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
				titrant: own === "thiosulfate" ? name : against,
				place: placeOf(table, row, "titre #", n),
			};
		};
		return {
			is: "standardised",
			against,
			aliquot: instruments.volume(
				"standard aliquot",
				read(
					"aliquot",
					"V_{\\text{aliquot}}",
					`aliquot in the standardisation of ${name}`,
				),
			),
			titrations: numbersOf(table, "titre #")
				.filter((n) => !isEmpty(table, row, "titre #", n))
				.map(titration),
			blankTitre: blankTitre(table, row, name, instruments),
			nominal: isEmpty(table, row, "concentration")
				? { recorded: false }
				: {
						recorded: true,
						value: statedConcentration(table, row, assumptions),
					},
		};
	}
	if (!isEmpty(table, row, "weighed")) {
		const purity = numberOf(table, row, "purity");
		if (purity === null)
			assumptions.add(`Purity of ${name} not recorded: 100 % assumed, exact.`);
		if (!isEmpty(table, row, "concentration"))
			assumptions.add(
				`The concentration of ${name} is worked out from what was weighed; the one stated beside it is not used.`,
			);
		return {
			is: "weighed",
			mass: instruments.mass(
				"weighed",
				read("weighed", "m", `mass of ${name} weighed out`),
			),
			purity:
				purity === null
					? exactRatio(1, "p", `purity of ${name}, assumed`)
					: input(
							"ratio",
							purity.value,
							purity.unit as UnitOf<"ratio">,
							exact,
							{
								symbol: "p",
								meaning: `purity of ${name}`,
								source: sourceOf(table, row, purity.header),
							},
						),
			volume: instruments.volume(
				"made up",
				read("made up to", "V", `volume that ${name} was made up to`),
			),
		};
	}
	return {
		is: "stated",
		concentration: statedConcentration(table, row, assumptions),
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
		`blank titre in the standardisation of ${name}`,
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
			meaning: `concentration of ${name}, as stated`,
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
						meaning: `density of ${name}`,
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
