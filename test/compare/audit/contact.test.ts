/** Contact times of two sides and what shows a plateau, by hand. */
import { describe, expect, test } from "vitest";
import { contact } from "../../../kernel-lib/compare/audit/contact";
import type { Sides } from "../../../kernel-lib/compare/audit/sides";
import { observationsOf } from "../../../kernel-lib/compare/observations";
import { exact, input, type Quantity } from "../../../kernel-lib/quantity";
import type {
	FlaskUptake,
	UptakeAtWithdrawal,
} from "../../../kernel-lib/uptake";
import { type FlaskFixture, flaskUptake } from "../fixtures";

const hours = (h: number): Quantity<"time"> => input("time", h, "h", exact, {});

/** A flask that stood so many hours; undefined where that is not recorded. */
interface Stood extends Partial<FlaskFixture> {
	readonly h?: number;
	readonly withdrawn?: readonly Withdrawn[];
}
interface Withdrawn {
	readonly after?: number;
	/** mg/g and mg/L then. */
	readonly uptake: number;
	readonly residue: number;
	readonly undisturbed?: boolean;
	readonly uptakeIs?: "at least";
	readonly residueIs?: "at most";
}

const withdrawal = (w: Withdrawn, i: number): UptakeAtWithdrawal => ({
	number: i + 1,
	after:
		w.after === undefined
			? { recorded: false }
			: { recorded: true, value: hours(w.after) },
	balance: flaskUptake({ flask: "", treatment: "", uptake: 0 }).balance,
	uptake: {
		is: w.uptakeIs ?? "value",
		quantity: input("uptake", w.uptake, "mg/g", exact, {}),
		because: "",
	},
	residue: {
		is: w.residueIs ?? "value",
		quantity: input("massConcentration", w.residue, "mg/L", exact, {}),
		because: "",
	},
	undisturbed: w.undisturbed ?? true,
});

function side(treatment: string, stood: readonly Stood[]) {
	const uptakes = stood.map(
		({ h, withdrawn = [], ...more }, i): FlaskUptake => {
			const plain = flaskUptake({
				flask: `${treatment}${i}`,
				treatment,
				uptake: 300,
				...more,
			});
			return {
				...plain,
				atWithdrawals: withdrawn.map(withdrawal),
				flask: {
					...plain.flask,
					contactTime:
						h === undefined
							? { recorded: false }
							: { recorded: true, value: hours(h) },
				},
			};
		},
	);
	return observationsOf(uptakes).list;
}

const looked = (treated: readonly Stood[], untreated: readonly Stood[]) =>
	contact({
		treated: side("steam", treated),
		untreated: side("water", untreated),
	} as unknown as Sides);

const stood = (...h: number[]): Stood[] => h.map((each) => ({ h: each }));

describe("means within a tenth", () => {
	test.each([
		[stood(44), stood(40), "within"],
		[stood(44.1), stood(40), "beyond"],
		[stood(40), stood(44), "within"],
		[stood(40), stood(44.1), "beyond"],
		[stood(30, 50), stood(40), "within"],
	])("%j against %j: %s", (treated, untreated, is) => {
		expect(looked(treated, untreated)).toMatchObject({ is });
	});

	test("within, nothing is feigned, and both are told", () => {
		expect(looked(stood(40), stood(40))).toEqual({
			is: "within",
			feigns: "nothing",
			treated: "40 h",
			untreated: "40 h",
		});
	});

	test("not recorded on one side is not recorded; flasks without a time do not count", () => {
		expect(looked([{}], stood(40))).toEqual({ is: "not recorded" });
		expect(looked(stood(40), [{}])).toEqual({ is: "not recorded" });
		expect(looked([{}, { h: 40 }], stood(40))).toMatchObject({ is: "within" });
	});

	test("the longer side looks as if it took up more; hours to three digits, below one in minutes to two", () => {
		expect(looked(stood(72.46), stood(0.99))).toEqual({
			is: "beyond",
			feigns: "higher",
			treated: "72.5 h",
			untreated: "59 min",
		});
		expect(looked(stood(0.1234), stood(1))).toEqual({
			is: "beyond",
			feigns: "lower",
			treated: "7.4 min",
			untreated: "1 h",
		});
	});
});

describe("a plateau on the shorter side", () => {
	const above = (untreated: readonly Stood[]): number | undefined => {
		const found = looked(stood(100), untreated);
		return found.is === "not recorded" ? undefined : found.harmless?.above;
	};
	const flask = (
		h: number,
		uptake: number,
		more: Partial<Stood> = {},
	): Stood => ({
		h,
		uptake,
		...more,
	});

	test("by flasks at double time: three times the change of their means is the margin at which it is small", () => {
		expect(
			above([flask(10, 300), flask(19.9, 304), flask(20, 310), flask(30, 306)]),
		).toBeCloseTo(3 * (308 - 302), 9);
		expect(above([flask(10, 310), flask(20, 300)])).toBeCloseTo(30, 9);
		expect(above([flask(10, 300), flask(19.9, 310)])).toBeUndefined();
		expect(above([flask(10, 300), flask(10, 310)])).toBeUndefined();
		// Titrated at once: twice nothing is nothing.
		expect(above([flask(0, 300), flask(0, 310)])).toBeUndefined();
	});

	test("it is told what shows it", () => {
		expect(looked(stood(100), [flask(10, 300), flask(20, 304)])).toEqual({
			is: "beyond",
			feigns: "higher",
			treated: "100 h",
			untreated: "15 h",
			harmless: { above: expect.closeTo(12, 9), by: "a plateau shown" },
		});
	});

	test("the treated side where that is the shorter one", () => {
		const found = looked([flask(10, 300), flask(20, 304)], stood(100, 300));
		expect(found).toMatchObject({
			feigns: "lower",
			harmless: { above: expect.closeTo(12, 9) },
		});
	});

	test("a bound shows no change", () => {
		expect(
			above([flask(10, 300), flask(20, 304, { is: "at least" })]),
		).toBeUndefined();
	});

	describe("by withdrawals", () => {
		/** 300 mg/g at 10 h and 300 mg/L left. */
		const withdrawn = (...list: Withdrawn[]): Stood[] => [
			flask(10, 300, { residue: 300, withdrawn: list }),
		];
		const plain = { after: 5, uptake: 290, residue: 300 };

		test("at half the time or before, the last of them", () => {
			expect(above(withdrawn(plain))).toBeCloseTo(30, 9);
			expect(above(withdrawn({ ...plain, after: 5.1 }))).toBeUndefined();
			expect(
				above(withdrawn({ ...plain, after: 2, uptake: 250 }, plain)),
			).toBeCloseTo(30, 9);
			expect(
				above(
					withdrawn(
						{ ...plain, after: 2, uptake: 280 },
						{
							...plain,
							after: 6,
						},
					),
				),
			).toBeCloseTo(60, 9);
		});

		test("a residue that falls hides a part of the change: up to the power 0.6 of iodine", () => {
			// 300 - 300 (300/400)^0.6, and 0 on the mean alone
			expect(
				above(withdrawn({ ...plain, uptake: 300, residue: 400 })),
			).toBeCloseTo(3 * (300 - 300 * 0.75 ** 0.6), 8);
			// a residue that rises: the plain change of 20 is the larger one
			expect(
				above(withdrawn({ ...plain, uptake: 280, residue: 290 })),
			).toBeCloseTo(60, 9);
		});

		test("the mean of the flasks, so that one that rose and one that fell cancel", () => {
			expect(
				above([...withdrawn(plain), ...withdrawn({ ...plain, uptake: 310 })]),
			).toBeCloseTo(0, 9);
		});

		test.each<[string, Partial<Withdrawn>]>([
			["without a time", { after: undefined }],
			["at once", { after: 0 }],
			["disturbed since", { undisturbed: false }],
			["colourless: an uptake of at least so much", { uptakeIs: "at least" }],
			["a residue of at most so much", { residueIs: "at most" }],
		])("shows nothing %s", (_, change) => {
			expect(above(withdrawn({ ...plain, ...change }))).toBeUndefined();
		});

		test("shows nothing where no residue is left to compare by", () => {
			expect(
				above([flask(10, 300, { residue: 0, withdrawn: [plain] })]),
			).toBeUndefined();
		});

		test("the larger of what flasks and withdrawals show", () => {
			const change = (late: number) =>
				above([...withdrawn(plain), flask(20, late)]);
			expect(change(304)).toBeCloseTo(30, 9);
			expect(change(320)).toBeCloseTo(60, 9);
		});
	});
});
