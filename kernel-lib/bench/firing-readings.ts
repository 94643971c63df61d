import { type Quantity, type Table, table } from "../quantity";
import { isLeftOut } from "./deviations";
import type { Firing } from "./firing";
import { firingDeviations } from "./firings-in-use";
import { type ReadingColumn, readingTable, recorded, text } from "./readings";
import { requireTrial } from "./require-trial";
import type { Recorded, Trial } from "./trial";

type Column = ReadingColumn<Firing>;

function listed<T>(
	firings: readonly Firing[],
	list: (firing: Firing) => readonly T[],
	columns: (
		name: string,
		item: (firing: Firing) => Recorded<T>,
	) => readonly Column[],
	what: string,
): Column[] {
	const most = firings.reduce(
		(n, firing) => Math.max(n, list(firing).length),
		0,
	);
	return Array.from({ length: most }, (_, i) =>
		columns(`${what} ${i + 1}`, (firing) =>
			i < list(firing).length
				? { recorded: true, value: list(firing)[i] }
				: { recorded: false },
		),
	).flat();
}

/** A reading of one item of a list, where the list has the item and the item the reading. */
function within<T>(
	item: (firing: Firing) => Recorded<T>,
	reading: (value: T) => Recorded<Quantity>,
): (firing: Firing) => Recorded<Quantity> {
	return (firing) => {
		const found = item(firing);
		return found.recorded ? reading(found.value) : { recorded: false };
	};
}

const always = (quantity: Quantity): Recorded<Quantity> => ({
	recorded: true,
	value: quantity,
});

function agentColumns(): Column[] {
	const amount = (
		pick: (
			a: Extract<Firing["agentAmount"], { recorded: true }>["value"],
		) => Recorded<Quantity>,
	): ((firing: Firing) => Recorded<Quantity>) =>
		within((firing) => firing.agentAmount, pick);
	const none: Recorded<Quantity> = { recorded: false };
	return [
		text("agent", (r) => r.agent),
		recorded(
			"agent mass",
			amount((a) => (a.as === "solid" ? always(a.mass) : none)),
		),
		recorded(
			"agent purity",
			amount((a) => (a.as === "solid" ? always(a.purity) : none)),
		),
		recorded(
			"agent solution mass",
			amount((a) => (a.as === "solution by mass" ? always(a.mass) : none)),
		),
		recorded(
			"agent solution volume",
			amount((a) => (a.as === "solution by volume" ? always(a.volume) : none)),
		),
		recorded(
			"agent strength by mass",
			amount((a) =>
				a.as === "solution by mass" ? always(a.massFraction) : none,
			),
		),
		recorded(
			"agent strength by volume",
			amount((a) =>
				a.as === "solution by volume" ? always(a.strength as Quantity) : none,
			),
		),
	];
}

const precursorColumns = (): Column[] => [
	text("precursor", (r) => r.precursor),
	text("precursor batch", (r) => r.precursorBatch),
	text("precursor size", (r) => r.precursorSize),
	recorded("precursor mass", (r) => always(r.precursorMass)),
	...(["wet", "dry"] as const).map((basis) =>
		recorded<Firing>(`precursor moisture, ${basis} basis`, (r) =>
			r.precursorMoisture.recorded && r.precursorMoisture.value.basis === basis
				? always(r.precursorMoisture.value.fraction)
				: { recorded: false },
		),
	),
	recorded("precursor ash", (r) => r.precursorAsh),
	recorded("precursor carbon", (r) => r.precursorCarbon),
];

const soakColumns = (): Column[] => [
	...agentColumns(),
	recorded("soak time", (r) => r.soakTime),
	recorded("soak temperature", (r) => r.soakTemperature),
	recorded("impregnated mass", (r) => r.impregnatedMass),
	recorded("liquor drained", (r) => r.liquorDrained),
	recorded("liquor strength", (r) => r.liquorStrength),
];

const programmeColumns = (firings: readonly Firing[]): Column[] =>
	listed(
		firings,
		(r) => r.programme,
		(name, step) => [
			recorded(
				`${name} temperature`,
				within(step, (s) => always(s.temperature)),
			),
			recorded(
				`${name} rate`,
				within(step, (s) => s.rate),
			),
			recorded(
				`${name} hold`,
				within(step, (s) => s.hold),
			),
			text(`${name} atmosphere`, (r) => {
				const s = step(r);
				return s.recorded ? s.value.atmosphere : "";
			}),
			recorded(
				`${name} steam`,
				within(step, (s) => s.steam),
			),
		],
		"step",
	);

const kilnColumns = (firings: readonly Firing[]): Column[] => [
	...programmeColumns(firings),
	recorded("charred mass", (r) => r.charredMass),
	recorded("fired mass", (r) => r.firedMass),
	recorded("condensate", (r) => r.condensate),
	recorded("gas mass", (r) => r.gasMass),
];

const rinseColumns = (firings: readonly Firing[]): Column[] => [
	...listed(
		firings,
		(r) => r.rinses,
		(name, rinse) => [
			recorded(
				name,
				within(rinse, (x) => always(x.volume)),
			),
			recorded(
				`${name} pH`,
				within(rinse, (x) => x.pH),
			),
			recorded(
				`${name} conductivity`,
				within(rinse, (x) => x.conductivity),
			),
			text(`${name} diluted`, (r) => {
				const x = rinse(r);
				return x.recorded && x.value.diluted !== 1
					? String(x.value.diluted)
					: "";
			}),
		],
		"rinse",
	),
	recorded("rinse water conductivity", (r) => r.rinseWater.conductivity),
	recorded("rinse water pH", (r) => r.rinseWater.pH),
	recorded(
		"reference strength",
		within(
			(r) => r.reference,
			(x) => always(x.strength),
		),
	),
	recorded(
		"reference conductivity",
		within(
			(r) => r.reference,
			(x) => always(x.conductivity),
		),
	),
];

const dryingColumns = (firings: readonly Firing[]): Column[] =>
	listed(
		firings,
		(r) => r.drying,
		(name, weighing) => [
			recorded(
				`${name} time`,
				within(weighing, (w) => always(w.time)),
			),
			recorded(
				`${name} mass without dish`,
				within(weighing, (w) => always(w.mass)),
			),
		],
		"drying",
	);

const productColumns = (): Column[] => [
	recorded("product mass", (r) => r.productMass),
	recorded("product moisture, wet basis", (r) => r.productMoisture),
	recorded("product ash", (r) => r.productAsh),
	recorded("product volatile matter", (r) => r.productVolatileMatter),
	recorded("energy used", (r) => r.energyUsed),
];

const remarkColumns = (firings: readonly Firing[]): Column[] => [
	text("fired on", (r) =>
		r.firedOn.recorded ? r.firedOn.value.toISOString().slice(0, 10) : "",
	),
	text("what happened", (r) => r.whatHappened),
	text("left out", (r) => (isLeftOut(r) ? "yes" : "")),
	text("notes", (r) => r.notes),
	...[...new Set(firings.flatMap((r) => Object.keys(r.extra)))].map((name) =>
		text<Firing>(name, (r) => r.extra[name] ?? ""),
	),
];

/** All columns, in the order of the work: precursor, soak, kiln, rinses, drying, product, remarks. */
const columnsOf = (firings: readonly Firing[]): Column[] => [
	text("firing", (r) => r.name),
	...precursorColumns(),
	...soakColumns(),
	...kilnColumns(firings),
	...rinseColumns(firings),
	recorded("fines caught", (r) => r.finesCaught),
	...dryingColumns(firings),
	...productColumns(),
	...remarkColumns(firings),
];

/**
 * The readings of every firing as they stand in the sheet, without uncertainties: one row a firing, only columns with something in them, the unit of each in its head.
 * @example
 * bench.firingReadings(kilnTrial).columns[0] // => "firing"
 */
export function firingReadings(trial: Trial): Table {
	requireTrial(trial);
	const { file, firings } = trial;
	return firings.length === 0
		? table(`No firings in ${file}`, ["firing"], [])
		: withNotes(
				readingTable(`Firings of ${file}`, columnsOf(firings), firings),
				firingDeviations(trial),
			);
}

function withNotes(
	{ title, columns, rows }: Table,
	notes: readonly string[],
): Table {
	return table(title, columns, rows, notes);
}
