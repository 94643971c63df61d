export { comparisonTable } from "./comparison-table";
export { methodSentences, methodTable } from "./method";
export { comparableDose, nextSteps } from "./next-steps";
export { whyNoDifference } from "./no-difference";
export { obstacleReason } from "./obstacle-words";
export { replicatesReason } from "./replicates-words";
export { verdictReasons } from "./verdict-reasons";
export { verdictSentence } from "./verdict-sentence";
