/** Sentences that were reported under a name, for whoever shows them: page and terminal. */
import { mustNot } from "../cautions";
import { headNames, type ReportedResult } from "./reported";

/** Statements and texts reported under a name. */
export function statements(
	results: readonly ReportedResult[],
	name: string,
): readonly string[] {
	return results.flatMap(({ name: own, content }) => {
		if (own !== name) return [];
		if (content.kind === "statements") return content.statements;
		return content.kind === "text" ? [content.text] : [];
	});
}

/** The cautions, and apart from them what the sheet brings together that must not be done. */
export function cautionsApart(results: readonly ReportedResult[]): {
	readonly forbidden: readonly string[];
	readonly others: readonly string[];
} {
	const all = statements(results, headNames.cautions);
	return {
		forbidden: all.filter((text) => text.startsWith(mustNot)),
		others: all.filter((text) => !text.startsWith(mustNot)),
	};
}
