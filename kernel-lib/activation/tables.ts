import {
	decimalsFor,
	fixed,
	type Kind,
	roundedPair,
	type Table,
	type TableCell,
	table,
	total,
} from "../quantity";
import { balanceFaults } from "./balance-faults";
import type { Drying, DryingCurve } from "./drying";
import type { Finding } from "./finding";
import type { NoBalance, StageBalance } from "./mass-balance";
import { rinsesNeeded } from "./rinses-needed";
import type { Washout } from "./washout";
import type { FiringYields } from "./yields";

function cell(finding: Finding<Kind>): TableCell {
	return finding.is === "not known" ? "" : finding;
}

/** What the ± of a table is. */
const standardUncertainties =
	"After each ± stands one standard uncertainty (k = 1).";

const figureColumns: readonly (readonly [
	string,
	(f: FiringYields) => Finding<Kind>,
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
const toldByBurnOff: readonly string[] = [
	"carbonisation yield",
	"activation yield",
];

/** Why a figure of a run is not there, told once for all runs that share the reason. */
function reasons(list: readonly FiringYields[]): string[] {
	const runsByReason = new Map<string, string[]>();
	for (const [name, pick] of figureColumns) {
		if (toldByBurnOff.includes(name)) continue;
		for (const f of list) {
			const finding = pick(f);
			if (finding.is !== "not known" || plainReasons.includes(finding.because))
				continue;
			const text = `${name.replace(/ \(.*/, "")}: ${finding.because}`;
			runsByReason.set(text, [
				...(runsByReason.get(text) ?? []),
				f.firing.name,
			]);
		}
	}
	return [...runsByReason].map(
		([text, runs]) => `Not known, ${text} (${runs.join(", ")}).`,
	);
}

/** Yields, burn-off, ratios and agent recovered, a row a run; columns that no run fills are left out, and the notes say why. */
export function figuresTable(list: readonly FiringYields[]): Table {
	const columns = figureColumns.filter(([, pick]) =>
		list.some((f) => pick(f).is !== "not known"),
	);
	const astray = list.some((f) => balanceFaults(f).length > 0);
	const moist = list.filter((f) => !f.firing.precursorMoisture.recorded);
	return table(
		"Activation runs: yields and ratios",
		[
			"run",
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
			standardUncertainties,
		],
	);
}

/** The mass balances of one run or of several, a row a stage; stages that a run does not have are left out. */
export function massBalanceTable(
	balances: readonly {
		readonly run: string;
		readonly stages: readonly (StageBalance | NoBalance)[];
	}[],
): Table {
	return table(
		"Mass balance",
		[
			"run",
			"stage",
			"in (g)",
			"out (g)",
			"unaccounted (g)",
			"share",
			"verdict",
		],
		balances.flatMap(({ run, stages }) =>
			stages
				.filter((s) => s.is === "balance" || s.applies)
				.map((s): TableCell[] =>
					s.is === "no balance"
						? [run, s.stage, "", "", "", "", `no balance: ${s.because}`]
						: [
								run,
								s.stage,
								sumText(s.into),
								sumText(s.outOf),
								s.unaccounted.to("g"),
								Number(s.unaccountedShare.in("%").toPrecision(3)),
								s.verdict,
							],
				),
		),
		[
			"In is out and unaccounted, exactly. Closes: every stream measured, and the unaccounted mass within its 95 % uncertainty.",
			standardUncertainties,
		],
	);
}

/** The sum, to the place that its uncertainty shows. */
function sumText(streams: StageBalance["into"]): number {
	const sum = total(streams.map((s) => s.mass)).to("g");
	return Number(roundedPair(sum.value, sum.standardUncertainty)[0]);
}

/** Readings of the rinses beside the washout model, and the rinses that each target takes. */
export function washingTable(
	washed: Washout,
	targets: readonly Parameters<typeof rinsesNeeded>[1][] = [],
): Table {
	const fitted = washed.is === "fitted" ? Array.from(washed.fit.fitted) : [];
	const back = washed.reading === "pH" ? (y: number): number => y : Math.exp;
	const digits = (x: number): number => Number(x.toPrecision(3));
	return table(
		`Washing of ${washed.firing.name}, by ${washed.reading}`,
		[
			"rinse",
			"water poured on so far (mL)",
			washed.reading === "pH" ? "pH" : "conductivity (µS/cm)",
			"by the model",
		],
		washed.points.map((p, i) => [
			String(p.rinse),
			digits(p.poured),
			digits(p.value),
			i < fitted.length ? digits(back(fitted[i])) : "",
		]),
		washed.is === "refused"
			? [`No model: ${washed.because}.`]
			: [
					`Liquor retained between rinses: ${digits(washed.retained)} mL (95 %: ${digits(washed.retainedInterval.low)} to ${Number.isFinite(washed.retainedInterval.high) ? digits(washed.retainedInterval.high) : "no limit"} mL). Floor ${digits(washed.floor)}${washed.unit === "pH" ? "" : " µS/cm"} (${washed.floorIs}).`,
					...targets.map((t) => rinsesNeeded(washed, t).sentence),
					...washed.cautions,
				],
	);
}

/** g, to two digits of the half of the final mass's interval. */
function modelMass(curve: DryingCurve, hours: number): number {
	const { low, high } = curve.finalMassInterval;
	const half = (high - low) / 2;
	const mass = curve.massAt(hours);
	return Number(
		Number.isFinite(half) && half > 0
			? fixed(mass, decimalsFor(half))
			: mass.toPrecision(4),
	);
}

/** Weighings of a drying beside the fitted approach to constant mass. */
export function dryingTable(dried: Drying): Table {
	const { curve } = dried;
	return table(
		`Drying of ${dried.firing.name}`,
		["hours in the oven", "mass (g)", "by the model (g)", "still to lose (mg)"],
		dried.points.map((p) => [
			p.hours,
			Number(p.grams.toPrecision(7)),
			curve.is === "fitted" ? modelMass(curve, p.hours) : "",
			curve.is === "fitted"
				? Number(
						(1000 * (curve.massAt(p.hours) - curve.finalMass)).toPrecision(2),
					)
				: "",
		]),
		[dried.sentence],
	);
}
