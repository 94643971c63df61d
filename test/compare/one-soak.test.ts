import { expect, it } from "vitest";
import { marginOf } from "../../kernel-lib/compare";
import { verdictReasons, verdictSentence } from "../../kernel-lib/words";
import { compareTreatments, flasks, verdictOf } from "./fixtures";

/** Soaks of two flasks each, 100 mg/g in the control and 160 in what is treated, a few mg/g apart. */
function compared(treatedSoaks: number, controlSoaks: number, other = 4) {
	const soaksOf = (treatment: string, control: string, n: number, at: number) =>
		Array.from({ length: 2 * n }, (_, k) => ({
			flask: `${treatment} ${k}`,
			treatment,
			control,
			soak: `${treatment} ${k >> 1}`,
			uptake: at + [0, 2, 3, 1, -2, -1, 1, 0][k % 8],
		}));
	return compareTreatments(
		flasks([
			...soaksOf("water", "", controlSoaks, 100),
			...soaksOf("steam", "water", treatedSoaks, 160),
			...soaksOf("second firing", "water", other, 160),
		]),
		{ margin: marginOf(10) },
	);
}

it("one soak gives no word about a treatment, two do", () => {
	const one = verdictOf(compared(1, 4), "steam");
	expect(one.word).toBe("cannot tell");
	expect(one.numbersSay).toBe("higher");
	expect(one.obstacles).toEqual([{ is: "one soak", treatments: ["steam"] }]);
	expect(verdictOf(compared(2, 4), "steam").word).toBe("higher");
	expect(verdictOf(compared(1, 4), "second firing").word).toBe("higher");
});

it("nor does one soak of the control, to any treatment", () => {
	const comparison = compared(3, 1);
	for (const { word, obstacles } of comparison.verdicts) {
		expect(word).toBe("cannot tell");
		expect(obstacles).toEqual([{ is: "one soak", treatments: ["water"] }]);
	}
});

it("where no treatment has a second soak the verdict is about these lots, and is given", () => {
	const lots = compared(1, 1, 1);
	expect(lots.scope).toBe("these lots");
	expect(verdictOf(lots, "steam").word).toBe("higher");
});

it("says so in the head and among the reasons", () => {
	const comparison = compared(1, 4);
	const verdict = verdictOf(comparison, "steam");
	expect(verdictSentence(comparison, verdict)).toContain(
		'"steam" had one soak only',
	);
	expect(verdictReasons(comparison, verdict).join(" ")).toContain(
		"Soak further portions of its char on their own.",
	);
});
