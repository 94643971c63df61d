export {
	type ColourDose,
	colourRemoved,
	type RelativeDecolourising,
	relativeDecolourising,
} from "./decolourising";
export {
	caramelDefinitions,
	dosesForRemoval,
	methyleneBlueTitrations,
	type Provenance,
	type RemovalDefinition,
	type ResidueDefinition,
	type TitrationDefinition,
	uptakesAtResidue,
} from "./definitions";
export {
	type DyeTitration,
	type MethyleneBlueNumber,
	methyleneBlueNumbers,
} from "./methylene-blue-titration";
export {
	type DoseForRemoval,
	type NumberOnLine,
	numbersByDefinition,
	removalDoses,
	uptakeNumbers,
} from "./on-a-line";
export {
	dyeSurface,
	methyleneBlueAreas,
	methyleneBlueSurface,
} from "./surface";
