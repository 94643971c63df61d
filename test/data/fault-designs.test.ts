import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import file from "../../data/simulation/fault-designs.json";
import type {
	FaultDesign,
	FaultRun,
} from "../../data/simulation/fault-plan.mjs";
import {
	faultDesignsOf,
	simulateFault,
} from "../../data/simulation/fault-trial.mjs";
import { generator } from "../../data/simulation/generator.mjs";
import { draw } from "../../data/simulation/heavy-tails.mjs";
import { trialFromRows } from "../../kernel-lib/bench/index";

const folder = join(import.meta.dirname, "../../data/simulation");
const designs = faultDesignsOf(file);
const seeds = Array.from({ length: 25 }, (_, i) => i + 1);
const words = ["higher", "lower", "no difference that matters", "cannot tell"];

const mean = (xs: readonly number[]): number =>
	xs.reduce((a, b) => a + b, 0) / xs.length;
const rootMeanSquare = (xs: readonly number[]): number =>
	Math.sqrt(mean(xs.map((x) => x * x)));

const runsOf = (design: FaultDesign): FaultRun[] =>
	seeds.map((seed) => simulateFault(design, seed));

/** Files that a file of the folder imports, and what those import. */
function importsOf(name: string, known = new Set<string>()): Set<string> {
	if (known.has(name)) return known;
	known.add(name);
	const text = readFileSync(join(folder, name), "utf8");
	for (const [, from] of text.matchAll(/(?:from|import\()\s*"([^"]+)"/g))
		importsOf(
			from.replace("./", "").replace(/plan\.mjs$/, "plan.d.mts"),
			known,
		);
	return known;
}

describe("the designs", () => {
	test("have names of their own, and one at least for each fault", () => {
		expect(new Set(designs.map((d) => d.name)).size).toBe(designs.length);
		expect(
			[...new Set(designs.map((d) => d.fault))].sort((a, b) => a - b),
		).toEqual(file.faults.map((_, i) => i));
	});

	test("are made without the library", () => {
		for (const name of importsOf("fault-trial.mjs")) {
			expect(name).toMatch(/^[a-z-]+\.(mjs|d\.mts)$/);
			expect(readFileSync(join(folder, name), "utf8")).not.toMatch(
				/(from|import\()\s*"[^"]*(kernel-lib|charledger)/,
			);
		}
	});

	test.each(designs)("$name says what is asked of it", (design) => {
		expect(
			design.treatments.filter((t) => t.difference === undefined),
		).toHaveLength(1);
		// Where the sheet cannot hold enough, the head is told by words; where it can, by intervals.
		expect(design.told.length > 0).toBe(!design.enough);
		expect(design.coverage !== null).toBe(design.enough);
		for (const t of design.treatments) {
			if (t.difference === undefined) continue;
			expect(words).toEqual(expect.arrayContaining(t.right ?? []));
			expect(t.right).not.toEqual([]);
			if (t.difference <= 0) expect(t.right).not.toContain("higher");
			if (t.difference >= 0) expect(t.right).not.toContain("lower");
			if (Math.abs(t.difference) > design.margin)
				expect(t.right).not.toContain("no difference that matters");
		}
	});
});

describe.each(designs.map((design) => ({ name: design.name, design })))(
	"$name",
	({ design }) => {
		const runs = runsOf(design);

		test("gives the same sheet for one seed, another for another", () => {
			expect(simulateFault(design, 7)).toEqual(runs[6]);
			expect(simulateFault(design, 8).flasks).not.toEqual(runs[6].flasks);
		});

		test("gives tables of one form, without gaps or invented numbers", () => {
			const tables = runs.flatMap((r) => [
				r.flasks,
				r.solutions,
				r.glassware,
				r.deviations,
			]);
			const odd = tables.filter((rows) =>
				rows.some(
					(row) =>
						Object.keys(row).join() !== Object.keys(rows[0]).join() ||
						Object.values(row).some(
							(cell) => typeof cell !== "string" && !Number.isFinite(cell),
						),
				),
			);
			expect(odd).toEqual([]);
			for (const { flasks } of runs)
				expect(new Set(flasks.map((r) => r.flask)).size).toBe(flasks.length);
		});

		test("is read as a bench sheet, or refused where it cannot be one", () => {
			// A control that is not named and a unit that is wrong may be refused; nothing else may.
			const { truth, ...sheet } = runs[0];
			if ([16, 17].includes(design.fault)) return;
			expect(trialFromRows(sheet).flasks).toHaveLength(sheet.flasks.length);
			expect(truth.flasks.length).toBeLessThan(sheet.flasks.length);
		});

		test("puts every char on the curve that the design states", () => {
			for (const t of design.treatments) {
				const exponent = t.exponent ?? design.bench.exponent;
				const own = runs.flatMap((r) =>
					r.truth.flasks.filter((f) => f.treatment === t.treatment),
				);
				// Carried along its own curve to the stated residue, less what chance added.
				const atResidue = own.map(
					(f) =>
						(f.uptake * (design.residue / f.residue) ** exponent) /
							(t.happens.reached ?? 1) -
						f.soakShift -
						f.batchShift -
						f.flaskShift,
				);
				const expected = design.uptake + (t.difference ?? 0);
				// A day multiplies; its mean over the trials is known as well as so many days allow.
				const days = new Set(design.treatments.flatMap((x) => x.days)).size;
				const unsure =
					(4 * design.bench.daySpread * expected) /
					Math.sqrt(days * runs.length);
				expect(Math.abs(mean(atResidue) - expected)).toBeLessThan(
					unsure + 1e-5 * expected,
				);
			}
		});
	},
);

/** Designs whose sheets say what truly happened in the jars. */
const honest = designs.filter(
	(d) =>
		d.solutions === undefined &&
		Object.keys(d.typed).length === 0 &&
		d.bench.moistureFor !== "nobody" &&
		d.treatments.every((t) => t.demand === 0 && t.happens.unseen === undefined),
);

test.each(honest)(
	"$name: uptakes worked out by hand from the rows are true on the average",
	(design) => {
		const off: number[] = [];
		for (const { flasks, truth } of runsOf(design)) {
			const rows = new Map(flasks.map((r) => [r.flask, r]));
			const blank = mean(
				flasks
					.filter((r) => r.contents === "reagent blank")
					.map((r) => Number(r["titre 1 (mL)"])),
			);
			for (const f of truth.flasks) {
				const row = rows.get(f.flask) ?? {};
				const titre = Number(row["titre 1 (mL)"]);
				const char =
					Number(row["char mass (g)"]) *
					(1 - Number(row["moisture, wet basis (%)"]) / 100);
				const liquid = Number(row["made up to (mL)"]) - 0.5 * char;
				const left =
					titre === 0
						? 0
						: (0.05 / 2) * (titre - blank) * (liquid / 25) * 253.809;
				const dosed = Number(row["dose (mL)"]) * 0.05 * 253.809;
				off.push((dosed - left - f.lost) / char - f.uptake);
			}
		}
		// Solutions are off by 0.6 % of a trial's dose, moisture and glassware by what the design says; half a drop is always let in too much.
		const perTrial =
			5 +
			3 * design.bench.moistureError +
			13 * design.bench.tolerances.dose +
			100 * design.bench.reagentBlankSpread;
		expect(Math.abs(mean(off))).toBeLessThan(
			1.5 + (4 * perTrial) / Math.sqrt(seeds.length),
		);
	},
);

describe("what chance does", () => {
	const many = 200_000;

	test.each([
		// Shares beyond three standard deviations from the distributions themselves; the normal curve has 0.27 %.
		{ tail: "normal", beyond: 0.0027, within: 0.01 },
		{ tail: "t4", beyond: 0.0132, within: 0.06 },
		{ tail: "contaminated", beyond: 0.018, within: 0.02 },
		{ tail: "skewed", beyond: 0.0103, within: 0.02 },
	] as const)(
		"$tail: mean 0, the spread stated, the tails named",
		({ tail, beyond, within }) => {
			const random = generator(`tails ${tail}`);
			const xs = Array.from({ length: many }, () => draw(random, tail, 2));
			expect(Math.abs(mean(xs))).toBeLessThan((4 * 2) / Math.sqrt(many));
			expect(Math.abs(rootMeanSquare(xs) / 2 - 1)).toBeLessThan(within);
			const seen = xs.filter((x) => Math.abs(x) > 6).length / many;
			expect(Math.abs(seen - beyond)).toBeLessThan(0.0012);
		},
	);

	test.each(["t4", "contaminated"])(
		"soaks and flasks of the designs with %s scatter as stated",
		(tail) => {
			const soaks: number[] = [];
			const flasks: number[] = [];
			for (const design of designs.filter((d) => d.bench.tail === tail))
				for (const { truth } of runsOf(design)) {
					const spreads = new Map(
						design.treatments.map((t) => [t.treatment, t.soakSpread]),
					);
					for (const f of new Map(
						truth.flasks.map((x) => [x.soak, x]),
					).values())
						if (spreads.get(f.treatment))
							soaks.push(f.soakShift / (spreads.get(f.treatment) ?? 0));
					if (design.bench.flaskSpread > 0)
						flasks.push(
							...truth.flasks.map(
								(f) => f.flaskShift / design.bench.flaskSpread,
							),
						);
				}
			for (const xs of [soaks, flasks]) {
				expect(xs.length).toBeGreaterThan(400);
				expect(Math.abs(rootMeanSquare(xs) - 1)).toBeLessThan(0.12);
			}
		},
	);

	test("batches, days, losses and moistures differ as stated", () => {
		const all = (name: string) => {
			const design = designs.find((d) => d.name === name);
			if (design === undefined) throw new Error(`no design ${name}`);
			return Array.from({ length: 300 }, (_, s) => ({
				design,
				...simulateFault(design, s + 1),
			}));
		};
		const batches = all("batch confounded").flatMap((r) => [
			r.truth.flasks[0].batchShift,
			r.truth.flasks[6].batchShift,
		]);
		expect(rootMeanSquare(batches) / 12).toBeGreaterThan(0.8);
		expect(rootMeanSquare(batches) / 12).toBeLessThan(1.25);
		const days = all("days of isotherms").flatMap(({ design, truth }) =>
			[0, 6].map((i) => {
				const f = truth.flasks[i];
				const still = design.uptake + f.soakShift + f.batchShift + f.flaskShift;
				return (
					(f.uptake * (design.residue / f.residue) ** design.bench.exponent) /
						still -
					1
				);
			}),
		);
		expect(rootMeanSquare(days) / 0.03).toBeGreaterThan(0.8);
		expect(rootMeanSquare(days) / 0.03).toBeLessThan(1.25);
		const moistures = all("moisture determined once").flatMap((r) =>
			["W1", "S1", "L1"].map((flask) => {
				const found = r.flasks.find((row) => row.flask === flask);
				const truth = r.truth.flasks.find((f) => f.flask === flask);
				return (
					Number(found?.["moisture, wet basis (%)"]) - (truth?.moisture ?? 0)
				);
			}),
		);
		expect(rootMeanSquare(moistures)).toBeGreaterThan(0.8);
		expect(rootMeanSquare(moistures)).toBeLessThan(1.25);
	});
});
