import {
	halfDrop,
	inUse,
	type Solution,
	type SolutionBasis,
	type StatedConcentration,
	type TitrationReading,
} from "../bench";
import {
	massConcentrationOf,
	meanOfRepeats,
	meanOfReplicates,
	minus,
	named,
	per,
	problem,
	type Quantity,
	quoted,
	throwProblems,
} from "../quantity";
import { roleOf } from "../substances";
import { molarMassOf, weighedFormula } from "./molar-mass-of";
import { outlierAdvice } from "./outlier";
import { molarityOf, titrimetric } from "./redox";
import {
	aliquotConcentration,
	titrantConcentration,
	weighedConcentration,
} from "./standardisation";
import { blankVolume, deliveredVolume, titreVolume } from "./titre";

/** A concentration as one row of the sheet gives it. */
export interface FoundConcentration {
	readonly concentration: Quantity<"concentration">;
	/** How the concentration was found, in words. */
	readonly how: string;
	/** What an outlier test says of its replicate titres; "" where it has nothing to say. Nothing is ever left out because of it. */
	readonly outlierAdvice: string;
	/** What was assumed where the sheet is silent. */
	readonly assumptions: readonly string[];
}

/** What a solution was standardised against. */
export interface Standard {
	readonly substance: string;
	readonly concentration: Quantity<"concentration">;
}

type BasisOf<Is extends SolutionBasis["is"]> = Extract<
	SolutionBasis,
	{ is: Is }
>;

function fromStated(
	{ substance, place }: Solution,
	stated: StatedConcentration,
): Quantity<"concentration"> {
	switch (stated.as) {
		case "concentration":
			return stated.quantity;
		case "normality":
			return molarityOf(stated.quantity, substance);
		case "mass concentration":
			return per(stated.quantity, molarMassOf(substance, place));
		case "mass fraction":
			return per(
				massConcentrationOf(stated.quantity, stated.density),
				molarMassOf(substance, place),
			);
	}
}

/** The nominal concentration of a solution that was standardised; an empty list where the sheet gives none. */
export function nominalConcentration(
	solution: Solution,
): readonly Quantity<"concentration">[] {
	const { basis } = solution;
	return basis.is === "standardised" && basis.nominal.recorded
		? [fromStated(solution, basis.nominal.value)]
		: [];
}

function fromWeighed(
	{ substance, place }: Solution,
	{ mass, purity, volume }: BasisOf<"weighed">,
): FoundConcentration {
	const formula = weighedFormula(substance, place);
	return {
		concentration: weighedConcentration(formula, mass, purity, volume),
		how: `weighed as ${formula} and made up to volume`,
		outlierAdvice: "",
		assumptions: [],
	};
}

/** Mean of the titres in use of a standardisation, less its blank. */
function meanTitre(
	{ name, place }: Solution,
	{ blankTitre }: BasisOf<"standardised">,
	titrations: readonly TitrationReading[],
	endPoint: number,
): Quantity<"volume"> {
	if (titrations.length === 0)
		throwProblems([
			problem(
				"no-titre-left",
				place,
				`every titre of the standardisation of ${quoted(name)} left out by a deviation`,
				"at least one titre",
				"Keep one in the deviations table, titrate again, or state the concentration.",
			),
		]);
	const mean =
		titrations.length < 3
			? meanOfRepeats(
					titrations.map((t) => titreVolume(t, endPoint)),
					`titres of ${quoted(name)}`,
				)
			: meanOfReplicates(
					titrations.map(deliveredVolume),
					`titres of ${quoted(name)}`,
				);
	return named(
		blankTitre.recorded
			? minus(mean, blankVolume(blankTitre.value, place, endPoint))
			: mean,
		`V_{${name}}`,
		`mean titre of the standardisation of ${quoted(name)}${blankTitre.recorded ? ", less the blank" : ""}`,
	);
}

/** The burette holds thiosulfate: a thiosulfate row's aliquot is of the standard, any other row's aliquot is of that solution itself. */
function fromStandardisation(
	solution: Solution,
	basis: BasisOf<"standardised">,
	against: Standard,
	endPoint: number,
): FoundConcentration {
	const titrations = inUse(basis.titrations);
	const inBurette = roleOf(solution.substance) === "thiosulfate";
	const nameOf = (substance: string): string =>
		titrimetric(substance, solution.place).substance.name;
	const titre = meanTitre(solution, basis, titrations, endPoint);
	const concentration = inBurette ? titrantConcentration : aliquotConcentration;
	return {
		concentration: concentration(
			nameOf(solution.substance),
			nameOf(against.substance),
			against.concentration,
			basis.aliquot,
			titre,
		),
		how: `standardised against ${quoted(basis.against)}, ${titrations.length === 1 ? "one titration" : `${titrations.length} titrations`}`,
		outlierAdvice: outlierAdvice(
			titrations.map((t) => titreVolume(t, endPoint).in("mL")),
			"mL",
			2 * halfDrop,
		),
		assumptions: basis.blankTitre.recorded
			? []
			: [`No blank titre was taken off for ${quoted(solution.name)}.`],
	};
}

/**
 * What a row says of its concentration: stated, weighed, or standardised against another.
 * @param endPoint error of the end point of every titration, mL
 * @throws ProblemError where it does not give one
 */
export function foundConcentration(
	solution: Solution,
	standard: (name: string) => Standard,
	endPoint: number,
): FoundConcentration {
	const { basis } = solution;
	switch (basis.is) {
		case "stated":
			return {
				concentration: fromStated(solution, basis.concentration),
				how: "stated",
				outlierAdvice: "",
				assumptions: [],
			};
		case "weighed":
			return fromWeighed(solution, basis);
		case "standardised":
			return fromStandardisation(
				solution,
				basis,
				standard(basis.against),
				endPoint,
			);
	}
}
