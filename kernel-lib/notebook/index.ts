export { attachSheet } from "./attach";
export { display } from "./display";
export { attachPhotographs } from "./photographs";
export { progress, type Tell } from "./progress";
export { report } from "./report";
export type {
	Reportable,
	ReportedContent,
	ReportedInterval,
	ReportedResult,
	ReportedValue,
	ReportedVerdict,
} from "./result";
export type { StructuredCell, StructuredTable } from "./structured-table";
