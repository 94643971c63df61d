export type { FlaskAccount } from "./account";
export { accountOf } from "./account";
export { type CharMass, charMassOf } from "./char-mass";
export { detectionLimit, displacement } from "./detection";
export {
	type ReagentBlank,
	type ReagentBlanks,
	reagentBlanks,
} from "./reagent-blank";
export { type FlaskResidue, residues, residueTable } from "./residues";
export { correctedTitre, iodineTitrated } from "./titration";
