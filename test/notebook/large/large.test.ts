import { createHash } from "node:crypto";
import { gunzipSync } from "node:zlib";
import papaparse from "papaparse";
import { describe, expect, it } from "vitest";
import { bundleOf } from "../../../kernel-lib/notebook/display";
import type { Notebook } from "../../../kernel-lib/notebook/ipynb";
import {
	insideAsRead,
	wholeLedger,
	wholeRows,
} from "../../../kernel-lib/notebook/large/limits";
import {
	bytesOf,
	lengthInside,
	packed,
	piecesOf,
} from "../../../kernel-lib/notebook/large/packed-file";
import {
	isPacked,
	ledgerPart,
	linesOf,
	type PackedLedger,
} from "../../../kernel-lib/notebook/large/packed-ledger";
import {
	withLedgerPlaced,
	withTablesPlaced,
} from "../../../kernel-lib/notebook/large/placing";
import { shownPart } from "../../../kernel-lib/notebook/large/shown-part";
import { pageHtml } from "../../../kernel-lib/notebook/page";
import { resultMimeType } from "../../../kernel-lib/notebook/reported";
import { resultOf } from "../../../kernel-lib/notebook/result";
import {
	ledgerText,
	resultsFile,
} from "../../../kernel-lib/notebook/results-file";
import { runRecord } from "../../../kernel-lib/notebook/run-record";
import {
	type StructuredTable,
	structuredTable,
	tableMimeType,
} from "../../../kernel-lib/notebook/structured-table";
import {
	type LedgerRow,
	ProblemError,
	type Table,
	table,
	valueOrThrow,
} from "../../../kernel-lib/quantity";
import { massOf } from "../samples";

/** Flasks whose mass goes through every value once, in an order that is not that of the rows. */
function flasks(count: number): Table {
	return table(
		"Flasks of a trial",
		["flask", "mass (mg)", "titre (mL)", "lid"],
		Array.from({ length: count }, (_, i) => [
			`F${i}`,
			massOf(1 + ((7 * i) % count), "m"),
			i === 5 ? "" : 10 + (i % 3),
			i % 2 === 0 ? "yes" : "no",
		]),
		["A note of the table."],
	);
}

function large(count: number) {
	const part = shownPart(flasks(count));
	if (part.is === "whole") throw new Error("shown whole");
	return part;
}

const digest = (bytes: Buffer | string): string =>
	createHash("sha256").update(bytes).digest("hex");

describe("a table", () => {
	it(`is shown whole up to ${wholeRows} rows`, () => {
		const small = flasks(wholeRows);
		expect(shownPart(small)).toEqual({ is: "whole", table: small });
		expect(structuredTable(small).large).toBeUndefined();
		expect(shownPart(flasks(wholeRows + 1)).is).toBe("summary and extremes");
	});

	it("beyond shows the rows with the lowest and the highest number of each column, the first of those alike", () => {
		const { table: shown } = large(100);
		// Masses 1 and 100 mg: 7 i = 0 and 99 modulo 100, i = 0 and 57; titres 10 and 12: rows 0 and 2.
		expect(shown.rows.map(([flask]) => flask)).toEqual(["F0", "F2", "F57"]);
		expect(shown.notes[0]).toBe("A note of the table.");
		expect(shown.notes[1]).toMatch(
			/^Of 100 rows the 3 are shown .* All 100 are in the file flasks-of-a-trial-[0-9a-f]{8}\.csv\.gz/,
		);
	});

	it("beyond tells of each column what it holds", () => {
		const rows = large(100).summary.rows.map((row) => row.map(String));
		expect(rows.map(([heading, filled]) => [heading, filled])).toEqual([
			["flask", "100"],
			["mass (mg)", "100"],
			["titre (mL)", "99"],
			["lid", "100"],
		]);
		expect(rows[0][5]).toBe("all different");
		expect(rows[2].slice(2, 5)).toEqual(["10", "11", "12"]);
		expect(rows[3].slice(2)).toEqual(["", "", "", "yes (50), no (50)"]);
	});

	it("beyond has all rows in a file, with every digit and its hash", () => {
		const full = flasks(100);
		const { whole } = large(100);
		const bytes = Buffer.from(bytesOf(whole));
		expect(digest(bytes)).toBe(whole.sha256);
		const { data } = papaparse.parse<string[]>(
			gunzipSync(bytes).toString("utf8"),
			{ skipEmptyLines: true },
		);
		expect(data[0]).toEqual([
			"flask",
			"mass (mg)",
			"mass (mg): value",
			"mass (mg): unit",
			"mass (mg): standard uncertainty",
			"titre (mL)",
			"lid",
		]);
		expect(data).toHaveLength(102);
		expect(data[101]).toEqual(["A note of the table."]);
		full.rows.forEach(([flask, mass], i) => {
			const q = mass as ReturnType<typeof massOf>;
			expect(data[i + 1][0]).toBe(flask);
			expect(Number(data[i + 1][2])).toBe(q.value);
			expect(data[i + 1][3]).toBe(q.unit);
			expect(Number(data[i + 1][4])).toBe(q.standardUncertainty);
		});
	});

	it("of words alone has no extremes and is shown whole", () => {
		const words = table(
			"Columns",
			["name"],
			Array.from({ length: 200 }, () => ["a word"]),
		);
		expect(shownPart(words).is).toBe("whole");
	});

	it("shows in a notebook what it shows on a page", () => {
		const bundle = bundleOf(flasks(100)) as Record<string, string>;
		expect(bundle["text/html"]).toContain("all 100 rows in short");
		expect(bundle["text/plain"]).toContain("Of 100 rows the 3 are shown");
		expect(bundle["text/plain"]).not.toContain("F50 ");
	});
});

describe("a packed file", () => {
	it("is one gzip file, in pieces that no line is cut by", () => {
		const lines = Array.from(
			{ length: 30_000 },
			(_, i) => `${"x".repeat(90)}${i}\n`,
		);
		const file = packed(() => "f", lines);
		expect(file.inside.length).toBeGreaterThan(1);
		expect(gunzipSync(bytesOf(file)).toString("utf8")).toBe(lines.join(""));
		for (const piece of piecesOf(file)) expect(piece.endsWith("\n")).toBe(true);
		expect(file.sha256).toBe(digest(Buffer.from(bytesOf(file))));
	});

	it("of nothing is an empty one", () => {
		expect(gunzipSync(bytesOf(packed(() => "f", []))).length).toBe(0);
	});
});

function ledgerRow(i: number): LedgerRow {
	return {
		id: `id${i}`,
		symbol: "m",
		meaning: `mass of flask ${i}`,
		value: i,
		unit: "g",
		standardUncertainty: 0,
		formula: "",
		numbers: "",
		inputs: [],
		file: "sheet.csv",
		hash: "h",
		sheet: "",
		row: i + 2,
		column: "char mass (g)",
		source: "",
	};
}

const ledgerRows = (count: number): LedgerRow[] =>
	Array.from({ length: count }, (_, i) => ledgerRow(i));

describe("a ledger", () => {
	it(`is a list up to ${wholeLedger} lines, beyond it is packed and gives the same lines`, () => {
		const most = ledgerRows(wholeLedger);
		expect(ledgerPart(most)).toEqual(most);
		const more = ledgerRows(wholeLedger + 1);
		const part = ledgerPart(more) as PackedLedger;
		expect(isPacked(part)).toBe(true);
		expect(part.lines).toBe(wholeLedger + 1);
		expect(part.inputs).toEqual([{ file: "sheet.csv", hash: "h" }]);
		expect([...linesOf(part)]).toEqual(more);
	});

	it("that lies beside says so instead of being empty", () => {
		const part = ledgerPart(ledgerRows(wholeLedger + 1)) as PackedLedger;
		const away = { ...part, rows: { ...part.rows, inside: [] } };
		expect(() => [...linesOf(away)]).toThrow(ProblemError);
	});
});

/** An executed notebook with a large table, shown and reported, and a large ledger. */
function executed(): Notebook {
	const full = flasks(100);
	const result = {
		...resultOf("masses", full, ""),
		ledger: ledgerPart(ledgerRows(wholeLedger + 1)),
	};
	const shown = (data: Record<string, unknown>) => ({
		output_type: "display_data" as const,
		data,
		metadata: {},
	});
	return {
		nbformat: 4,
		nbformat_minor: 5,
		metadata: {},
		cells: [
			{
				cell_type: "code",
				id: "one",
				metadata: {},
				source: "flasks",
				execution_count: 1,
				outputs: [
					shown({ [tableMimeType]: structuredTable(flasks(101)) }),
					shown({ [resultMimeType]: result, "text/plain": "masses" }),
				],
			},
		],
	};
}

const assets = { plotly: "" };

describe("an executed notebook with large tables and a large ledger", () => {
	const notebook = executed();
	const { files } = withTablesPlaced(notebook, 0);
	const [small, big] = [...files].map(lengthInside).sort((a, b) => a - b);

	it("keeps tables inside up to the room, the smallest first, and has all of them as files", () => {
		const placedIn = (room: number): number => {
			const placed = withTablesPlaced(notebook, room);
			expect(placed.files).toEqual(files);
			return withTablesPlaced(placed.notebook, 0).files.filter(
				(f) => f.inside.length > 0,
			).length;
		};
		expect(files).toHaveLength(2);
		expect(placedIn(small + big)).toBe(2);
		expect(placedIn(small + big - 1)).toBe(1);
		expect(placedIn(small)).toBe(1);
		expect(placedIn(small - 1)).toBe(0);
	});

	it("keeps its ledger up to the room, else names the one beside and keeps its run id", () => {
		const file = { name: "ledger.csv", sha256: digest(ledgerText(notebook)) };
		expect(withLedgerPlaced(notebook, 5_000_000, file)).toBe(notebook);
		const without = withLedgerPlaced(notebook, small + big, file);
		expect(JSON.stringify(without)).toContain(file.sha256);
		expect(() => ledgerText(without)).toThrow("ledger.csv");
		expect(valueOrThrow(runRecord(without)).id).toBe(
			valueOrThrow(runRecord(notebook)).id,
		);
	});

	it("makes a page that says where everything is, inside or beside", () => {
		const hash = digest(ledgerText(notebook));
		const inside = pageHtml(notebook, assets);
		const beside = pageHtml(withTablesPlaced(notebook, 0).notebook, assets, 0);
		for (const page of [inside, beside]) {
			expect(page).toContain(`has ${wholeLedger + 1} lines`);
			expect(page).toContain(`(SHA-256 ${hash})`);
			expect(page).not.toContain('class="ledger"');
			for (const { name, sha256 } of files) {
				expect(page).toContain(name);
				expect(page).toContain(sha256);
			}
		}
		expect(inside.split('href="data:application/gzip')).toHaveLength(4);
		expect(beside).not.toContain('href="data:application/gzip');
	});

	it("has a results file that names the table's file and does not repeat it", () => {
		const [{ content }] = resultsFile(notebook).results;
		const { large: told } = (content as { table: StructuredTable }).table;
		expect(told?.whole.inside).toEqual([]);
		expect(files.map((f) => f.sha256)).toContain(told?.whole.sha256);
	});
});

describe("an input file", () => {
	const attached = (length: number): Notebook => {
		const bytes = Buffer.alloc((length / 4) * 3, "a");
		const base64 = bytes.toString("base64");
		expect(base64).toHaveLength(length);
		const input = {
			formatVersion: 2,
			file: "sheet.csv",
			hash: "h",
			bytes: bytes.length,
			base64,
			versions: { library: "1", node: "1", tslab: "1" },
		};
		const [cell] = executed().cells;
		return {
			...executed(),
			cells: [
				{
					...cell,
					outputs: [
						{
							output_type: "display_data",
							data: { "application/vnd.charledger.input+json": input },
							metadata: {},
						},
					],
				} as Notebook["cells"][0],
			],
		};
	};

	it(`is on the page as it was read up to ${insideAsRead} characters, beyond compressed`, () => {
		expect(pageHtml(attached(insideAsRead), assets)).toContain(
			'download="sheet.csv"',
		);
		expect(pageHtml(attached(insideAsRead + 4), assets)).toContain(
			'download="sheet.csv.gz"',
		);
	});
});
