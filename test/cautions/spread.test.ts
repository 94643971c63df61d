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
