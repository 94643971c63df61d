import { describe, expect, test } from "vitest";
import type { Comparison } from "../../kernel-lib/compare";
import type { Notebook } from "../../kernel-lib/notebook/ipynb";
import { photographMimeType } from "../../kernel-lib/notebook/photographs";
import { resultMimeType } from "../../kernel-lib/notebook/reported";
import { resultOf } from "../../kernel-lib/notebook/result";
import { resultsFile } from "../../kernel-lib/notebook/results-file";
import { withAnalysesTold } from "../../kernel-lib/notebook/run/analyses";
import { runRecord } from "../../kernel-lib/notebook/run-record";
import type { Versions } from "../../kernel-lib/notebook/versions";
import { contentHash, sha256, valueOrThrow } from "../../kernel-lib/quantity";
import { noteSeed } from "../../kernel-lib/stats";
import { comparison, massOf } from "./samples";

interface Parts {
	readonly parameters?: string;
	readonly code?: string;
	readonly hash?: string;
	readonly versions?: readonly Versions[];
	readonly times?: Readonly<Record<string, string>>;
	readonly compared?: Comparison;
}

const versions = { library: "1.0.0", node: "22.12.0", tslab: "1.0.22" };

function executed({
	parameters = 'let sheet = "a/mine.csv"; let marginMgPerG = 25;',
	code = "report(...)",
	hash = "0123456789abcdef",
	versions: used = [versions, versions],
	times,
	compared = comparison(),
}: Parts = {}): Notebook {
	const shown = (data: Record<string, unknown>) => ({
		output_type: "display_data" as const,
		metadata: {},
		data,
	});
	return {
		nbformat: 4,
		nbformat_minor: 5,
		metadata: {},
		cells: [
			{
				cell_type: "code",
				id: "settings",
				metadata: { tags: ["parameters"] },
				source: parameters,
				outputs: [],
				execution_count: 1,
			},
			{
				cell_type: "code",
				id: "work",
				metadata: { execution: times },
				source: code,
				outputs: [
					shown({
						"application/vnd.charledger.input+json": {
							formatVersion: 2,
							file: "mine.csv",
							hash,
							bytes: 3,
							base64: "YWJj",
							versions: used[0],
						},
					}),
					shown({
						[resultMimeType]: {
							...resultOf("verdict", compared, ""),
							versions: used[1],
						},
					}),
				],
				execution_count: 2,
			},
		],
	};
}

function id(parts: Parts): string {
	return valueOrThrow(runRecord(executed(parts))).id;
}

describe("the id of a run", () => {
	test.each<[string, Parts]>([
		["another file", { hash: "fedcba9876543210" }],
		["other code", { code: "report(...) // changed" }],
		[
			"another setting",
			{ parameters: 'let sheet = "a/mine.csv"; let marginMgPerG = 26;' },
		],
		[
			"another version",
			{ versions: [1, 2].map(() => ({ ...versions, node: "24.0.0" })) },
		],
	])("changes with %s", (_, parts) => {
		expect(id(parts)).not.toBe(id({}));
	});

	test.each<[string, Parts]>([
		["the times", { times: { "iopub.execute_input": "2026-01-02T03:04:05Z" } }],
		[
			"the folder of the file",
			{
				parameters:
					'// moved\nlet sheet = "../b/mine.csv"; let marginMgPerG = 25;',
			},
		],
	])("does not change with %s", (_, parts) => {
		expect(id(parts)).toBe(id({}));
	});

	test("is the same whether a value was set in its cell or for the run", () => {
		const injected = executed({
			parameters: 'let sheet = "a/mine.csv"; let marginMgPerG = 1;',
		});
		injected.cells.splice(1, 0, {
			cell_type: "code",
			id: "injected",
			metadata: { tags: ["injected-parameters"] },
			source: "let marginMgPerG = 25;",
			outputs: [],
			execution_count: 1,
		});
		expect(valueOrThrow(runRecord(injected)).id).toBe(id({}));
		expect(resultsFile(injected).comparisons[0].margin.setBy).toBe("user");
	});
});

describe("the record of a run", () => {
	test("has what chance was drawn from before a result was reported, each once, outside the id", () => {
		noteSeed("Monte Carlo", "record of a run");
		noteSeed("Monte Carlo", "record of a run");
		const notebook = executed();
		const { seeds } = resultsFile(notebook);
		expect(seeds.filter((s) => s.seed === "record of a run")).toEqual([
			{ for: "Monte Carlo", seed: "record of a run" },
		]);
		noteSeed("bootstrap", "drawn later");
		expect(resultsFile(notebook).seeds).toEqual(seeds);
		expect(resultsFile(executed()).seeds).toContainEqual({
			for: "bootstrap",
			seed: "drawn later",
		});
		expect(id({})).toBe(valueOrThrow(runRecord(notebook)).id);
	});

	test("names the log of earlier analyses, of which the page tells, with its hash and outside the id", () => {
		const log = "earlier analyses\n";
		const { inputs, id: told } = valueOrThrow(
			runRecord(withAnalysesTold(executed(), "Second analysis.", log)),
		);
		const { inputs: others } = valueOrThrow(runRecord(executed()));
		expect(inputs).toEqual([
			...others,
			{
				file: "analyses.jsonl",
				hash: contentHash(log),
				sha256: sha256(log),
			},
		]);
		expect(told).toBe(id({}));
		const nothing = withAnalysesTold(executed(), "", log);
		expect(valueOrThrow(runRecord(nothing)).inputs).toEqual(others);
	});

	test("has the times as the front end wrote them, and says so where it wrote none", () => {
		const { times } = valueOrThrow(
			runRecord(
				executed({
					times: {
						"iopub.execute_input": "2026-01-02T04:04:05.000000+01:00",
						"shell.execute_reply": "2026-01-02T03:04:06Z",
					},
				}),
			),
		);
		expect(times).toEqual({
			is: "recorded",
			started: "2026-01-02T03:04:05.000Z",
			ended: "2026-01-02T03:04:06.000Z",
		});
		expect(valueOrThrow(runRecord(executed())).times.is).toBe("not known");
	});

	test("is refused for cells of different versions", () => {
		const record = runRecord(
			executed({ versions: [versions, { ...versions, library: "2.0.0" }] }),
		);
		expect(record.ok ? "" : record.problems[0].code).toBe("versions-mixed");
	});

	test("lists the files that results lead back to beside those that are attached, with the whole SHA-256 of what the notebook carries", () => {
		const { inputs } = valueOrThrow(runRecord(executed()));
		// SHA-256 of "abc" and of "abcd": the first by FIPS 180-4, its example; both as sha256sum (GNU coreutils) gives them.
		expect(inputs).toContainEqual({
			file: "mine.csv",
			hash: "0123456789abcdef",
			sha256:
				"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
		});
		// Of a file that only a result leads back to, nothing but the hash is known.
		const led = executed();
		const work = led.cells[1];
		if (work.cell_type === "code")
			work.outputs.push({
				output_type: "display_data",
				metadata: {},
				data: {
					[resultMimeType]: {
						...resultOf("mass", massOf(1, "m"), ""),
						versions,
					},
				},
			});
		expect(
			valueOrThrow(runRecord(led))
				.inputs.filter(({ file }) => file !== "mine.csv")
				.map(({ hash, sha256 }) => [hash, sha256]),
		).toEqual([["0123456789abcdef", ""]]);
	});

	test("lists photographs, after all else, and the id holds them", () => {
		const plain = executed();
		const [settings, work] = plain.cells as [
			Notebook["cells"][0],
			Extract<Notebook["cells"][0], { cell_type: "code" }>,
		];
		const pictured = (hash: string): Notebook => ({
			...plain,
			cells: [
				settings,
				{
					...work,
					outputs: [
						...work.outputs,
						{
							output_type: "display_data",
							metadata: {},
							data: {
								[photographMimeType]: {
									formatVersion: 1,
									file: "a jar.png",
									hash,
									caption: "Flask 1",
									mediaType: "image/png",
								},
								"image/png": "YWJjZA==",
							},
						},
					],
				},
			],
		});
		const one = valueOrThrow(runRecord(pictured("88d4266fd4e6338d")));
		expect(one.inputs.at(-1)).toEqual({
			file: "a jar.png",
			hash: "88d4266fd4e6338d",
			sha256:
				"88d4266fd4e6338d13b845fcf289579d209c897823b9217da3e161936f031589",
		});
		expect(resultsFile(pictured("88d4266fd4e6338d")).inputs).toEqual(
			one.inputs,
		);
		expect(one.id).not.toBe(id({}));
		expect(valueOrThrow(runRecord(pictured("0000"))).id).not.toBe(one.id);
	});

	test("does not know versions where nothing is reported", () => {
		const empty = executed();
		const record = valueOrThrow(
			runRecord({ ...empty, cells: empty.cells.slice(0, 1) }),
		);
		expect(record.versions.is).toBe("not known");
	});
});

describe("results.json", () => {
	test("says what each comparison asked, and who set its margin", () => {
		const summary = (parameters?: string) =>
			resultsFile(executed({ parameters })).comparisons[0];
		expect(summary()).toMatchObject({
			result: "verdict",
			claim: "difference",
			confidence: 0.95,
			margin: { value: 25, unit: "mg/g", setBy: "notebook" },
		});
		// The margin of the comparison is not what the setting says: it stands in the code.
		expect(summary("let marginMgPerG = 30;").margin.setBy).toBe("code");
		expect(summary("let other = 25;").margin.setBy).toBe("code");
	});

	test("says who left the margin unset, or set it as a share of the control", () => {
		const summary = (margin: Comparison["margin"], parameters: string) =>
			resultsFile(
				executed({ parameters, compared: { ...comparison(), margin } }),
			).comparisons[0].margin;
		const unset = { is: "not set" } as const;
		expect(summary(unset, "let marginMgPerG = 0;")).toEqual({
			is: "not set",
			setBy: "notebook",
		});
		expect(summary(unset, "let marginMgPerG = 25;").setBy).toBe("code");
		const tenth = { is: "percent of the control", percent: 10 } as const;
		expect(summary(tenth, "let marginPercent = 10;")).toEqual({
			is: "percent of the control",
			value: 10,
			unit: "%",
			standardUncertainty: 0,
			setBy: "notebook",
		});
		expect(summary(tenth, "let marginMgPerG = 10;").setBy).toBe("code");
	});
});
