/**
 * Charledger: from the bench sheet to the verdict. The namespaces stand in the order of the flow; each is the front door of one folder.
 */

export * as activation from "./activation/public";
export * as bench from "./bench";
export * as cautions from "./cautions";
export * as compare from "./compare";
export * as dose from "./dose";
export * as figures from "./figures/public";
export * as fit from "./fit";
export * as isotherms from "./isotherms";
export * as mixtures from "./mixtures";
export * as notebook from "./notebook/public";
export * as properties from "./properties/public";
export * as quantity from "./quantity/public";
export * as residue from "./residue";
export * as solutions from "./solutions/public";
export * as stats from "./stats/public";
export * as substances from "./substances/public";
export * as temperature from "./temperature";
export * as uptake from "./uptake";
