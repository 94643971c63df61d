/** The forms of our own MIME types, for reading notebooks that somebody else may have run. */
import { z } from "zod";
import type { AttachedInput } from "./attach";
import type { AttachedPhotograph } from "./photographs";
import type { ReportedContent, ReportedResult } from "./reported";
import type { StructuredTable } from "./structured-table";

export const text = z.string();
export const number = z.number();
const texts = z.array(text);
const word = z.enum([
	"no difference that matters",
	"higher",
	"lower",
	"cannot tell",
]);
export const value = { value: number, unit: text, standardUncertainty: number };

const tableCell = z.discriminatedUnion("is", [
	z.object({ is: z.literal("text"), text }),
	z.object({ is: z.literal("number"), text, value: number }),
	z.object({
		is: z.enum(["value", "at least", "at most"]),
		text,
		...value,
		line: text.optional(),
	}),
]);

const packedFile = z.object({
	name: text,
	sha256: z.string().regex(/^[0-9a-f]{64}$/),
	inside: z.array(z.base64()),
});

const tableParts = {
	formatVersion: z.literal(1),
	title: text,
	columns: texts,
	rows: z.array(z.array(tableCell)),
	notes: texts,
};

export const tableSchema: z.ZodType<StructuredTable> = z.object({
	...tableParts,
	large: z
		.object({ summary: z.object(tableParts), whole: packedFile })
		.optional(),
});

const difference = z.discriminatedUnion("is", [
	z.object({
		is: z.literal("estimate"),
		estimate: number,
		standardError: number,
		low: number,
		high: number,
		oneSided: z.object({ low: number, high: number }),
		degreesOfFreedom: number,
		adjustedP: number,
	}),
	z.object({ is: z.literal("at least"), limit: number }),
	z.object({ is: z.literal("at most"), limit: number }),
	z.object({ is: z.literal("not available"), because: text }),
]);

const replicates = z.discriminatedUnion("is", [
	z.object({ is: z.literal("enough") }),
	z.object({ is: z.literal("number"), units: number, because: text }),
	z.object({ is: z.literal("at least"), units: number, because: text }),
	z.object({ is: z.literal("not given"), because: text }),
]);

const finding = z.object({
	condition: text,
	is: z.enum(["recorded", "assumed"]),
	feigns: z.enum(["higher", "lower", "either", "nothing"]),
	treated: text,
	untreated: text,
});

export const notKnown = z.object({ is: z.literal("not known"), because: text });

export const claim = z.enum(["difference", "at least the margin more"]);

const interval = z.object({ low: number, high: number });

const wordGround = z.object({
	claim,
	judged: z.array(z.object({ interval, within: interval })),
	provable: z.enum(["any", "higher", "lower"]),
	forbidden: z.array(
		z.object({
			word,
			because: text,
			upTo: z.union([z.literal("every margin"), number]),
		}),
	),
	because: text,
});

const verdict = z.object({
	treatment: text,
	control: text,
	word,
	measuringErrorOnly: z.boolean(),
	sentence: text,
	inShort: text,
	reasons: texts,
	conditions: z.array(finding),
	difference,
	reckoned: z.object({
		lines: texts,
		weighed: z.array(
			z.object({
				flask: text,
				treatment: text,
				weight: number,
				uptake: number,
				line: text,
			}),
		),
	}),
	wordGround,
	margin: z.discriminatedUnion("is", [
		z.object({ is: z.literal("value"), value: number }),
		notKnown,
	]),
	exceedsMargin: z.boolean(),
	replicates,
	comparableDose: text,
	withoutDeviations: word,
	withDeviations: word,
});

const decision = z.object({
	name: text,
	taken: text,
	usual: text,
	idle: text,
});

const group = z.object({
	treatment: text,
	units: number,
	flasks: number,
	boundFlasks: texts,
	mean: number,
	low: number,
	high: number,
	residue: number,
	left: number,
	is: z.enum(["value", "at least", "at most"]),
});

export const margin = z.discriminatedUnion("is", [
	z.object({ is: z.enum(["uptake", "percent of the control"]), ...value }),
	z.object({ is: z.literal("not set") }),
]);

export const statedResidue = z.object({
	is: z.enum(["stated", "from the trial"]),
	...value,
});

export const versions = { library: text, node: text, tslab: text };

export const seeds = z.array(z.object({ for: text, seed: text }));

export const content: z.ZodType<ReportedContent> = z.discriminatedUnion(
	"kind",
	[
		z.object({
			kind: z.literal("quantity"),
			...value,
			interval: z.object({
				confidence: number,
				low: number,
				high: number,
				coverageFactor: number,
			}),
		}),
		z.object({
			kind: z.literal("bound"),
			side: z.enum(["at least", "at most"]),
			because: text,
			...value,
		}),
		z.object({
			kind: z.literal("comparison"),
			claim,
			probe: text,
			margin,
			atThreeMargins: tableSchema,
			confidence: number,
			statedResidue,
			scope: z.enum(["treatment", "these lots", "measuring error only"]),
			verdicts: z.array(verdict),
			decisions: z.array(decision),
			groups: z.array(group),
			beforeQuoting: texts,
			method: texts,
			degreesOfFreedom: number,
			pooledDeviation: number,
			scatter: tableSchema.optional(),
		}),
		z.object({
			kind: z.literal("answer"),
			finding: text,
			figure: text,
			tables: z.array(tableSchema),
			statements: texts,
		}),
		z.object({ kind: z.literal("table"), table: tableSchema }),
		z.object({ kind: z.literal("figure"), alt: text }),
		z.object({ kind: z.literal("number"), value: number }),
		z.object({ kind: z.literal("text"), text }),
		z.object({ kind: z.literal("statements"), statements: texts }),
	],
);

const ledgerRow = z.object({
	id: text,
	symbol: text,
	meaning: text,
	value: number,
	unit: text,
	standardUncertainty: number,
	formula: text,
	numbers: text,
	inputs: texts,
	file: text,
	hash: text,
	sheet: text,
	row: number,
	column: text,
	source: text,
});

export const resultSchema: z.ZodType<ReportedResult> = z.object({
	formatVersion: z.literal(2),
	name: text,
	note: text,
	content,
	ledger: z.union([
		z.array(ledgerRow),
		z.object({
			lines: number,
			inputs: z.array(z.object({ file: text, hash: text })),
			rows: packedFile,
		}),
	]),
	versions: z.object(versions),
	// A notebook that was run before they were written down has none.
	seeds: seeds.default([]),
});

export const inputSchema: z.ZodType<AttachedInput> = z.object({
	formatVersion: z.literal(2),
	file: text,
	hash: text,
	bytes: number,
	base64: z.base64(),
	versions: z.object(versions),
});

export const photographSchema: z.ZodType<AttachedPhotograph> = z.object({
	formatVersion: z.literal(1),
	file: text,
	hash: text,
	caption: text,
	mediaType: z.enum(["image/jpeg", "image/png"]),
});
