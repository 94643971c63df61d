import { requireResults, type Table, withTable } from "../quantity";
import { checksTable } from "./checks-table";
import { fitKind } from "./doors";
import type { IsothermFit } from "./fit-result";
import { fitTable, parameterTable, residualTable } from "./tables";

/** Fits side by side, each table made when it is asked for. */
export interface FitTables {
	readonly fits: readonly IsothermFit[];
	/** A row for each parameter of each fit: value, errors, intervals. */
	readonly table: Table;
	/** A row for each fit: what was fitted, scatter, AICc, whether the data settle it; below, what is amiss in words. */
	readonly quality: Table;
	/** What speaks for each fit and against it, and what that means. */
	readonly checks: Table;
	/** A row for each point: found, expected, residual. */
	readonly residuals: Table;
}

/**
 * The tables of any fits, of several treatments, isotherms or solutes; shown as the table of their parameters.
 * @example
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190], [50, 75, 90, 95]);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * const tables = isotherms.fitTables(fit);
 * tables.table // => "Parameters"
 * tables.residuals.rows.length // => 4
 */
export function fitTables(...fits: readonly IsothermFit[]): FitTables {
	requireResults(fits, fitKind, "fitTables");
	const parameters = withTable({ fits }, () => parameterTable(...fits));
	const quality = withTable(parameters, () => fitTable(...fits), "quality");
	const checks = withTable(quality, () => checksTable(...fits), "checks");
	return withTable(checks, () => residualTable(...fits), "residuals");
}
