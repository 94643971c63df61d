import { expect, test } from "vitest";
import {
	columns,
	furtherTableOfRows,
	guideTo,
	type TableForm,
} from "../../kernel-lib/bench/index";
import { problemText } from "../../kernel-lib/quantity/index";

const { aboveZero, column, mass, text } = columns;
const form: TableForm<"jar" | "char # mass" | "label"> = {
	name: "jars",
	key: "jar",
	columns: {
		jar: column(text, "name of the jar", { required: "every row" }),
		"char # mass": column(mass(aboveZero), "mass of a char in it", {
			counts: true,
		}),
		label: column(text, "what is written on it"),
	},
};

test("cells by the names of their columns, numbers with their unit and source", () => {
	const table = furtherTableOfRows(
		[
			{ jar: "a", "char 1 mass (g)": 1.25, "char 2 mass (mg)": 300 },
			{ jar: "b", "char 1 mass (g)": 2.5, label: "kiln 3" },
		],
		form,
	);
	expect(table.problems).toEqual([]);
	const [a, b] = table.rows;
	expect(a.text("jar")).toBe("a");
	expect(a.number("char # mass", 2)).toMatchObject({
		recorded: true,
		value: { value: 300, unit: "mg", kind: "mass" },
	});
	expect(b.number("char # mass", 2)).toEqual({ recorded: false });
	expect(b.isEmpty("char # mass", 2)).toBe(true);
	expect(b.text("label")).toBe("kiln 3");
	expect(table.numbersOf("char # mass")).toEqual([1, 2]);
	expect(table.balanceStep("char # mass")).toBe(0.01);
	expect(b.place("char # mass", 1)).toMatchObject({
		sheet: "jars",
		row: 3,
		column: "char 1 mass (g)",
	});
});

test("all problems at once, and the rest of the table all the same", () => {
	const table = furtherTableOfRows(
		[
			{ jar: "a", "char 1 mass (g)": "heavy", weather: "fair" },
			{ jar: "b", "char 1 mass (g)": -2 },
			{ jar: "c", "char 1 mass (g)": 3 },
		],
		form,
	);
	expect(table.problems.map(problemText).join("\n")).toMatch(
		/row 2.*"heavy"[\s\S]*row 3.*-2/,
	);
	expect(table.rows[0].isEmpty("char # mass")).toBe(false);
	expect(table.rows[0].number("char # mass")).toEqual({ recorded: false });
	expect(table.rows[2].number("char # mass").recorded).toBe(true);
	expect(table.remarks.join()).toContain('"weather" is not known');
});

test("heads without rows, and the guide to its columns", () => {
	expect(furtherTableOfRows([], form).problems).toHaveLength(1);
	expect(guideTo(form).rows.map((r) => r[0])).toEqual([
		"jar",
		"char 1 mass (g)",
		"label",
	]);
});
