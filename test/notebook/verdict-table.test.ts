import { expect, test } from "vitest";
import { marginOf } from "../../kernel-lib/compare";
import { resultOf } from "../../kernel-lib/notebook/result";
import { verdictTable } from "../../kernel-lib/notebook/verdict-table";
import { compareTreatments, flasks, group } from "../compare/fixtures";

function words(control: number[], treated: number[]): unknown[] {
	const more = { reading: 2 };
	const { content } = resultOf(
		"verdict",
		compareTreatments(
			flasks([
				...group("water", "", control, more),
				...group("steam", "water", treated, more),
			]),
			{ margin: marginOf(8) },
		),
		"",
	);
	if (content.kind !== "comparison") throw new Error("no comparison");
	const { columns, rows } = verdictTable(content);
	return rows.map((row) => row[columns.indexOf("verdict")]);
}

test("one flask a treatment: the word in the table claims no more than its sentence", () => {
	expect(words([50], [70])).toEqual([
		"(control)",
		"higher than measuring error explains",
	]);
	expect(words([50], [50.5])).toEqual([
		"(control)",
		"no difference that matters, as far as measuring error goes",
	]);
});

test("several soaks a treatment: the bare word", () => {
	expect(words([49, 50, 51], [69, 70, 71])).toEqual(["(control)", "higher"]);
});
