import { describe, expect, test } from "vitest";
import {
	columnLook,
	columnLooks,
	roomStyle,
} from "../../kernel-lib/notebook/column-look";
import { structuredTable } from "../../kernel-lib/notebook/structured-table";
import { table } from "../../kernel-lib/quantity";

const side = (...texts: string[]) => columnLook(texts).side;

describe("a column of numbers stands to the right", () => {
	test.each([
		[["4.2", "12.31", "7"]],
		[["0.97 (u 0.01)", "1.2 (u 0.1)"]],
		[["at least 32", "125.3", "not available"]],
		[["−13 to 24", "4 to 9", ""]],
		[["4 (−25 to 37)", "69 (35 to 100)"]],
		[["1.61 × 10¹⁰", "25"]],
		[["30.1 %", "below 0.1 %"]],
	])("%j", (texts) => {
		expect(side(...texts)).toBe("right");
	});

	test.each([
		[["water", "potash", "3"]],
		[["2026-03-11 09:00", "2026-03-12 09:00"]],
		[["4", "5", "a sentence that would be squeezed into a tower"]],
		[["day 1", "day 2"]],
		[["", ""]],
	])("not %j", (texts) => {
		expect(side(...texts)).toBe("left");
	});

	test("half of the cells are not most of them", () => {
		expect(side("4", "none")).toBe("left");
		expect(side("4", "5", "none")).toBe("right");
	});
});

test("decimal marks line up: what a cell has less after its mark is room", () => {
	const look = columnLook(["4.2", "12.31", "at least 7", "not available"]);
	const rooms = look.side === "right" ? look.rooms : [];
	expect(rooms).toEqual([
		{ digits: 1, em: 0 },
		{ digits: 0, em: 0 },
		{ digits: 2, em: 0.28 },
		{ digits: 0, em: 0 },
	]);
	expect(roomStyle(look, 0, "1em")).toBe("padding-right:calc(1em + 1ch + 0em)");
	expect(roomStyle(look, 1, "1em")).toBe("");
	const withU = columnLook(["4.21 (u 0.10)", "12 (u 10)"]);
	expect(withU.side === "right" && withU.rooms).toEqual([
		{ digits: 0, em: 0 },
		{ digits: 3, em: 0.56 },
	]);
});

test("names of rows stay to the left, though they are numbers", () => {
	const looks = columnLooks(
		structuredTable(table("", ["flask", "mg/g"], [["1", 4.2]])),
	);
	expect(looks.map((l) => l.side)).toEqual(["left", "right"]);
});
