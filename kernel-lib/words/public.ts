/** The sentences that a page shows, as plain functions of results: verdicts, how they were reached, what to do next. */

export { comparisonTable } from "./comparison-table";
export { methodTable } from "./method";
export { nextSteps } from "./next-steps";
export { verdictSentence } from "./verdict-sentence";
