export type { DangerKind } from "./dangers";
export { molarMass } from "./molar-mass";
export {
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
