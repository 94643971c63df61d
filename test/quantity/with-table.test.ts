import { expect, test } from "vitest";
import { type Table, table, withTable } from "../../kernel-lib/quantity/index";

test("the table of a result is made when asked for, once, and is not written down with it", () => {
	let made = 0;
	const counted = withTable([1, 2], (list): Table => {
		made += 1;
		return table(
			"Numbers",
			["number"],
			list.map((n) => [n]),
		);
	});
	expect(made).toBe(0);
	expect(counted.table.rows).toEqual([[1], [2]]);
	expect(counted.table).toBe(counted.table);
	expect(made).toBe(1);
	expect(JSON.stringify(counted)).toBe("[1,2]");
	expect(Object.keys(withTable({ a: 1 }, () => counted.table))).toEqual(["a"]);
});
