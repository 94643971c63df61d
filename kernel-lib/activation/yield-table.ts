import { firingDeviations, type Trial } from "../bench";
import {
	type Kind,
	type Measured,
	type NotKnown,
	quoted,
	type Table,
	type TableCell,
	table,
} from "../quantity";
import { balanceFaults } from "./balance-faults";
import type { FiringYields } from "./firing-yields";
import { standardUncertainties } from "./table-notes";

function cell(result: Measured<Kind> | NotKnown): TableCell {
	return result.is === "not known" ? "" : result;
}

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
		([text, names]) => `Not known, ${text} (${names.map(quoted).join(", ")}).`,
	);
}

/**
 * Yields, burn-off, ratios and agent recovered, a row a firing; columns that no firing fills are not there, and the notes say why.
 */
export function yieldTable(list: readonly FiringYields[], trial: Trial): Table {
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
						`Moisture of the precursor not recorded: yields per mass as weighed (${moist.map((f) => quoted(f.firing.name)).join(", ")}).`,
					]
				: []),
			...reasons(list),
			...firingDeviations(trial),
			standardUncertainties,
		],
	);
}
