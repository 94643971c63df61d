import { parse } from "papaparse";
import { describe, expect, test } from "vitest";
import {
	exact,
	input,
	type LedgerRow,
	ledgerCsv,
	ledgerRows,
	ledgerTable,
	minus,
	named,
	normal,
	type Quantity,
	scaled,
	stated,
	tableText,
	working,
} from "../../kernel-lib/quantity/index";
import { uptakeOf } from "./example-chain";

const flaskRows = [2, 3, 4];
const columns = [
	"titre start 1 (mL)",
	"titre end 1 (mL)",
	"titre start 2 (mL)",
	"titre end 2 (mL)",
	"dose (mL)",
	"char mass (g)",
];

/** Everything that a run of three flasks reports, with one cell changed. */
function reported(
	row: number,
	change: Readonly<Record<string, number>>,
): Quantity[] {
	const flasks = flaskRows.map((r) => uptakeOf(r, r === row ? change : {}));
	return [
		...flasks.map((f) => f.uptake),
		named(
			minus(flasks[0].uptake, flasks[1].uptake),
			"Δq",
			"difference of two flasks",
		),
	];
}

/** Lines that depend on a cell, found in the ledger itself. */
function downstream(
	rows: readonly LedgerRow[],
	row: number,
	column: string,
): Set<number> {
	const touched = new Set<string>();
	const places = new Set<number>();
	rows.forEach((line, i) => {
		if (
			(line.row === row && line.column === column) ||
			line.inputs.some((id) => touched.has(id))
		) {
			touched.add(line.id);
			places.add(i);
		}
	});
	return places;
}

describe("changing one cell of the sheet", () => {
	test.each(
		flaskRows.flatMap((row) => columns.map((column) => ({ row, column }))),
	)(
		"$column of row $row changes exactly the values downstream of it",
		({ row, column }) => {
			const before = ledgerRows(reported(row, {}));
			const after = ledgerRows(reported(row, { [column]: 3.21 }));
			expect(after.map((r) => [r.symbol, r.formula])).toEqual(
				before.map((r) => [r.symbol, r.formula]),
			);
			const changed = new Set<number>();
			before.forEach((line, i) => {
				if (line.value !== after[i].value) changed.add(i);
			});
			expect(changed).toEqual(downstream(before, row, column));
			// The cell itself, steps, the uptake; not the other flasks.
			expect(changed.size).toBeGreaterThanOrEqual(2);
			expect(changed.size).toBeLessThan(before.length / 2);
		},
	);
});

describe("ledger", () => {
	const rows = ledgerRows([uptakeOf(2).uptake]);

	test("operands come before results, and every id that a formula uses is a line", () => {
		const seen = new Set<string>();
		for (const row of rows) {
			for (const id of row.inputs) expect(seen.has(id)).toBe(true);
			seen.add(row.id);
		}
		expect(seen.size).toBe(rows.length);
		expect(rows.at(-1)?.symbol).toBe("q");
	});

	test("only named steps and inputs have lines; the rest is in their formulas", () => {
		expect(rows.filter((r) => r.formula !== "").map((r) => r.formula)).toEqual([
			"c_I2 × V_dose",
			"V_end − V_start + δ_burette",
			"V_end − V_start + δ_burette",
			"mean(V_titre, V_titre)",
			"c_thio × V_t / 2",
			"(n_dosed − n_left) × M_I2 / m",
		]);
	});

	test("a reading knows its file, sheet, row and column; a constant its source", () => {
		const char = rows.find((r) => r.symbol === "m");
		expect(char).toMatchObject({
			file: "run.csv",
			hash: "0123456789abcdef",
			sheet: "flasks",
			row: 2,
			column: "char mass (g)",
			source: "",
		});
		const molar = rows.find((r) => r.symbol === "M_I2");
		expect(molar).toMatchObject({ row: 0, source: "from memory" });
	});

	test("ids depend on content alone: a second reading of the sheet gives the same ledger", () => {
		expect(ledgerRows([uptakeOf(2).uptake])).toEqual(rows);
		const typed = (): readonly string[] =>
			ledgerRows([
				scaled(input("mass", 3, "g", normal(0.1), { symbol: "m" }), 2),
			]).map((r) => r.id);
		expect(typed()).toEqual(typed());
	});

	test("two numbers typed in alike are two lines", () => {
		const typed = (): Quantity<"mass"> =>
			input("mass", 3, "g", normal(0.1), { symbol: "m" });
		const [a, b] = [typed(), typed()];
		expect(ledgerRows([minus(a, b)])).toHaveLength(3);
		expect(ledgerRows([minus(a, a)])).toHaveLength(2);
	});

	test("CSV holds every line, quotes what needs it and starts no formula in a spreadsheet", () => {
		const evil = input("mass", -1.5, "g", exact, {
			symbol: "m",
			meaning: '=HYPERLINK("http://x")',
			source: stated('a "quoted", comma'),
		});
		const text = ledgerCsv(ledgerRows([evil, uptakeOf(2).uptake]));
		const parsed = parse<Record<string, string>>(text.trim(), { header: true });
		expect(parsed.errors).toEqual([]);
		expect(parsed.data).toHaveLength(rows.length + 1);
		expect(parsed.data[0].meaning).toBe('\'=HYPERLINK("http://x")');
		expect(parsed.data[0].source).toBe('a "quoted", comma');
		expect(parsed.data[0].value).toBe("-1.5");
		expect(parsed.data[0].row).toBe("");
	});

	test("the tree goes down to file, row and column", () => {
		const tree = working(uptakeOf(2).uptake).trace;
		const lines = tree.split("\n");
		expect(lines[0]).toBe(
			"q = 158.09 mg/g (u 0.91 mg/g), uptake; q = (n_dosed − n_left) × M_I2 / m",
		);
		expect(tree).toContain(
			'V_end = 12.500 mL (u 0.029 mL), titre end 1 (mL) [run.csv, sheet "flasks", row 2, column "titre end 1 (mL)"]',
		);
	});

	test("as a table", () => {
		expect(tableText(ledgerTable(rows))).toContain(
			'run.csv, sheet "flasks", row 2, column "char mass (g)"',
		);
	});
});
