import { describe, expect, test } from "vitest";
import { bench, residue, solutions, uptake } from "../../kernel-lib/index";
import { type Table, tableText } from "../../kernel-lib/quantity/index";

/** Tables and sentences as a reader sees them. */
function shown(found: unknown): string {
	if (Array.isArray(found)) return found.map(shown).join("\n");
	return typeof found === "string" ? found : tableText(found as Table);
}

type Trial = ReturnType<typeof bench.readTrial>;

const sheets = [
	"demo-run/hazelnut",
	"demo-run/small-trial",
	"demo-dye/dye",
	"demo-isotherm/isotherm",
	"demo-isotherm/iodine-number",
	"demo-activation/kiln",
	"demo-dose/rain-barrel",
	"demo-temperature/four-temperatures",
];

const steps: Readonly<Record<string, (trial: Trial) => unknown>> = {
	trial: (t) => t.table,
	readings: bench.readings,
	firingReadings: bench.firingReadings,
	concentrations: (t) => solutions.concentrations(t).table,
	reagentBlanks: (t) => residue.reagentBlanks(t).table,
	residues: (t) => residue.residues(t).table,
	readingCautions: residue.readingCautions,
	recoveries: (t) => uptake.recoveries(t).table,
	uptakes: (t) => uptake.uptakes(t).table,
	balances: (t) => uptake.uptakes(t).balances,
	dosages: (t) => uptake.iodineNumbers(t).dosages,
	iodineNumbers: (t) => uptake.iodineNumbers(t).table,
	conditions: (t) => uptake.iodineNumbers(t).map((n) => n.conditionTable),
	nextTrial: (t) => uptake.iodineNumbers(t).map((n) => n.nextTrial),
	roughSurfaceAreas: (t) => uptake.iodineNumbers(t).roughSurfaceAreas,
	singleDoses: (t) => uptake.singleDoses(t).table,
	methyleneBlueSurface: uptake.methyleneBlueSurface,
	uptakeAtResidue: (t) =>
		uptake.numbersByDefinition(
			t,
			uptake.uptakesAtResidue["methylene blue, JIS K 1474"],
		),
	doseForRemoval: (t) =>
		uptake.numbersByDefinition(
			t,
			uptake.dosesForRemoval["tannin value, AWWA B600"],
		),
	uptakesByFiring: (t) => uptake.uptakesByFiring(t).table,
	perFeedstock: (t) => uptake.uptakesByFiring(t).perFeedstock,
	costTable: (t) =>
		uptake.costTable(t, { currency: "EUR", perKilowattHour: 0.3 }),
};

describe.each(sheets)("%s", (sheet) => {
	const trial = bench.readTrial(`data/${sheet}.csv`);

	test.each(Object.entries(steps))("%s", (_, step) => {
		expect(shown(step(trial))).not.toMatch(/NaN|Infinity|undefined|null/);
	});
});
