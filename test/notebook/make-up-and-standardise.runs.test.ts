import { beforeAll, expect, test } from "vitest";
import { escapeHtml } from "../../kernel-lib/quantity/index";
import { answerOf, type Executed, executed } from "./executed";

let usual: Executed;

beforeAll(() => {
	usual = executed("make-up-and-standardise", { iodineVolumeML: 500 });
}, 120_000);

const cells = (table: number): string[][] =>
	answerOf(usual).tables[table].rows.map((row) =>
		row.map((cell) => ("text" in cell ? cell.text : "")),
	);

test("the weighing card gives grams for the volume that was asked for", () => {
	expect(cells(0)[0].slice(1)).toEqual([
		// 0.05 mol/L times 0.5 L times 253.809 g/mol
		"6.345 g of I2 and 12.69 g of KI",
		"made up to 500 mL",
	]);
	expect(cells(0)).toHaveLength(3);
});

test("what is due to be standardised again is in the title and marked on its card", () => {
	const { finding } = answerOf(usual);
	expect(finding).toContain('"iodine" is due to be standardised again');
	expect(cells(1).map((row) => row[1].startsWith("\u26a0"))).toEqual([
		false,
		false,
		true,
	]);
	expect(usual.page).toContain(`<h1 id="answer">${escapeHtml(finding)}</h1>`);
	expect(usual.page).toMatch(/<td class="attention"/);
});
