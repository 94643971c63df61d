/**
 * Charledger: from the bench sheet to the verdict. The namespaces stand in the order of the flow; each is the public door of one folder.
 */
// biome-ignore-all assist/source/organizeImports: the order is that of the flow
export * as quantity from "./quantity/public";
export * as bench from "./bench/public";
export * as substances from "./substances/public";
export * as solutions from "./solutions/public";
export * as activation from "./activation/public";
export * as properties from "./properties/public";
export * as residue from "./residue/public";
export * as uptake from "./uptake/public";
export * as isotherms from "./isotherms/public";
export * as dose from "./dose/public";
export * as temperature from "./temperature/public";
export * as mixtures from "./mixtures/public";
export * as compare from "./compare/public";
export * as words from "./words/public";
export * as cautions from "./cautions/public";
export * as figures from "./figures/public";
export * as stats from "./stats/public";
export * as fit from "./fit/public";
export * as notebook from "./notebook/public";
