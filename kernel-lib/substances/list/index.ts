import type { Substance } from "../substance";
import { acids } from "./acids";
import { alkalis } from "./alkalis";
import { oxidising } from "./oxidising";
import { probes } from "./probes";
import { reducing } from "./reducing";
import { salts } from "./salts";
import { solventsAndPoisons } from "./solvents-and-poisons";
import { titrimetric } from "./titrimetric";
import { watersAndGases } from "./waters-and-gases";

/** The one list of substances. Names, formulas and effects are from memory of general chemistry and trade use where an entry names no other source. */
export const substances: readonly Substance[] = [
	...titrimetric,
	...watersAndGases,
	...alkalis,
	...acids,
	...salts,
	...reducing,
	...oxidising,
	...probes,
	...solventsAndPoisons,
];
