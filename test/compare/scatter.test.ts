/** Where the scatter comes from: components of a comparison, the table, and what to repeat next. */
import { describe, expect, it } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import {
	compareTreatments as compareTrial,
	marginOf,
	scatterOfPairs,
	scatterOfTrial,
} from "../../kernel-lib/compare";
import { scatterTable } from "../../kernel-lib/compare/scatter";
import { nextSteps } from "../../kernel-lib/words";
import { charRow, plainSolutions, type Row } from "../uptake/sheets";
import { compareTreatments, type FlaskFixture, flasks } from "./fixtures";

/** Soaks of two flasks, each flask that much off the mean of its soak. */
function soaks(
	treatment: string,
	means: readonly number[],
	off: number,
	more: Partial<FlaskFixture> = {},
): FlaskFixture[] {
	return means.flatMap((mean, s) =>
		[-off, off].map((d, f) => ({
			flask: `${treatment}${s}${f}`,
			treatment,
			control: treatment === "water" ? "" : "water",
			soak: `${treatment} ${s}`,
			uptake: mean + d,
			...more,
		})),
	);
}

const compared = (means: readonly number[], off: number) =>
	compareTreatments(
		flasks([
			...soaks("water", means, off),
			...soaks(
				"steam",
				means.map((m) => m + 3),
				off,
			),
		]),
		{ margin: marginOf(8) },
	);

function partsOf(c: ReturnType<typeof compared>) {
	const scatter = scatterOfTrial(c);
	if (scatter === null) throw new Error("nothing");
	return { scatter, pairs: scatterOfPairs(c, scatter) };
}

const cell = (c: ReturnType<typeof compared>, start: string) =>
	scatterTable(c).rows.find(([name]) => String(name).startsWith(start));

describe("components and shares by hand", () => {
	// Soaks 96, 100, 104: mean square of means 16, of flasks 2 x 2^2 = 8; soaks 16 - 4 = 12, flasks 8.
	const c = compared([96, 100, 104], 2);
	const { scatter, pairs } = partsOf(c);

	it("variances", () => {
		const of = (name: string) => {
			const found = scatter.components.find((x) => x.name === name);
			if (found === undefined || found.is === "not known")
				throw new Error(name);
			return found;
		};
		expect(of("soak").estimate).toBeCloseTo(12, 6);
		expect(of("flask").estimate).toBeCloseTo(8, 6);
		expect(of("flask").holds).toEqual(["titration"]);
	});

	it("shares: soaks 2 x 12/3, flasks 2 x 8/6", () => {
		expect(pairs[0].shares.get("soak")).toBeCloseTo(0.75, 6);
		expect(pairs[0].shares.get("flask")).toBeCloseTo(0.25, 6);
	});

	it("a third flask leaves sqrt((8 + 16/9) / (32/3)); a fourth soak sqrt(3/4) and a smaller t", () => {
		const leaves = new Map(pairs[0].oneMore.map((m) => [m.of, m.leaves]));
		expect(leaves.get("flask")).toBeCloseTo(Math.sqrt(88 / 9 / (32 / 3)), 6);
		// t(0.975) of 6 and of 4 degrees of freedom (tables): 2.4469, 2.7764
		expect(leaves.get("soak")).toBeCloseTo(
			(Math.sqrt(0.75) * 2.4469) / 2.7764,
			4,
		);
		expect(leaves.has("titration")).toBe(false);
	});

	it("says so, and what to repeat", () => {
		const [deviation, df, share] = cell(c, "soaks")?.slice(1) ?? [];
		expect(deviation).toMatch(/^3\.5 \(0 to \d+\)$/);
		expect([df, share]).toEqual([4, "75 %"]);
		expect(cell(c, "flasks")?.[0]).toBe(
			"flasks of one soak, with the single titration of each",
		);
		expect(cell(c, "titrations")?.[1]).toBe(
			"not known (nothing repeated: no flask was titrated twice)",
		);
		expect(cell(c, "days")?.[1]).toBe("not known (not recorded)");
		const steps = nextSteps(c).rows.map(([, what]) => String(what));
		expect(steps.filter((s) => s.includes("narrows"))).toEqual([
			"Of single repetitions, one more soak of each treatment narrows the difference most.",
		]);
	});
});

describe("soaks that scatter less than their flasks", () => {
	it("none seen: another flask in each soak is as good as its share", () => {
		// Soaks 97, 100, 103: mean square 18, of flasks 32. A third flask leaves sqrt(2/3), a fourth soak sqrt(3/4) and a smaller t.
		const c = compared([97, 100, 103], 4);
		expect(cell(c, "soaks")?.[1]).toMatch(/^none seen, at most \d/);
		const leaves = new Map(
			partsOf(c).pairs[0].oneMore.map((m) => [m.of, m.leaves]),
		);
		expect(leaves.get("flask")).toBeCloseTo(Math.sqrt(2 / 3), 6);
		expect(leaves.get("soak")).toBeCloseTo(
			(Math.sqrt(0.75) * 2.4469) / 2.7764,
			4,
		);
	});

	it("far less, beyond chance: nothing is made of it", () => {
		const c = compared([99.5, 100, 100.5], 12);
		expect(cell(c, "soaks")?.[1]).toBe(
			"not known (what lies within it scatters more than chance allows)",
		);
		expect(partsOf(c).pairs).toEqual([]);
		expect(scatterTable(c).notes.join(" ")).toContain("cannot be said");
	});

	it("with soaks enough, a flask more in each is best", () => {
		// Eight soaks: a ninth leaves sqrt(8/9) times t(16)/t(14) = 2.1199/2.1448, a third flask sqrt(2/3).
		const c = compared([97, 100, 103, 97, 100, 103, 99, 101], 3);
		expect(partsOf(c).pairs[0].oneMore.map((m) => m.of)).toEqual([
			"flask",
			"soak",
		]);
	});
});

it("one soak of each: a second comes before everything else", () => {
	const c = compareTreatments(
		flasks([...soaks("water", [100], 2), ...soaks("steam", [110], 2)]),
		{ margin: marginOf(8) },
	);
	expect(partsOf(c).pairs).toEqual([]);
	expect(cell(c, "soaks")?.[1]).toContain(
		"not known (nothing repeated: no treatment has a second soak",
	);
	expect(scatterTable(c).notes.join(" ")).toContain(
		"a second soak comes before everything else",
	);
	expect(cell(c, "flasks of one soak")?.[3]).toBe("");
	expect(nextSteps(c).rows.flat().join(" ")).not.toContain("narrows");
});

it("batches on one side each are not known, and change nothing", () => {
	const c = compareTreatments(
		flasks([
			...soaks("water", [96, 100, 104], 2, { batch: "A", day: "1" }),
			...soaks("steam", [99, 103, 107], 2, { batch: "B", day: "1" }),
		]),
		{ margin: marginOf(8) },
	);
	expect(cell(c, "batches")?.[1]).toBe(
		"not known (nothing repeated: no treatment has a second batch)",
	);
	expect(partsOf(c).pairs[0].shares.get("soak")).toBeCloseTo(0.75, 6);
});

describe("the table", () => {
	const notes = (c: ReturnType<typeof compared>) =>
		scatterTable(c).notes.join(" ");

	it("what one more leaves, each by its name; no word of burettes where none was read", () => {
		// sqrt(88/9 / (32/3)) = 0.957; sqrt(3/4) 2.4469/2.7764 = 0.763
		const c = compared([96, 100, 104], 2);
		expect(notes(c)).toContain(
			"were the scatter as it was seen: a soak more of each treatment 76 %, a flask more in each soak 96 %. It ranks",
		);
		expect(notes(c)).not.toContain("burette");
		expect(cell(c, "flasks")?.[3]).toBe("25 %");
	});

	it("from the least to the most of pairs that differ", () => {
		// Shares of flasks: 2 x 8/6 of 32/3; with one flask a soak on the one side 8/3 + 8/6 of 8 + 4
		const single = [99, 103, 107].map((uptake, i) => ({
			flask: `k${i}`,
			treatment: "smoke",
			control: "water",
			soak: `smoke ${i}`,
			uptake,
		}));
		const c = compareTreatments(
			flasks([
				...soaks("water", [96, 100, 104], 2),
				...soaks("steam", [99, 103, 107], 2),
				...single,
			]),
			{ margin: marginOf(8) },
		);
		const shares = partsOf(c).pairs.map(
			(p) => 100 * (p.shares.get("flask") ?? 0),
		);
		expect(shares[1]).toBeGreaterThan(shares[0] + 1);
		expect(cell(c, "flasks")?.[3]).toBe(
			`${shares[0].toFixed(0)} to ${shares[1].toFixed(0)} %`,
		);
	});

	it("days are taken off where there are several, and soaks that are not written down may be one or several", () => {
		const onDays = (days: readonly string[], soak: string) =>
			compareTreatments(
				flasks(
					["water", "steam"].flatMap((treatment) =>
						days.flatMap((day, d) =>
							[-1, 0, 2].map((off, i) => ({
								flask: `${treatment}${d}${i}`,
								treatment,
								control: treatment === "water" ? "" : "water",
								soak: soak === "" ? "" : `${soak}${d}${i}`,
								day,
								uptake: 100 + 9 * d + off,
							})),
						),
					),
				),
				{ margin: marginOf(8) },
			);
		expect(cell(onDays(["1", "2"], "s"), "days")?.[3]).toBe("taken off");
		const unwritten = onDays(["1", "2"], "");
		expect(cell(unwritten, "flasks")?.[0]).toBe(
			"flasks of one treatment, with the single titration of each",
		);
		expect(cell(unwritten, "soaks of one treatment")?.[1]).toBe(
			"not known (not recorded)",
		);
		expect(cell(onDays(["1"], "s"), "days")?.[1]).toContain(
			"no treatment, of one batch, stood on a second day",
		);
	});

	it("what changes together, and what agrees to the last digit, is not known", () => {
		const c = compared([96, 100, 104], 2);
		if (c.at.is !== "carried") throw new Error(c.at.is);
		const each = c.compared.map((o, i) => ({
			...o,
			flask: {
				...o.flask,
				flask: { ...o.flask.flask, soak: "", day: `day ${i}` },
			},
		}));
		expect(cell({ ...c, compared: each }, "days")?.[1]).toBe(
			"not known (it changed together with something else)",
		);
		expect(cell(compared([100, 100, 100], 0), "soaks")?.[1]).toBe(
			"not known (repeats agree exactly, which says only that they were read coarsely)",
		);
	});
});

describe("titrations", () => {
	const flask = (name: string, treatment: string, titres: number[]): Row =>
		charRow(name, {
			treatment,
			control: treatment === "water" ? "" : "water",
			soak: name,
			"titre (mL)": titres.length > 1 ? "" : titres[0],
			...(titres.length > 1
				? { "titre 1 (mL)": titres[0], "titre 2 (mL)": titres[1] }
				: {}),
		});
	const read = (apart: number, first: number[] = [5 - apart, 5 + apart]) =>
		compareTrial(
			trialFromRows({
				flasks: [
					flask("w1", "water", first),
					flask("w2", "water", [5.2, 5.2 + apart]),
					flask("s1", "steam", [4 - apart, 4 + apart]),
					flask("s2", "steam", [4.3, 4.3 + apart]),
				],
				solutions: plainSolutions,
			}),
			{ margin: marginOf(35) },
		);

	it("each acts as it would if it were the only one", () => {
		const c = read(0.05);
		const valueWith = (titre: number): number => {
			const own = read(0.05, [titre]);
			return own.flasks[0].uptake.quantity.in("mg/g");
		};
		const scatter = scatterOfTrial(c);
		const low = valueWith(4.95);
		const high = valueWith(5.05);
		expect(low).toBeGreaterThan(high);
		// 1 mL of 0.1 mol/L on 25 of 100 mL is 50.76 mg of iodine; carrying adds to it.
		expect(low - high).toBeCloseTo(0.1 * 4 * 12.69, 1);
		expect(scatter?.reading).toBeGreaterThan(0.025 * 4 * 12.69);
	});

	it("stand in the table by themselves, with what one more of each flask would leave", () => {
		const c = compareTrial(
			trialFromRows({
				flasks: [
					flask("w1", "water", [4.95, 5.05]),
					flask("w2", "water", [5.2, 5.25]),
					flask("w3", "water", [4.7, 4.65]),
					flask("s1", "steam", [3.95, 4.05]),
					flask("s2", "steam", [4.3, 4.35]),
					flask("s3", "steam", [3.7, 3.65]),
				],
				solutions: plainSolutions,
			}),
			{ margin: marginOf(35) },
		);
		const { rows, notes } = c.scatter;
		expect(rows.map(([name]) => name)).toContain("titrations of one flask");
		expect(notes.join(" ")).toMatch(/a titration more of each flask \d+ %/);
	});

	it("scatter no more than reading explains, and more", () => {
		const note = (apart: number) => read(apart).scatter.notes[0];
		expect(note(0.02)).toContain("duplicates do not show more than that");
		expect(note(0.4)).toContain("they scatter more than that");
		expect(note(0)).toContain("no duplicates show");
	});
});
