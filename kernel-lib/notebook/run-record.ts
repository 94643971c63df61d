/** What was run: inputs, code, settings and versions, and the id that stands for all of these. A function of the executed notebook, whoever ran it. */
import { z } from "zod";
import {
	type Checked,
	contentHash,
	type NotKnown,
	notKnown,
	problem,
	sha256,
} from "../quantity";
import type { DrawnSeed } from "../stats";
import {
	attachedInputs,
	attachedPhotographs,
	reportedResults,
} from "./extract";
import type { CodeCell, Notebook } from "./ipynb";
import { inputsOfLedger } from "./large/packed-ledger";
import { holdsParameters } from "./parameters";
import type { ReportedResult } from "./reported";
import { type Setting, settingsOf } from "./settings";
import type { Versions } from "./versions";

/** A file that went into the results. */
export interface RunInput {
	/** Name without folders. */
	readonly file: string;
	/** The first 16 hex digits of its SHA-256. */
	readonly hash: string;
	/** All 64 of them; "" where the notebook does not carry the file, so that only its hash is known. */
	readonly sha256: string;
}

export type RunVersions = ({ readonly is: "known" } & Versions) | NotKnown;

/** When the cells ran, as the front end wrote it down (UTC). */
export type RunTimes =
	| {
			readonly is: "recorded";
			readonly started: string;
			readonly ended: string;
	  }
	| NotKnown;

export interface RunRecord {
	/** Hash of inputs, code, settings and versions: the same wherever and whenever the same is run. */
	readonly id: string;
	readonly settings: readonly Setting[];
	readonly inputs: readonly RunInput[];
	readonly versions: RunVersions;
	/** What chance was drawn from before the last result was reported. No part of the id: settings and code say it. */
	readonly seeds: readonly DrawnSeed[];
	/** No part of the id. */
	readonly times: RunTimes;
}

interface Carried {
	readonly file: string;
	readonly hash: string;
	readonly base64: string;
}

const withSha256 = ({ file, hash, base64 }: Carried): RunInput => ({
	file,
	hash,
	sha256: sha256(Buffer.from(base64, "base64")),
});

/** Each file once, by name. */
function byName(files: readonly RunInput[]): RunInput[] {
	const byKey = new Map<string, RunInput>();
	for (const one of files) {
		const key = `${one.file} ${one.hash}`;
		if (!byKey.has(key)) byKey.set(key, one);
	}
	return [...byKey]
		.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
		.map(([, input]) => input);
}

const text = z.string();

/** In the metadata of a cell that says something that was read in a file: which file. */
const toldFrom = z.object({
	charledger: z.object({
		toldFrom: z.object({ file: text, hash: text, sha256: text }),
	}),
});

/** The metadata of a cell that says something that was read in a file. */
export function saysToldFrom(
	file: string,
	content: string,
): z.output<typeof toldFrom> {
	return {
		charledger: {
			toldFrom: {
				file,
				hash: contentHash(content),
				sha256: sha256(content),
			},
		},
	};
}

/** Files of which the notebook only tells something: the log of earlier analyses. */
function toldFiles({ cells }: Notebook): RunInput[] {
	return cells.flatMap(({ metadata }) => {
		const { data } = toldFrom.safeParse(metadata);
		return data === undefined ? [] : [data.charledger.toldFrom];
	});
}

/** The files that the notebook carries and those that its results lead back to; then the photographs. */
function inputsOf(
	attached: readonly Carried[],
	photographs: readonly Carried[],
	results: readonly ReportedResult[],
): RunInput[] {
	const read = results
		.flatMap((r) => inputsOfLedger(r.ledger))
		.filter((row) => row.file !== "" && row.hash !== "")
		.map(({ file, hash }): RunInput => ({ file, hash, sha256: "" }));
	return [
		...byName([...attached.map(withSha256), ...read]),
		...byName(photographs.map(withSha256)),
	];
}

/** A setting that names an input file, without the folders: the file counts by its content, wherever it lies. */
function withoutFolders(
	setting: Setting,
	inputs: readonly RunInput[],
): Setting {
	if (setting.is !== "value" || typeof setting.value !== "string")
		return setting;
	const name = setting.value.split(/[\\/]/).pop() ?? "";
	return inputs.some((input) => input.file === name)
		? { ...setting, value: name }
		: setting;
}

function versionsOf(
	carriers: readonly { readonly versions: Versions }[],
): Checked<RunVersions> {
	const all = new Map(
		carriers.map(({ versions }) => [JSON.stringify(versions), versions]),
	);
	const [first] = all.values();
	if (first === undefined)
		return {
			ok: true,
			value: notKnown("the notebook reports nothing and attaches nothing"),
		};
	if (all.size === 1) return { ok: true, value: { is: "known", ...first } };
	const found = [...all.values()]
		.map(
			(v) => `charledger ${v.library} on Node ${v.node} with tslab ${v.tslab}`,
		)
		.join("; ");
	return {
		ok: false,
		problems: [
			problem(
				"versions-mixed",
				{},
				`outputs of different versions (${found})`,
				"one version for all cells",
				"Restart the kernel and run all cells.",
			),
		],
	};
}

/** Each seed once, in the order of first use. */
function seedsOf(results: readonly ReportedResult[]): DrawnSeed[] {
	const all = results.flatMap(({ seeds }) => seeds);
	return [...new Map(all.map((s) => [JSON.stringify(s), s])).values()];
}

function codeOf(notebook: Notebook): string[] {
	return notebook.cells
		.filter((c): c is CodeCell => c.cell_type === "code")
		.filter((c) => !holdsParameters(c) && c.source.trim() !== "")
		.map((c) => c.source);
}

/** Jupyter's own record of when a cell ran, which front ends and our runner leave in its metadata. */
function timesOf(notebook: Notebook): RunTimes {
	const stamps = notebook.cells
		.flatMap((c) => Object.values(c.metadata.execution ?? {}))
		.map((text) => Date.parse(String(text)))
		.filter(Number.isFinite)
		.sort((a, b) => a - b);
	if (stamps.length === 0)
		return notKnown("the front end that ran the cells wrote no times down");
	const text = (time: number): string => new Date(time).toISOString();
	return {
		is: "recorded",
		started: text(stamps[0]),
		ended: text(stamps[stamps.length - 1]),
	};
}

/** The record of a run; a problem where an output cannot be read or cells were run by different versions. */
export function runRecord(notebook: Notebook): Checked<RunRecord> {
	const results = reportedResults(notebook);
	const attached = attachedInputs(notebook);
	const photographs = attachedPhotographs(notebook);
	if (!results.ok) return results;
	if (!attached.ok) return attached;
	if (!photographs.ok) return photographs;
	const versions = versionsOf([...results.value, ...attached.value]);
	if (!versions.ok) return versions;
	const inputs = inputsOf(attached.value, photographs.value, results.value);
	const settings = settingsOf(notebook).map((s) => withoutFolders(s, inputs));
	const what = {
		inputs: inputs.map(({ file, hash }) => ({ file, hash })),
		code: codeOf(notebook),
		// Who set a value does not change what comes out.
		settings: settings.map(({ setBy, ...setting }) => setting),
		versions: versions.value,
	};
	return {
		ok: true,
		value: {
			id: contentHash(JSON.stringify(what)),
			settings,
			// What was run before changes nothing in the results, and so not the id.
			inputs: [...inputs, ...toldFiles(notebook)],
			versions: versions.value,
			seeds: seedsOf(results.value),
			times: timesOf(notebook),
		},
	};
}
