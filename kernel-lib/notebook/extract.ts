/** What the outputs of an executed notebook hold, whoever ran it. */
import type { z } from "zod";
import { type FigureDescription, figureMimeType, readFigure } from "../figures";
import {
	type Checked,
	type LedgerRow,
	type Problem,
	problem,
} from "../quantity";
import { type AttachedInput, inputMimeType } from "./attach";
import type { CodeCell, Notebook, Output } from "./ipynb";
import { linesOf } from "./large/packed-ledger";
import { type AttachedPhotograph, photographMimeType } from "./photographs";
import { type ReportedResult, resultMimeType } from "./reported";
import { inputSchema, photographSchema, resultSchema } from "./schema";

function dataOf(output: Output): Record<string, unknown> {
	return output.output_type === "display_data" ||
		output.output_type === "execute_result"
		? output.data
		: {};
}

function all<T, Taken = T>(
	notebook: Notebook,
	type: string,
	schema: z.ZodType<T>,
	take: (parsed: T, data: Record<string, unknown>) => Taken,
): Checked<readonly Taken[]> {
	const problems: Problem[] = [];
	const found: Taken[] = [];
	const cells = notebook.cells.filter(
		(c): c is CodeCell => c.cell_type === "code",
	);
	for (const cell of cells) {
		for (const output of cell.outputs) {
			const data = dataOf(output);
			if (!(type in data)) continue;
			const parsed = schema.safeParse(data[type]);
			if (parsed.success) found.push(take(parsed.data, data));
			else
				problems.push(
					problem(
						"result-not-readable",
						{ column: cell.id ?? "" },
						`an output of the type ${type} whose "${parsed.error.issues[0].path.join(".")}" is not right`,
						parsed.error.issues[0].message,
						"Run the notebook again with this version.",
					),
				);
		}
	}
	return problems.length > 0
		? { ok: false, problems }
		: { ok: true, value: found };
}

const itself = <T>(parsed: T): T => parsed;

/** A result with the figure that travels beside it, where it has one that can be drawn. */
export interface ResultInNotebook extends ReportedResult {
	readonly figure?: FigureDescription;
}

/** Every reported result, in the order of the notebook. */
export function reportedResults(
	notebook: Notebook,
): Checked<readonly ResultInNotebook[]> {
	return all(notebook, resultMimeType, resultSchema, (parsed, data) => {
		const figure = readFigure(data[figureMimeType]);
		return figure.ok ? { ...parsed, figure: figure.value } : parsed;
	});
}

/** Every input file that the notebook carries, each once. */
export function attachedInputs(
	notebook: Notebook,
): Checked<readonly AttachedInput[]> {
	const inputs = all(notebook, inputMimeType, inputSchema, itself);
	return inputs.ok
		? {
				ok: true,
				value: inputs.value.filter(
					(input, i, list) =>
						list.findIndex(
							(other) => other.file === input.file && other.hash === input.hash,
						) === i,
				),
			}
		: inputs;
}

/** Every photograph that the notebook carries. */
export function attachedPhotographs(
	notebook: Notebook,
): Checked<readonly (AttachedPhotograph & { readonly base64: string })[]> {
	return all(
		notebook,
		photographMimeType,
		photographSchema,
		(photograph, data) => ({
			...photograph,
			base64: String(data[photograph.mediaType] ?? ""),
		}),
	);
}

/** The ancestors of every reported result, each once, one after the other. */
export function* ledgerOf(
	results: readonly ReportedResult[],
): Generator<LedgerRow> {
	const told = new Set<string>();
	for (const { ledger } of results)
		for (const row of linesOf(ledger)) {
			if (told.has(row.id)) continue;
			told.add(row.id);
			yield row;
		}
}
