import { firingDeviations, type Mark, type Trial } from "../bench";
import {
	decimalsFor,
	fixed,
	type Kind,
	type Measured,
	type NotKnown,
	roundedPair,
	type Table,
	type TableCell,
	table,
	total,
} from "../quantity";
import { balanceFaults } from "./balance-faults";
import type { Drying } from "./drying";
import type { DryingCurve } from "./drying-curve";
import { massBalances } from "./mass-balance";
import type { NoBalance, StageBalance } from "./stage-balance";
import type { Washing } from "./washings";
import type { FittedWashout } from "./washout";
import { type FiringYields, yields } from "./yields";

function cell(result: Measured<Kind> | NotKnown): TableCell {
	return result.is === "not known" ? "" : result;
}

/** What the ± of a table is. */
const standardUncertainties =
	"After each ± stands one standard uncertainty (k = 1).";

const figureColumns: readonly (readonly [
	string,
	(f: FiringYields) => Measured<Kind> | NotKnown,
])[] = [
	["impregnation ratio", (f) => f.impregnationRatio],
	["ratio kept", (f) => f.impregnationRatioKept],
	["agent per dry precursor (mmol/g)", (f) => f.agentPerPrecursor],
	["agent per carbon (mol/mol)", (f) => f.agentPerCarbon],
	["carbonisation yield", (f) => f.carbonisationYield],
	["activation yield", (f) => f.activationYield],
	["burn-off", (f) => f.burnOff],
	["char yield", (f) => f.charYield],
	["fixed carbon", (f) => f.fixedCarbon],
	["fixed-carbon yield", (f) => f.fixedCarbonYield],
	["agent recovered", (f) => f.agentRecovered],
];

/** Reasons that go without saying: nothing is missing in the sheet. */
const plainReasons: readonly string[] = [
	"no agent was used",
	"no liquor poured off is recorded",
];
/** Their reason is that of burn-off. */
const knownFromBurnOff: readonly string[] = [
	"carbonisation yield",
	"activation yield",
];

/** Why a figure of a firing is not there, once for all firings that share the reason. */
function reasons(list: readonly FiringYields[]): string[] {
	const firingsByReason = new Map<string, string[]>();
	for (const [name, pick] of figureColumns) {
		if (knownFromBurnOff.includes(name)) continue;
		for (const f of list) {
			const result = pick(f);
			if (result.is !== "not known" || plainReasons.includes(result.because))
				continue;
			const text = `${name.replace(/ \(.*/, "")}: ${result.because}`;
			firingsByReason.set(text, [
				...(firingsByReason.get(text) ?? []),
				f.firing.name,
			]);
		}
	}
	return [...firingsByReason].map(
		([text, names]) => `Not known, ${text} (${names.join(", ")}).`,
	);
}

/**
 * Yields, burn-off, ratios and agent recovered, a row a firing; columns that no firing fills are not there, and the notes say why.
 * @throws ProblemError where the trial has no firing
 * @example
 * activation.yieldTable(kilnTrial) // => "Yields and ratios of the firings"
 */
export function yieldTable(trial: Trial): Table {
	const list = yields(trial);
	const columns = figureColumns.filter(([, pick]) =>
		list.some((f) => pick(f).is !== "not known"),
	);
	const astray = list.some((f) => balanceFaults(f).length > 0);
	const moist = list.filter((f) => !f.firing.precursorMoisture.recorded);
	return table(
		"Yields and ratios of the firings",
		[
			"firing",
			"precursor",
			"dry precursor",
			...columns.map(([name]) => name),
			...(astray ? ["balance"] : []),
		],
		list.map((f) => [
			f.firing.name,
			f.firing.precursor,
			f.dryPrecursor,
			...columns.map(([, pick]) => cell(pick(f))),
			...(astray ? [balanceFaults(f).length > 0 ? "does not close" : ""] : []),
		]),
		[
			...(moist.length > 0
				? [
						`Moisture of the precursor not recorded: yields per mass as weighed (${moist.map((f) => f.firing.name).join(", ")}).`,
					]
				: []),
			...reasons(list),
			...firingDeviations(trial),
			standardUncertainties,
		],
	);
}

function stageRow(firing: string, s: StageBalance | NoBalance): TableCell[] {
	return s.is === "not known"
		? [firing, s.stage, "", "", "", "", `no balance: ${s.because}`]
		: [
				firing,
				s.stage,
				sumText(s.into),
				sumText(s.outOf),
				s.unaccounted.to("g"),
				Number(s.unaccountedShare.in("%").toPrecision(3)),
				s.verdict,
			];
}

/**
 * The mass balances of all firings, a row a stage; stages that a firing does not have are not there.
 * @throws ProblemError where the trial has no firing
 * @example
 * activation.massBalanceTable(kilnTrial) // => "Mass balance"
 */
export function massBalanceTable(trial: Trial): Table {
	return table(
		"Mass balance",
		[
			"firing",
			"stage",
			"in (g)",
			"out (g)",
			"unaccounted (g)",
			"share",
			"verdict",
		],
		massBalances(trial).flatMap(({ firing, stages }) =>
			stages
				.filter((s) => s.is === "balance" || s.applies)
				.map((s) => stageRow(firing.name, s)),
		),
		[
			"In is out and unaccounted, exactly. Closes: every stream measured, and the unaccounted mass within its 95 % uncertainty.",
			...firingDeviations(trial),
			standardUncertainties,
		],
	);
}

/** The sum, to the place that its uncertainty shows. */
function sumText(streams: StageBalance["into"]): number {
	const sum = total(streams.map((s) => s.mass)).to("g");
	return Number(roundedPair(sum.value, sum.standardUncertainty)[0]);
}

/** The liquor retained and the floor that the model has. */
function modelText(washed: FittedWashout): string {
	const { low, high } = washed.retainedInterval;
	return `Liquor retained between rinses: ${digits(washed.retained)} mL (95 %: ${digits(low)} to ${high.is === "value" ? digits(high.value) : "no limit"} mL). Floor ${digits(washed.floor)}${washed.unit === "pH" ? "" : " µS/cm"} (${washed.floorIs}).`;
}

const digits = (x: number): number => Number(x.toPrecision(3));

/**
 * Readings of the rinses beside the washout model.
 * @param washing one of `washouts`
 * @example
 * activation.washoutTable(activation.washouts(kilnTrial)[0]) // => "Washing of potash 0.5, by conductivity"
 */
export function washoutTable({ firing, washout }: Washing): Table {
	const fitted = washout.is === "fitted" ? Array.from(washout.fit.fitted) : [];
	const back = washout.reading === "pH" ? (y: number): number => y : Math.exp;
	return table(
		`Washing of ${firing.name}, by ${washout.reading}`,
		[
			"rinse",
			"water poured on so far (mL)",
			washout.reading === "pH" ? "pH" : "conductivity (µS/cm)",
			"by the model",
		],
		washout.points.map((p, i) => [
			String(p.rinse),
			digits(p.poured),
			digits(p.value),
			i < fitted.length ? digits(back(fitted[i])) : "",
		]),
		[
			...(washout.is === "fitted"
				? [modelText(washout), ...washout.cautions]
				: [`No model: ${washout.because}.`]),
			...leftOutOf(firing.rinses, "what was read on rinse"),
		],
	);
}

/** Parts of a firing that a deviation leaves out, a sentence each. */
function leftOutOf(
	parts: readonly {
		readonly number: number;
		readonly marks: readonly Mark[];
	}[],
	what: string,
): string[] {
	return parts.flatMap(({ number, marks }) =>
		marks
			.filter((m) => m.handling === "leave out")
			.map((m) => `Left out: ${what} ${number} (${m.whatHappened}).`),
	);
}

/** g, to two digits of the half of the final mass's interval. */
function modelMass(curve: DryingCurve, hours: number): number {
	const { low, high } = curve.finalMassInterval;
	const mass = curve.massAt(hours);
	const half =
		low.is === "value" && high.is === "value"
			? (high.value - low.value) / 2
			: 0;
	return Number(
		half > 0 ? fixed(mass, decimalsFor(half)) : mass.toPrecision(4),
	);
}

/**
 * Weighings of a drying beside the fitted approach to constant mass.
 * @param dried one of `dryings`
 * @example
 * activation.dryingTable(activation.dryings(kilnTrial)[0]) // => "Drying of potash 0.5"
 */
export function dryingTable({
	firing,
	points,
	curve,
	sentence,
}: Drying): Table {
	return table(
		`Drying of ${firing.name}`,
		["hours in the oven", "mass (g)", "by the model (g)", "still to lose (mg)"],
		points.map((p) => [
			p.hours,
			Number(p.grams.toPrecision(7)),
			curve.is === "fitted" ? modelMass(curve, p.hours) : "",
			curve.is === "fitted"
				? Number(
						(1000 * (curve.massAt(p.hours) - curve.finalMass)).toPrecision(2),
					)
				: "",
		]),
		[sentence, ...leftOutOf(firing.drying, "weighing")],
	);
}
