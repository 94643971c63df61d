import { describe, expect, test } from "vitest";
import { type Difference, marginOf, residueOf } from "../../kernel-lib/compare";
import { flasksAgainstControl } from "../../kernel-lib/figures";
import { langmuir } from "../../kernel-lib/isotherms";
import { createRandom } from "../../kernel-lib/stats";
import { highestShare } from "../simulation/limits";
import {
	type AtResidueOptions,
	type AtStatedResidue,
	compareAtResidue,
	type FlaskFixture,
	flasks,
} from "./fixtures";

const options: AtResidueOptions = {
	residue: residueOf(800),
	margin: marginOf(10),
	isotherms: [langmuir],
};
const doses = [120, 180, 240, 300, 380, 480, 560, 640];
/** q(800) = 4.8/5.8 of the plateau. */
const share = 4.8 / 5.8;

interface Planned {
	readonly treatment: string;
	readonly plateau: number;
	readonly days: readonly string[];
	readonly soak?: string;
	readonly noise?: number;
}

/** Flasks of 1 g in 100 mL on a Langmuir isotherm, its uptakes multiplied by the factor of each flask's day, residues off by chance. */
function curve(
	{ treatment, plateau, days, soak = "", noise = 3 }: Planned,
	factors: Readonly<Record<string, number>>,
	random: { normal: () => number },
): FlaskFixture[] {
	return doses.map((dose, i) => {
		const k = 0.006;
		const most = plateau * factors[days[i % days.length]];
		const b = 0.1 + most * k - dose * k;
		const c = (-b + Math.sqrt(b * b + 4 * 0.1 * k * dose)) / (2 * 0.1 * k);
		const residue = c + noise * random.normal();
		return {
			flask: `${treatment} ${soak} ${i + 1}`,
			treatment,
			control: treatment === "water" ? "" : "water",
			soak,
			day: days[i % days.length],
			uptake: dose - 0.1 * residue,
			residue,
			// As large as what an error of the residue makes of the uptake, 0.1 L/g of 3 mg/L.
			reading: 0.3,
			residueReading: 3,
		};
	});
}

const compared = (
	fixtures: readonly FlaskFixture[],
	more: Partial<AtResidueOptions> = {},
): AtStatedResidue =>
	compareAtResidue(flasks(fixtures), { ...options, ...more });

const withoutDays = (fixtures: readonly FlaskFixture[]): FlaskFixture[] =>
	fixtures.map((f) => ({ ...f, day: "" }));

function estimated(
	c: AtStatedResidue,
): Extract<Difference, { is: "estimate" }> {
	const [{ difference }] = c.verdicts;
	if (difference.is !== "estimate") throw new Error(JSON.stringify(difference));
	return difference;
}

const factors = { Mon: 0.98, Tue: 1.03 };
const mostlyMonday = ["Mon", "Mon", "Tue", "Mon"];
const mostlyTuesday = ["Tue", "Tue", "Mon", "Tue"];
const inTurn = ["Mon", "Tue", "Tue", "Mon"];

describe("one curve a treatment", () => {
	const trial = (
		ash: number,
		[ofWater, ofAsh]: readonly (readonly string[])[],
		seed: string,
		noise = 3,
		of: Readonly<Record<string, number>> = factors,
	): FlaskFixture[] => {
		const random = createRandom(seed);
		return [
			...curve(
				{ treatment: "water", plateau: 300, days: ofWater, noise },
				of,
				random,
			),
			...curve(
				{ treatment: "ash", plateau: ash, days: ofAsh, noise },
				of,
				random,
			),
		];
	};

	test("without scatter the factors and the difference come out, however unevenly the days lie", () => {
		for (const [ash, of] of [
			[300, factors],
			[360, { Mon: 0.9, Tue: 1.15 }],
		] as const) {
			const c = compared(
				trial(ash, [mostlyMonday, mostlyTuesday], "exact", 0.01, of),
			);
			if (c.method.is !== "isotherms") throw new Error(c.method.is);
			const [monday, tuesday] = c.method.days;
			expect([monday.day, tuesday.day]).toEqual(["Mon", "Tue"]);
			// As many flasks on each day, so that the middle of the two factors stands at 1.
			const middle = (of.Mon + of.Tue) / 2;
			expect(monday.factor).toBeCloseTo(of.Mon / middle, 3);
			expect(tuesday.factor).toBeCloseTo(of.Tue / middle, 3);
			expect(
				Math.abs(estimated(c).estimate - (ash - 300) * share * middle),
			).toBeLessThan(0.15);
		}
	});

	test("unevenly: the difference between days is no difference between chars", () => {
		const uneven = trial(300, [mostlyMonday, mostlyTuesday], "uneven");
		const blind = estimated(compared(withoutDays(uneven)));
		const c = compared(uneven);
		expect(blind.estimate).toBeGreaterThan(4);
		expect(Math.abs(estimated(c).estimate)).toBeLessThan(2.5);
		expect(c.verdicts[0].word).toBe("no difference that matters");
	});

	test("evenly: the same difference, and known better", () => {
		const even = trial(330, [inTurn, inTurn], "even");
		const blind = estimated(compared(withoutDays(even)));
		const found = estimated(compared(even));
		expect(found.high - found.low).toBeLessThan(0.7 * (blind.high - blind.low));
		expect(found.low).toBeLessThan(30 * share);
		expect(found.high).toBeGreaterThan(30 * share);
	});

	test("days that do nothing cost next to nothing where they lie evenly, and something where they do not", () => {
		const variance = (days: readonly (readonly string[])[], keep: boolean) => {
			let sum = 0;
			for (let s = 0; s < 4; s++) {
				const made = trial(300, days, `nothing ${s}`, 3, { Mon: 1, Tue: 1 });
				const c = compared(keep ? made : withoutDays(made));
				sum += estimated(c).standardError ** 2;
			}
			return sum;
		};
		const even = variance([inTurn, inTurn], true);
		expect(even).toBeLessThan(1.2 * variance([inTurn, inTurn], false));
		// One flask of eight ties the two days together: over many trials the variance is 1.6 times that of even days.
		const oneOnTuesday = doses.map((_, i) => (i === 2 ? "Tue" : "Mon"));
		const oneOnMonday = doses.map((_, i) => (i === 4 ? "Mon" : "Tue"));
		expect(variance([oneOnTuesday, oneOnMonday], true)).toBeGreaterThan(
			1.2 * even,
		);
	});

	test("over uneven trials with days that differ by chance the intervals hold, and the estimates do not follow the days", () => {
		const runs = 10;
		const random = createRandom("days by chance");
		let missed = 0;
		let squares = 0;
		let blind = 0;
		for (let run = 0; run < runs; run++) {
			const made = trial(
				300,
				[mostlyMonday, mostlyTuesday],
				`chance ${run}`,
				3,
				{ Mon: 1 + 0.03 * random.normal(), Tue: 1 + 0.03 * random.normal() },
			);
			const { estimate, low, high } = estimated(compared(made));
			if (low > 0 || high < 0) missed += 1;
			squares += estimate ** 2;
			if (run < 3)
				blind += estimated(compared(withoutDays(made))).estimate ** 2;
		}
		expect(missed / runs).toBeLessThanOrEqual(highestShare(0.05, runs));
		expect(squares / runs).toBeLessThan(0.1 * (blind / 3));
	});

	test("a treatment on a day of its own gets no word and takes nothing from the others", () => {
		const made = trial(330, [inTurn, inTurn], "alone");
		const alone = curve(
			{ treatment: "lime", plateau: 330, days: ["Wed"] },
			{ Wed: 1.2 },
			createRandom("alone"),
		);
		const [two, three] = [made, [...made, ...alone]].map((f) => compared(f));
		expect(three.verdicts[1].difference.is).toBe("not available");
		expect(three.verdicts[1].sentence).toContain("day cannot be distinguished");
		const [a, b] = [two, three].map(estimated);
		expect(b.estimate).toBeCloseTo(a.estimate, 6);
		expect(b.standardError).toBeCloseTo(a.standardError, 6);
	});

	test("one day, or none recorded: the same to the last digit, and the method says so", () => {
		const made = trial(330, [["Mon"], ["Mon"]], "one day");
		const [one, none] = [compared(made), compared(withoutDays(made))];
		expect(one.verdicts[0].difference).toEqual(none.verdicts[0].difference);
		expect(one.methodSaid.join(" ")).toContain("were measured on one day");
		expect(none.methodSaid.join(" ")).toContain("Days are not recorded");
		const several = compared(trial(330, [inTurn, inTurn], "one day"));
		const told = "without what their days multiplied them by";
		expect(flasksAgainstControl(several).notes.join(" ")).toContain(told);
		expect(flasksAgainstControl(one).notes.join(" ")).not.toContain(told);
		expect(several.methodSaid.join(" ")).toMatch(
			/Days are blocks.*Mon: 2\.\d % less, Tue: 2\.\d % more/,
		);
	});
});

describe("a curve for each soak", () => {
	const soaks = (
		treatment: string,
		plateau: number,
		days: readonly string[],
		seed: string,
	): FlaskFixture[] => {
		const random = createRandom(`${treatment} ${seed}`);
		return days.flatMap((day, s) =>
			curve(
				{
					treatment,
					plateau: plateau + 2 * random.normal(),
					days: [day],
					soak: `soak ${s + 1}`,
				},
				factors,
				random,
			),
		);
	};

	test("each soak on one day: how soaks of a treatment differ tells the days", () => {
		const even = [
			...soaks("water", 300, ["Mon", "Tue", "Mon", "Tue"], "even"),
			...soaks("ash", 330, ["Mon", "Tue", "Tue", "Mon"], "even"),
		];
		const blind = estimated(compared(withoutDays(even)));
		const found = estimated(compared(even));
		expect(found.high - found.low).toBeLessThan(0.5 * (blind.high - blind.low));
		expect(Math.abs(found.estimate - 30 * share)).toBeLessThan(4);
		const uneven = [
			...soaks("water", 300, ["Mon", "Mon", "Mon", "Tue"], "uneven"),
			...soaks("ash", 300, ["Tue", "Tue", "Tue", "Mon"], "uneven"),
		];
		expect(estimated(compared(withoutDays(uneven))).estimate).toBeGreaterThan(
			4,
		);
		expect(Math.abs(estimated(compared(uneven)).estimate)).toBeLessThan(4);
	});

	test("days that take all that soaks tell of their spread: cannot tell, and why", () => {
		const [v] = compared([
			...soaks("water", 300, ["Mon", "Tue"], "few"),
			...soaks("ash", 345, ["Mon"], "few"),
		]).verdicts;
		expect(v.word).toBe("cannot tell");
		expect(v.reasons.join(" ")).toContain("what these leave is too little");
	});
});
