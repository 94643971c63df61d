/** The published schema of results.json. */
import { z } from "zod";
import type { ResultsFile } from "./results-file";
import {
	claim,
	content,
	margin,
	notKnown,
	number,
	seeds,
	statedResidue,
	text,
	versions,
} from "./schema";

const setBy = z.enum(["user", "template", "notebook"]);

const setting = z.discriminatedUnion("is", [
	z.object({ name: text, setBy, is: z.literal("value"), value: z.json() }),
	z.object({ name: text, setBy, is: z.literal("computed"), code: text }),
]);

const comparisonSummary = z.object({
	result: text,
	claim,
	margin: margin.and(z.object({ setBy: z.enum([...setBy.options, "code"]) })),
	confidence: number,
	statedResidue,
});

/** results.json: what was run, and every reported result, in the order in which it was reported. */
const resultsFile: z.ZodType<ResultsFile> = z.object({
	formatVersion: z.literal(2),
	runId: text,
	settings: z.array(setting),
	comparisons: z.array(comparisonSummary),
	inputs: z.array(z.object({ file: text, hash: text, sha256: text })),
	versions: z.discriminatedUnion("is", [
		z.object({ is: z.literal("known"), ...versions }),
		notKnown,
	]),
	seeds,
	times: z.discriminatedUnion("is", [
		z.object({ is: z.literal("recorded"), started: text, ended: text }),
		notKnown,
	]),
	analyses: text,
	results: z.array(z.object({ name: text, note: text, content })),
});

/** The published schema of results.json (JSON Schema 2020-12), as it stands in data/schemas/results.v2.json. */
export function resultsFileSchema(): Record<string, unknown> {
	return {
		...z.toJSONSchema(resultsFile),
		title: "Charledger results",
		description:
			"results.json as charledger run writes it: the id of the run (a hash of inputs, code, settings and versions), what these were, what each comparison asked, and every reported result, in the order in which it was reported. Times stand outside the id.",
	};
}
