import { expect, test } from "vitest";
import { notConcluded } from "../../kernel-lib/cautions";
import { marginOf } from "../../kernel-lib/compare";
import type { FlaskFixture } from "../compare/fixtures";
import { compareTreatments, flasks, group } from "../compare/fixtures";

function said(fixtures: FlaskFixture[]): string {
	return notConcluded(
		compareTreatments(flasks(fixtures), { margin: marginOf(8) }),
	).join("\n");
}

const error = { reading: 2 };

test("one flask a treatment shows no spread", () => {
	expect(
		said([
			...group("water", "", [50], error),
			...group("steam", "water", [70], error),
		]),
	).toContain("with one flask a treatment nothing is known of the spread");
});

test("flasks that are all bounds are not called one flask a treatment", () => {
	const bound = { ...error, is: "at most" } as const;
	const text = said(
		[
			...group("water", "", [50, 51, 52, 53], error),
			...group("steam", "water", [70, 71, 72, 73], error),
		].map((f) => ({ ...f, ...bound })),
	);
	expect(text).toContain("all 8 flasks gave only a bound");
	expect(text).not.toContain("one flask a treatment");
});

test("one group of one flask beside one of bounds: the bounds are named with their count", () => {
	const text = said([
		...group("water", "", [50], error),
		...group("steam", "water", [70, 71], error).map((f) => ({
			...f,
			is: "at most" as const,
		})),
	]);
	expect(text).not.toContain("with one flask a treatment");
	expect(text).toMatch(/2 of 3 flasks gave only a bound/);
});

test("intervals that are a bound are told with the number of differences, exact ones are not", () => {
	const compared = compareTreatments(
		flasks([
			...group("water", "", [50, 51, 52], error),
			...group("steam", "water", [70, 71, 72], error),
		]),
		{ margin: marginOf(8) },
	);
	const { method } = compared;
	const bound = {
		...compared,
		method: {
			...method,
			simultaneous: { are: "bound", pairs: Array(40).fill(0) },
		},
	} as unknown as typeof compared;
	expect(notConcluded(bound).join("\n")).toContain(
		"The intervals of the 40 differences are a bound",
	);
	expect(notConcluded(compared).join("\n")).not.toContain("are a bound");
});
