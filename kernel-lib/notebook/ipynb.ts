/** Notebook files, nbformat 4.5: types, reading with checks, writing as Jupyter writes them. */
import { z } from "zod";
import { type Checked, problem } from "../quantity";

const multiline = z
	.union([z.string(), z.array(z.string())])
	.transform((text) => (typeof text === "string" ? text : text.join("")));
const record = z.record(z.string(), z.unknown());

/** Texts of a bundle come as one string or as lines; JSON types come as they are. */
const bundle = record.transform((data) =>
	Object.fromEntries(
		Object.entries(data).map(([type, value]) => [
			type,
			Array.isArray(value) &&
			!/[/+]json$/.test(type) &&
			value.every((line) => typeof line === "string")
				? value.join("")
				: value,
		]),
	),
);

const output = z.discriminatedUnion("output_type", [
	z.looseObject({
		output_type: z.literal("stream"),
		name: z.string(),
		text: multiline,
	}),
	z.looseObject({
		output_type: z.literal("display_data"),
		data: bundle,
		metadata: record,
	}),
	z.looseObject({
		output_type: z.literal("execute_result"),
		data: bundle,
		metadata: record,
		execution_count: z.number().nullable(),
	}),
	z.looseObject({
		output_type: z.literal("error"),
		ename: z.string(),
		evalue: z.string(),
		traceback: z.array(z.string()),
	}),
]);

const id = z
	.string()
	.regex(/^[a-zA-Z0-9_-]{1,64}$/)
	.optional();
const metadata = z.looseObject({ tags: z.array(z.string()).optional() });

const cell = z.discriminatedUnion("cell_type", [
	z.looseObject({
		cell_type: z.literal("markdown"),
		id,
		metadata,
		source: multiline,
	}),
	z.looseObject({
		cell_type: z.literal("raw"),
		id,
		metadata,
		source: multiline,
	}),
	z.looseObject({
		cell_type: z.literal("code"),
		id,
		metadata,
		source: multiline,
		outputs: z.array(output),
		execution_count: z.number().nullable(),
	}),
]);

const notebook = z.looseObject({
	nbformat: z.literal(4),
	nbformat_minor: z.number(),
	metadata: record,
	cells: z.array(cell),
});

export type Output = z.output<typeof output>;
export type Cell = z.output<typeof cell>;
export type CodeCell = Extract<Cell, { cell_type: "code" }>;
export type Notebook = z.output<typeof notebook>;

/** Reads a notebook from its text. All problems at once. */
export function readNotebook(text: string, file: string): Checked<Notebook> {
	let json: unknown;
	try {
		json = JSON.parse(text);
	} catch (error) {
		return {
			ok: false,
			problems: [
				problem(
					"notebook-not-json",
					{ file },
					`text that is not JSON (${(error as Error).message})`,
					"a notebook file (.ipynb)",
					"Save it again from Jupyter.",
				),
			],
		};
	}
	const parsed = notebook.safeParse(json);
	if (parsed.success) return { ok: true, value: withIds(parsed.data) };
	return {
		ok: false,
		problems: parsed.error.issues.map((issue) =>
			problem(
				"notebook-not-valid",
				{ file },
				`something at ${issue.path.join(".") || "the top"} that no notebook has (${issue.message})`,
				"a notebook in the format nbformat 4",
				"Open it in Jupyter and save it again.",
			),
		),
	};
}

/** Cells of notebooks older than 4.5 have no ids: they get their place in the notebook as one, the same in every run. */
function withIds(nb: Notebook): Notebook {
	return {
		...nb,
		nbformat_minor: Math.max(nb.nbformat_minor, 5),
		cells: nb.cells.map((c, i) => ({ ...c, id: c.id ?? `cell-${i + 1}` })),
	};
}

/** Texts as lists of lines, so that a difference between two versions is a difference of lines. */
function lines(text: string): string[] {
	return text === "" ? [] : text.split(/(?<=\n)/);
}

function writableData(data: Record<string, unknown>): Record<string, unknown> {
	return Object.fromEntries(
		Object.entries(data).map(([type, value]) => [
			type,
			typeof value === "string" && !/[/+]json$/.test(type)
				? lines(value)
				: value,
		]),
	);
}

function writableOutput(o: Output): Record<string, unknown> {
	switch (o.output_type) {
		case "stream":
			return { ...o, text: lines(o.text) };
		case "display_data":
		case "execute_result":
			return { ...o, data: writableData(o.data) };
		case "error":
			return o;
	}
}

function writableCell(c: Cell): Record<string, unknown> {
	return c.cell_type === "code"
		? {
				...c,
				source: lines(c.source),
				outputs: c.outputs.map(writableOutput),
			}
		: { ...c, source: lines(c.source) };
}

function sorted(value: unknown): unknown {
	if (Array.isArray(value)) return value.map(sorted);
	if (typeof value !== "object" || value === null) return value;
	return Object.fromEntries(
		Object.entries(value)
			.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
			.map(([key, child]) => [key, sorted(child)]),
	);
}

/** The file's text, in Jupyter's own layout (sorted keys, one space), so that saving from Jupyter changes nothing. */
export function notebookText(nb: Notebook): string {
	const writable = sorted({ ...nb, cells: nb.cells.map(writableCell) });
	return `${JSON.stringify(writable, null, 1)}\n`;
}

export function hasTag(c: Cell, tag: string): boolean {
	return c.metadata.tags?.includes(tag) ?? false;
}

/** Title of a notebook: its first heading. */
export function titleOf(nb: Notebook): string {
	for (const c of nb.cells) {
		const heading =
			c.cell_type === "markdown" ? /^#\s+(.+)$/m.exec(c.source) : null;
		if (heading !== null) return heading[1].trim();
	}
	return "Notebook";
}
