import {
	listed,
	type Problem,
	type ProblemPlace,
	problem,
	toBase,
} from "../quantity";
import type { FiringKey } from "./columns";
import { firingKey } from "./firing-names";
import { missingCells } from "./missing-cells";
import {
	isEmpty,
	type NumberCell,
	numberOf,
	numbersOf,
	type ParsedRow,
	type ParsedTable,
	placeOf,
	textOf,
} from "./parsed-table";

export type FiringTable = ParsedTable<FiringKey>;

/** Whether a text in `agent` says that there was none. */
export function namesNoAgent(text: string): boolean {
	return /^(none|no agent|-|)$/i.test(text.trim());
}

/** One row under check. */
interface RowCheck {
	readonly table: FiringTable;
	readonly row: ParsedRow;
	readonly problems: Problem[];
	at(key: FiringKey, number?: number): ProblemPlace;
	filled(key: FiringKey, number?: number): boolean;
}

/** All problems of the activation table beyond single cells. */
export function checkFirings(table: FiringTable, problems: Problem[]): void {
	const missing = missingCells(table, problems);
	const seen = new Map<string, number>();
	for (const row of table.rows) {
		const check: RowCheck = {
			table,
			row,
			problems,
			at: (key, number = 1) => placeOf(table, row, key, number),
			filled: (key, number = 1) => !isEmpty(table, row, key, number),
		};
		missing.require(row, "firing", "a name for the firing");
		missing.require(
			row,
			"precursor mass",
			"the mass that the firing began with",
		);
		const name = textOf(table, row, "firing");
		const before = seen.get(firingKey(name));
		if (name !== "" && before !== undefined)
			problems.push(
				problem(
					"firing-twice",
					check.at("firing"),
					`the firing "${name}" in rows ${before} and ${row.row}`,
					"each name once (case and extra spaces do not count)",
					"Rename one of them, or take one row away.",
				),
			);
		seen.set(firingKey(name), row.row);
		checkAgent(check);
		checkSteps(check);
		checkRinses(check);
		checkReference(check);
		checkDrying(check);
		checkParts(check);
	}
	missing.report();
}

function checkAgent(check: RowCheck): void {
	const { table, row, problems, at, filled } = check;
	const ways = (
		["agent mass", "agent solution mass", "agent solution volume"] as const
	).filter((key) => filled(key));
	if (ways.length > 1)
		problems.push(
			problem(
				"agent-twice",
				at(ways[1]),
				`the agent measured out in ${listed(ways.map((w) => `\`${w}\``))}`,
				"one of them",
				"Leave the others empty.",
			),
		);
	if (ways.length > 0 && namesNoAgent(textOf(table, row, "agent")))
		problems.push(
			problem(
				"agent-unnamed",
				at("agent"),
				"an amount of agent and no name for it",
				"the name or formula of the agent",
				'Fill `agent`, e.g. "potassium carbonate" or "K2CO3".',
			),
		);
	const bySolution = ways.find((w) => w !== "agent mass");
	if (bySolution !== undefined)
		checkStrength(check, bySolution === "agent solution mass");
}

/** A solution of agent needs a strength that goes with how it was measured out. */
function checkStrength(
	{ table, row, problems, at, filled }: RowCheck,
	byMass: boolean,
): void {
	if (!filled("agent strength"))
		problems.push(
			problem(
				"strength-missing",
				at("agent strength"),
				"a solution without its strength",
				"how strong the agent's solution was",
				`Fill "agent strength (${byMass ? "% w/w" : "g/L"})".`,
			),
		);
	const strength = numberOf(table, row, "agent strength");
	if (strength === null) return;
	const place = { ...at("agent strength"), column: strength.header };
	if ((strength.kind === "ratio") !== byMass)
		problems.push(
			problem(
				"strength-unit",
				place,
				`a strength in ${strength.unit} for a ${byMass ? "mass" : "volume"} of solution`,
				byMass ? "% w/w" : "g/L or mol/L",
				byMass
					? "Give the strength in % w/w, or the volume of the solution instead of its mass."
					: "Give the strength in g/L or mol/L, or the mass of the solution instead of its volume: % w/w would need its density.",
			),
		);
	else if (byMass && toBase("ratio", strength.value, strength.unit) > 1)
		problems.push(
			problem(
				"out-of-range",
				place,
				`${strength.value} ${strength.unit}`,
				"at most 100 %",
				"Look the strength up again.",
			),
		);
}

const stepKeys = [
	"step # rate",
	"step # hold",
	"step # atmosphere",
	"step # steam",
] as const;

function checkSteps({ table, problems, at, filled }: RowCheck): void {
	for (const n of numbersOf(table, ...stepKeys)) {
		const key = stepKeys.find((k) => filled(k, n));
		if (key === undefined || filled("step # temperature", n)) continue;
		problems.push(
			problem(
				"step-without-temperature",
				at(key, n),
				`step ${n} without a temperature`,
				"the temperature that the step goes to",
				`Fill "step ${n} temperature (°C)".`,
			),
		);
	}
}

const rinseKeys = [
	"rinse # conductivity",
	"rinse # ph",
	"rinse # diluted",
] as const;

function checkRinses({ table, problems, at, filled }: RowCheck): void {
	for (const n of numbersOf(table, ...rinseKeys)) {
		const key = rinseKeys.find((k) => filled(k, n));
		if (key === undefined || filled("rinse #", n)) continue;
		problems.push(
			problem(
				"rinse-without-volume",
				at(key, n),
				`a reading of rinse ${n} and no volume`,
				"the volume that ran off",
				`Fill "rinse ${n} (mL)": without it, it is not known what the rinse took away.`,
			),
		);
	}
}

function checkReference({ table, row, problems, at, filled }: RowCheck): void {
	for (const [given, wanted, unit] of [
		["reference strength", "reference conductivity", "mS/cm"],
		["reference conductivity", "reference strength", "g/L"],
	] as const)
		if (filled(given) && !filled(wanted))
			problems.push(
				problem(
					"reference-incomplete",
					at(wanted),
					`\`${given}\` without \`${wanted}\``,
					"both, of one solution of the agent",
					`Fill "${wanted} (${unit})", or empty the other cell.`,
				),
			);
	const siemens = (cell: NumberCell): number =>
		toBase("conductivity", cell.value, cell.unit);
	const water = numberOf(table, row, "rinse water conductivity");
	const reference = numberOf(table, row, "reference conductivity");
	if (
		water !== null &&
		reference !== null &&
		siemens(reference) <= siemens(water)
	)
		problems.push(
			problem(
				"reference-below-water",
				{ ...at("reference conductivity"), column: reference.header },
				`${reference.value} ${reference.unit}, not above the water's own ${water.value} ${water.unit}`,
				"a solution that conducts better than the water",
				"Look both readings up again, and their units.",
			),
		);
}

function checkDrying({ table, row, problems, at, filled }: RowCheck): void {
	const dish = numberOf(table, row, "dish mass");
	let last = Number.NEGATIVE_INFINITY;
	for (const n of numbersOf(table, "drying # time", "drying # mass")) {
		const [timed, weighedThen] = [
			filled("drying # time", n),
			filled("drying # mass", n),
		];
		if (timed !== weighedThen)
			problems.push(
				problem(
					"drying-incomplete",
					at(timed ? "drying # mass" : "drying # time", n),
					timed ? "a time without a weighing" : "a weighing without its time",
					"both",
					`Fill "drying ${n} ${timed ? "mass (g)" : "time (h)"}", or empty the other cell.`,
				),
			);
		const time = numberOf(table, row, "drying # time", n);
		if (time !== null) {
			const seconds = toBase("time", time.value, time.unit);
			if (seconds <= last)
				problems.push(
					problem(
						"drying-order",
						{ ...at("drying # time", n), column: time.header },
						`${time.value} ${time.unit}, which is not after the weighing before`,
						"times that rise from weighing to weighing",
						"Count the hours in the oven from the start of the drying.",
					),
				);
			last = Math.max(last, seconds);
		}
		const weighed = numberOf(table, row, "drying # mass", n);
		if (
			weighed !== null &&
			dish !== null &&
			toBase("mass", weighed.value, weighed.unit) <=
				toBase("mass", dish.value, dish.unit)
		)
			problems.push(
				problem(
					"lighter-than-dish",
					{ ...at("drying # mass", n), column: weighed.header },
					`${weighed.value} ${weighed.unit}, no more than the dish`,
					"the mass of dish and char together",
					"With `dish mass` filled the weighings are with the dish; empty it if they are without.",
				),
			);
	}
}

function checkParts({ table, row, problems, at, filled }: RowCheck): void {
	const part = (key: FiringKey): number => {
		const cell = numberOf(table, row, key);
		return cell === null ? 0 : toBase("ratio", cell.value, cell.unit);
	};
	const sum = part("product ash") + part("product volatile matter");
	if (sum > 1 + 1e-9)
		problems.push(
			problem(
				"parts-above-whole",
				at("product volatile matter"),
				`ash and volatile matter of ${Number((100 * sum).toPrecision(4))} % together`,
				"at most 100 % of the dry product",
				"Both are per mass of dry product; look them up again.",
			),
		);
	if (
		filled("precursor moisture, wet basis") &&
		filled("precursor moisture, dry basis")
	)
		problems.push(
			problem(
				"moisture-twice",
				at("precursor moisture, dry basis"),
				"moisture on the wet and on the dry basis",
				"one of them",
				"Leave one cell empty.",
			),
		);
}
