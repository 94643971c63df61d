/** A column of a data frame. */
export interface DataColumn {
	readonly values: unknown[];
	readonly dtype: string;
	readonly shape: number[];
	mean(): number;
	median(): number;
	std(): number;
	var(): number;
	min(): number;
	max(): number;
	sum(): number;
	count(): number;
	unique(): DataColumn;
	valueCounts(): DataColumn;
	apply(change: (value: never) => unknown): DataColumn;
	gt(other: unknown): DataColumn;
	lt(other: unknown): DataColumn;
	ge(other: unknown): DataColumn;
	le(other: unknown): DataColumn;
	eq(other: unknown): DataColumn;
	ne(other: unknown): DataColumn;
	and(other: unknown): DataColumn;
	or(other: unknown): DataColumn;
	print(): void;
}

/** Rows grouped by the values of one or two columns. */
export interface DataGroups {
	mean(): DataFrame;
	std(): DataFrame;
	count(): DataFrame;
	min(): DataFrame;
	max(): DataFrame;
	sum(): DataFrame;
	agg(what: Record<string, string | string[]>): DataFrame;
	getGroup(keys: unknown[]): DataFrame;
}

/**
 * The data frame that users get and can go on with: a DataFrame of the package danfojs-node, of which this names the usual part, so that our own types do not
 * depend on that package's. `df["char mass (g)"]` is a column. Everything else that the package offers is there at run time.
 */
export interface DataFrame {
	readonly shape: number[];
	readonly columns: string[];
	readonly dtypes: string[];
	readonly index: (string | number)[];
	readonly values: unknown[];
	head(rows?: number): DataFrame;
	tail(rows?: number): DataFrame;
	column(name: string): DataColumn;
	addColumn(
		name: string,
		values: unknown,
		options?: { inplace?: boolean },
	): DataFrame;
	drop(options: {
		columns?: string[];
		index?: (string | number)[];
		inplace?: boolean;
	}): DataFrame;
	rename(
		names: Record<string, string>,
		options?: { inplace?: boolean },
	): DataFrame;
	loc(options: { rows?: unknown; columns?: string[] }): DataFrame;
	iloc(options: { rows?: unknown; columns?: unknown }): DataFrame;
	query(condition: unknown, options?: { inplace?: boolean }): DataFrame;
	sortValues(
		by: string,
		options?: { ascending?: boolean; inplace?: boolean },
	): DataFrame;
	groupby(columns: string[]): DataGroups;
	describe(): DataFrame;
	dropNa(options?: { axis?: 0 | 1; inplace?: boolean }): DataFrame;
	fillNa(value: unknown, options?: { inplace?: boolean }): DataFrame;
	copy(): DataFrame;
	print(): void;
	toString(): string;
	// Columns by name, and the package's other methods: their types are not ours to say.
	// biome-ignore lint/suspicious/noExplicitAny: a column when asked by its name, a method else
	readonly [name: string]: any;
}
