import { describe, expect, test } from "vitest";
import type { TypedRow } from "../../kernel-lib/bench";
import { gramsOfChar } from "../../kernel-lib/figures";
import {
	charProperties,
	type PropertySheet,
	propertiesFromRows,
} from "../../kernel-lib/properties";
import { exact, input } from "../../kernel-lib/quantity";
import { charAnswer } from "../../kernel-lib/words";
import { charFinding } from "../../kernel-lib/words/char-answer";
import { dishRow } from "../properties/made";

/** Of a gram as weighed 10 % water, 9 % ash, 18 % volatile matter, 63 % fixed carbon; two determinations that agree to the last digit. */
const contents: Readonly<Record<string, readonly [number, number, number]>> = {
	moisture: [20, 30, 29],
	"total ash": [20, 22, 20.2],
	"volatile matter": [20, 21, 20.8],
};

const rowsOf = (
	sample: string,
	names: readonly string[] = Object.keys(contents),
	times = 2,
): TypedRow[] =>
	names.flatMap((name) =>
		Array.from({ length: times }, (_, i) =>
			dishRow(`${sample} ${name} ${i}`, name, contents[name], {
				sample,
				...(name === "moisture" ? {} : { dried: "yes" }),
			}),
		),
	);

const limits = {
	"total ash": input("ratio", 0.5, "%", exact, {}),
};

const sheetOf = (...rows: readonly TypedRow[]): PropertySheet =>
	propertiesFromRows(rows, limits);

const findingOf = (...rows: readonly TypedRow[]): string =>
	charAnswer(sheetOf(...rows)).finding;

/** A second determination of ash that lies far from the first. */
const astray = dishRow("A3", "total ash", [20, 22, 20.4], {
	sample: "a",
	dried: "yes",
});

describe("the finding", () => {
	test("says how much of a gram is carbon, and what ash does to the uptake", () => {
		expect(findingOf(...rowsOf("a"))).toMatch(
			/^Fixed carbon in a gram as weighed: 63(\.0+)? % \("a"\); ash alone lowers the uptake of a dry gram by 10(\.0+)? %\.$/,
		);
	});
	test("of two and three names each, of four the ends", () => {
		const of = (...names: string[]): string =>
			findingOf(...names.flatMap((name) => rowsOf(name)));
		expect(of("a", "b")).toMatch(
			/% \("a"\) and [\d.]+ % \("b"\); ash .* by [\d.]+ % and [\d.]+ %\.$/,
		);
		expect(of("a", "b", "c")).toContain('% ("b") and ');
		expect(of("a", "b", "c", "d")).toMatch(
			/: [\d.]+ % \("a"\) to [\d.]+ % \("d"\), 4 chars; ash .* by [\d.]+ % \("a"\) to [\d.]+ % \("d"\), 4 chars\.$/,
		);
	});
	test("gives no mean of determinations that disagree, and says that they do", () => {
		const said = findingOf(...rowsOf("a").slice(1), astray);
		expect(said).toMatch(/dry gram by \d+ to \d+ %;/);
		expect(said).toMatch(
			/; total ash of "a" is not settled: its determinations disagree\.$/,
		);
		expect(said).toMatch(/as weighed: \d+ to \d+ % \("a"\)/);
	});
	test("names all that is not settled", () => {
		const two = [
			...rowsOf("a").slice(1),
			astray,
			...rowsOf("b"),
			{ ...astray, determination: "B3", sample: "b" },
		];
		expect(findingOf(...two)).toMatch(
			/; total ash of "a" and total ash of "b" are not settled: their determinations disagree\.$/,
		);
	});
	test("of one determination says so", () => {
		const said = findingOf(...rowsOf("a", undefined, 1));
		expect(said.match(/\(determined once\)/g)).toHaveLength(2);
	});
	test("is of a dry gram where moisture is not known of every char", () => {
		const dry = rowsOf("b", ["total ash", "volatile matter"]);
		expect(findingOf(...rowsOf("a"), ...dry)).toMatch(
			/^Fixed carbon in a dry gram: 70/,
		);
		const less = rowsOf("b", ["moisture", "total ash"]);
		expect(findingOf(...rowsOf("a"), ...less)).toMatch(
			/dry gram by [\d.]+ % \("a"\) and [\d.]+ % \("b"\)\.$/,
		);
	});
	test("without volatile matter, without ash, without either", () => {
		expect(findingOf(...rowsOf("a", ["moisture", "total ash"]))).toMatch(
			/^"a": moisture [^,]*, total ash .*; ash alone lowers/,
		);
		const said = findingOf(...rowsOf("a", ["moisture"]));
		expect(said).toMatch(/^"a": moisture [^;]*\.$/);
		expect(findingOf(...rowsOf("a", ["volatile matter"]))).not.toContain("ash");
		const many = ["a", "b", "c", "d"].flatMap((n) => rowsOf(n, ["moisture"]));
		expect(findingOf(...many)).toBe(
			"Properties of 4 chars, as the table says.",
		);
	});
	test("names the four that are asked for first, or else what there is", () => {
		const ph = { sample: "a", determination: "p", property: "pH", pH: 9.1 };
		expect(findingOf(...rowsOf("a", ["moisture"]), ph)).not.toContain("pH");
		expect(findingOf(ph)).toBe('"a": pH 9.10 (determined once).');
	});
	test("of nothing says so", () => {
		expect(charFinding([])).toBe("No property was determined.");
	});
});

describe("the table and the figure", () => {
	test("have what was determined, and 100 mg without ash", () => {
		const { table, statements } = charAnswer(sheetOf(...rowsOf("a")));
		const [row] = table.rows;
		expect(row[0]).toBe("a");
		for (const [i, value] of [10, 10, 111.1].entries())
			expect(Number.parseFloat(`${row[i + 1]}`)).toBeCloseTo(value, 0);
		expect(statements.join(" ")).toContain("taking up nothing");
		const dry = charAnswer(sheetOf(...rowsOf("a", ["moisture"])));
		expect(dry.table.rows[0].slice(2)).toEqual(["", ""]);
		expect(dry.statements.join(" ")).not.toContain("taking up nothing");
	});
	test("say that it was determined once, and give no interval then", () => {
		const [row] = charAnswer(sheetOf(...rowsOf("a", undefined, 1))).table.rows;
		expect(row[3]).toBe("111.1 (determined once)");
	});
	test("the parts of a gram as weighed make up the whole of it", () => {
		const f = gramsOfChar(sheetOf(...rowsOf("a")));
		const bars = f.layers.flatMap((l) => (l.is === "bars" ? l.bars : []));
		const ends = [0, 10, 19, 37, 100];
		for (const [i, bar] of bars.entries()) {
			expect(bar.from).toBeCloseTo(ends[i], 6);
			expect(bar.to).toBeCloseTo(ends[i + 1], 6);
		}
		expect(bars).toHaveLength(4);
		expect(f.alt).toContain("63");
	});
	test("what is not determined is left open and named, what disagrees too", () => {
		const f = gramsOfChar(
			sheetOf(...rowsOf("a", ["moisture", "total ash"]).slice(0, 3), astray),
		);
		expect(f.layers.filter((l) => l.is === "bars")).toHaveLength(2);
		expect(f.notes).toEqual([
			'Not settled, for determinations disagree: "a".',
			'Not determined of "a": volatile matter and fixed carbon.',
		]);
		const dry = gramsOfChar(sheetOf(...rowsOf("a", ["volatile matter"])));
		expect(dry.title).toBe("What is in a gram of char, dry");
		expect(dry.notes[0]).toContain("total ash and fixed carbon");
	});
	test("a share below nothing has no length", () => {
		const heavy = [
			...rowsOf("a", ["moisture"]),
			dishRow("A", "total ash", [20, 22, 21.2], { sample: "a", dried: "yes" }),
			dishRow("V", "volatile matter", [20, 21, 20.5], {
				sample: "a",
				dried: "yes",
			}),
		];
		const sheet = sheetOf(...heavy);
		const carbon = charProperties(sheet).find(
			(p) => p.property === "fixed carbon",
		);
		expect(
			carbon?.outcome.is === "value" && carbon.outcome.quantity.in("%"),
		).toBeCloseTo(-10, 6);
		const bars = gramsOfChar(sheet).layers.flatMap((l) =>
			l.is === "bars" ? l.bars : [],
		);
		for (const { from, to } of bars) expect(to).toBeGreaterThanOrEqual(from);
	});
});
