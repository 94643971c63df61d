/** The sentences that a page shows, as plain functions of results: answers, verdicts, how they were reached, what to do next. */

export type { AnswerInWords } from "./answer-words";
export { auditTable } from "./audit-table";
export { charAnswer, charNextSteps } from "./char-answer";
export { comparisonTable } from "./comparison-table";
export { firingAnswer } from "./firing-answer";
export { firingNextSteps } from "./firing-next-steps";
export { iodineNumberAnswer } from "./iodine-number-answer";
export { methodTable } from "./method";
export { nextSteps } from "./next-steps";
export { solutionsAnswer } from "./solutions-answer";
export { wordsAtThreeMargins } from "./three-margins";
export { verdictSentence } from "./verdict-sentence";
