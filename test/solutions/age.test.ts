import { describe, expect, test } from "vitest";
import type { Flask, Solution, Trial } from "../../kernel-lib/bench";
import { ageCaution } from "../../kernel-lib/solutions/age";

describe("age of a standardised solution", () => {
	const on = (day: string) => ({
		recorded: true as const,
		value: new Date(day),
	});
	const caution = (
		substance: string,
		standardisedOn: Solution["standardisedOn"],
		used: string,
	): string =>
		ageCaution(
			{
				flasks: [
					{
						titratedAt: on(used),
						dosedAt: { recorded: false },
						marks: [],
					} as unknown as Flask,
				],
			} as unknown as Trial,
			{ name: "bottle 1", substance, standardisedOn } as Solution,
		);

	test("fresh is no concern, old is", () => {
		expect(caution("iodine", on("2026-03-02"), "2026-03-02")).toBe("");
		expect(caution("iodine", on("2026-03-02"), "2026-03-09")).toContain(
			"7 days before its last use",
		);
		expect(caution("sodium thiosulfate", on("2026-03-02"), "2026-03-09")).toBe(
			"",
		);
		// a day and two weeks, pinned on both sides
		expect(caution("iodine", on("2026-03-02"), "2026-03-03")).toBe("");
		expect(caution("iodine", on("2026-03-02"), "2026-03-04")).toContain(
			"2 days before its last use",
		);
		expect(caution("thiosulfate", on("2026-03-02"), "2026-03-16")).toBe("");
		expect(caution("thiosulfate", on("2026-03-02"), "2026-03-17")).toContain(
			"15 days before its last use",
		);
		expect(caution("potassium iodate", on("2025-03-02"), "2026-03-09")).toBe(
			"",
		);
	});

	test("a day that is not recorded is said to be", () => {
		expect(caution("iodine", { recorded: false }, "2026-03-09")).toContain(
			"does not say when",
		);
		// A primary standard in a closed bottle keeps.
		expect(caution("KIO3", { recorded: false }, "2026-03-09")).toBe("");
	});

	test("nothing is said where the sheet does not tell when it was used", () => {
		const unused = {
			titratedAt: { recorded: false },
			dosedAt: { recorded: false },
			marks: [],
		} as unknown as Flask;
		expect(
			ageCaution(
				{ flasks: [unused] } as unknown as Trial,
				{
					name: "bottle 1",
					substance: "iodine",
					standardisedOn: on("2026-03-02"),
				} as Solution,
			),
		).toBe("");
	});

	test("standardised afterwards is said too", () => {
		expect(caution("iodine", on("2026-03-12"), "2026-03-09")).toContain(
			"after its last use",
		);
	});
});
