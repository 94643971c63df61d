export { type AmmoniaNamed, ammoniaNamedIn } from "./ammonia";
export { chemicalIn } from "./chemical-word";
export { countedFormula } from "./counted-formula";
export {
	type Danger,
	type DangerKind,
	dangerKinds,
	dangers,
	labelled,
} from "./dangers";
export { dangersNamedIn, type NamedDanger } from "./dangers-named";
export { type Composition, composition } from "./formula";
export { substances } from "./list";
export {
	type Meeting,
	type Meets,
	meetings,
	meetingsAmong,
	type Part,
	whyNot,
} from "./meetings";
export { molarMass } from "./molar-mass";
export { namesOf } from "./names";
export {
	isSubstance,
	type NamedSubstance,
	type SubstanceFound,
	substanceNamed,
	substancesIn,
} from "./search";
export type {
	IodineEffect,
	MolesOfIodine,
	Substance,
	ThiosulfateEffect,
	Titrimetry,
} from "./substance";
export { substanceTable } from "./table";
export {
	isPreparation,
	isThiosulfateOfEitherSalt,
	isTitrimetricStandard,
	type Role,
	roleOf,
	titrimetricName,
	titrimetryOf,
} from "./titrimetry";
