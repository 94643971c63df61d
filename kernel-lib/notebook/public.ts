/** What a notebook calls to show, report and embed, in the order of use. */
export type { Answer } from "./answer";
export { type Attachable, attach } from "./attach";
export { display } from "./display";
export { head } from "./head-display";
export { progress, type Tell } from "./progress";
export { report } from "./report";
export type {
	ReportedAnswer,
	ReportedComparison,
	ReportedContent,
	ReportedInterval,
	ReportedResidue,
	ReportedResult,
	ReportedValue,
	ReportedVerdict,
} from "./reported";
export { type NotebookNeed, type NotebookNeeds, requires } from "./requires";
export type { Reportable } from "./result";
export type { StructuredCell, StructuredTable } from "./structured-table";
export type { Versions } from "./versions";
