import { atResidueChecks } from "../compare/at-residue-checks";
import { dunnettChecks } from "../compare/dunnett-checks";
import { quantityChecks } from "../quantity/quantity.checks";
import { solutionChecks } from "../solutions/solutions.checks";
import { activationChecks } from "./activation.checks";
import { calibrationChecks } from "./calibration.checks";
import { charPropertyChecks } from "./char-properties.checks";
import { type Check, factsByProvenance, type Provenance } from "./check";
import { collectionChecks } from "./collections.checks";
import { criticalValueChecks } from "./critical-values.checks";
import { doseChecks } from "./dose.checks";
import { iodineNumberChecks } from "./iodine-number.checks";
import { iodometryChecks } from "./iodometry.checks";
import { isothermFitChecks } from "./isotherm-fits.checks";
import { isothermRankingChecks } from "./isotherm-rankings.checks";
import { molarMassChecks } from "./molar-masses.checks";
import {
	nistNonlinearChecks,
	nistStarts,
	startsReaching,
} from "./nist-nonlinear.checks";
import { publicFitChecks, straightLineChecks } from "./public-fits.checks";
import {
	mixtureChecks,
	temperatureChecks,
} from "./temperature-and-mixtures.checks";
import { uncertaintyChecks } from "./uncertainty.checks";

export interface CheckGroup {
	readonly title: string;
	readonly checks: readonly Check[];
}

/** Every check against the outside world. The tests and `npm run reference` both read this list; there is no second one. */
export const checkGroups: readonly CheckGroup[] = [
	{ title: "Molar masses", checks: molarMassChecks },
	{ title: "Iodometry and the mass balance", checks: iodometryChecks },
	{ title: "Measurement uncertainty", checks: uncertaintyChecks },
	{
		title: "Correlated inputs and Monte Carlo",
		checks: quantityChecks,
	},
	{ title: "Solutions and water", checks: solutionChecks },
	{
		title: "Activation: yields, ratios, washing, drying",
		checks: activationChecks,
	},
	{ title: "Iodine uptake at 0.02 N", checks: iodineNumberChecks },
	{
		title: "Treatments against a control: the example of 1955",
		checks: dunnettChecks,
	},
	{
		title: "Treatments against a control: critical values",
		checks: criticalValueChecks,
	},
	{
		title: "Calibration lines and what is read on them",
		checks: calibrationChecks,
	},
	{
		title: "Char properties by the standards' formulas",
		checks: charPropertyChecks,
	},
	{
		title:
			"Nonlinear least squares: the 27 certified sets of NIST, from both starts",
		checks: nistNonlinearChecks,
	},
	{
		title: "Isotherms of the catalogue, without start values",
		checks: isothermFitChecks,
	},
	{
		title: "Published data with a hyperbola, a first-order rise, a power law",
		checks: publicFitChecks,
	},
	{
		title:
			"Data of others: an assay's curves, a photometer's line, six laboratories",
		checks: collectionChecks,
	},
	{
		title: "Isotherms on straight lines, as it is done by hand",
		checks: straightLineChecks,
	},
	{
		title: "Isotherms ranked by AICc",
		checks: isothermRankingChecks,
	},
	{
		title: "Treatments compared at one residue, on an isotherm each",
		checks: atResidueChecks,
	},
	{
		title: "From an isotherm to a dose; Hill's form",
		checks: doseChecks,
	},
	{ title: "Temperature series", checks: temperatureChecks },
	{ title: "Two solutes on one char", checks: mixtureChecks },
];

/** What the provenances are called where facts are counted. */
const provenances: Readonly<Record<Provenance, string>> = {
	published: "published, and read where they are published",
	"computed with a general library":
		"computed with a general library, mostly on invented data",
	"from memory": "from memory of a publication",
	"common practice, no source": "common practice, no source",
};

/** How many facts the checks rest on, by where they are from. */
export function factLines(): string[] {
	const facts = factsByProvenance(checkGroups.flatMap((g) => g.checks));
	return (Object.keys(provenances) as Provenance[]).map(
		(p) => `${facts.get(p) ?? 0} facts ${provenances[p]}`,
	);
}

/** Lines that close the printed table. */
export function closingLines(): string[] {
	return [
		`NIST nonlinear: ${startsReaching(1e-6)} of ${nistStarts} starts`,
		...factLines(),
		"No published uptake, isotherm or iodine number of a char or a carbon is among them: none was at hand to be read.",
	];
}
