import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Flask, TypedRow } from "../../kernel-lib/bench/index";
import { checkRows, trialFromRows } from "../../kernel-lib/bench/index";
import { plain } from "./plain-run";
import { brief, char, soundFlasks, soundSolutions } from "./rows";

/** A flask without its row number. */
function placeless(f: Flask): unknown {
	return JSON.parse(
		JSON.stringify(plain(f), (key, v) => (key === "row" ? undefined : v)),
	);
}

const volume = (min: number, max: number): fc.Arbitrary<number> =>
	fc.integer({ min: min * 100, max: max * 100 }).map((n) => n / 100);

/** Rows of char flasks in which nothing is wrong. */
const sheet: fc.Arbitrary<TypedRow[]> = fc
	.array(
		fc.record({
			treatment: fc.constantFrom("control", "potash", "soda"),
			mass: fc.integer({ min: 200, max: 3000 }).map((n) => n / 1000),
			doses: fc.array(volume(1, 50), { minLength: 1, maxLength: 3 }),
			aliquot: volume(5, 50),
			start: volume(0, 10),
			titre: volume(0, 30),
			moisture: fc.option(volume(0, 40), { nil: "" }),
		}),
		{ minLength: 1, maxLength: 12 },
	)
	.map((list) =>
		list.map((f, i) => ({
			flask: `f${i}`,
			treatment: i === 0 ? "control" : f.treatment,
			"char mass (g)": f.mass,
			"moisture, wet basis (%)": f.moisture,
			"dose 1 (mL)": f.doses[0],
			"dose 2 (mL)": f.doses[1] ?? "",
			"dose 3 (mL)": f.doses[2] ?? "",
			"made up to (mL)": 200,
			"aliquot (mL)": f.aliquot,
			"burette start (mL)": f.start,
			"burette end (mL)": Number((f.start + f.titre).toFixed(2)),
		})),
	);

describe("laws", () => {
	test("the order of the rows does not matter", () => {
		fc.assert(
			fc.property(
				sheet.chain((rows) =>
					fc.tuple(
						fc.constant(rows),
						fc.shuffledSubarray(rows, {
							minLength: rows.length,
							maxLength: rows.length,
						}),
					),
				),
				([rows, mixed]) => {
					const flasks = (r: TypedRow[]): Map<string, unknown> =>
						new Map(
							trialFromRows({
								flasks: r,
								solutions: soundSolutions,
							}).flasks.map((f) => [f.name, placeless(f)]),
						);
					const [a, b] = [flasks(rows), flasks(mixed)];
					expect(b.size).toBe(a.size);
					for (const [name, f] of a) expect(b.get(name)).toEqual(f);
				},
			),
			{ numRuns: 40 },
		);
	});

	test("the units of the sheet change nothing: values, uncertainties, problems", () => {
		const units: Record<string, readonly (readonly [string, number])[]> = {
			g: [
				["mg", 1e3],
				["kg", 1e-3],
				["µg", 1e6],
			],
			mL: [
				["L", 1e-3],
				["µL", 1e3],
				["cm3", 1],
			],
			"%": [["fraction", 0.01]],
		};
		fc.assert(
			fc.property(sheet, fc.nat(), (rows, seed) => {
				let k = seed;
				const heads = new Map<string, readonly [string, number]>();
				for (const head of Object.keys(rows[0])) {
					const m = /^(.*) \((.*)\)$/.exec(head);
					if (!m) continue;
					const choices = units[m[2]];
					const [unit, factor] = choices[k % choices.length];
					k = Math.floor(k / 3) + 7;
					heads.set(head, [`${m[1]} (${unit})`, factor]);
				}
				const other = rows.map((row) =>
					Object.fromEntries(
						Object.entries(row).map(([head, cell]) => {
							const [name, factor] = heads.get(head) ?? [head, 1];
							return [
								name,
								typeof cell === "number"
									? Number((cell * factor).toPrecision(12))
									: cell,
							];
						}),
					),
				);
				const read = (r: TypedRow[]): unknown =>
					JSON.parse(
						JSON.stringify(
							trialFromRows({
								flasks: r,
								solutions: soundSolutions,
							}).flasks.map((f) => plain(f, 10)),
							(key, v) => (key === "column" ? undefined : v),
						),
					);
				expect(read(other)).toEqual(read(rows));
			}),
			{ numRuns: 40 },
		);
	});

	test("no text in a cell throws or gives anything but a number, and an empty cell is never 0", () => {
		fc.assert(
			fc.property(
				fc.oneof(
					fc.string(),
					fc.stringMatching(/^[-+0-9., <>~%a-z±]{0,8}$/),
					fc.double(),
				),
				(cell) => {
					const checked = checkRows({
						flasks: [char("1", "control", 5, { "char mass (g)": cell })],
						solutions: soundSolutions,
					});
					if (!checked.ok) {
						for (const p of checked.problems) {
							expect(p.where).toMatchObject({ sheet: "flasks", row: 2 });
							expect(p.found).not.toBe("");
							expect(p.expected).not.toBe("");
							expect(p.mend).not.toBe("");
						}
						return;
					}
					const { charMass } = checked.value.flasks[0];
					if (!charMass.recorded) throw new Error("a char row without a mass");
					expect(charMass.value.value).toBeGreaterThan(0);
					expect(Number.isFinite(charMass.value.value)).toBe(true);
				},
			),
			{ numRuns: 500 },
		);
	});

	test("a problem stays where it is when rows before it are taken away", () => {
		const wrong = { ...soundFlasks[3], "char mass (g)": -1 };
		for (let n = 0; n <= 3; n++) {
			const flasks = [
				...soundFlasks.slice(n, 3),
				wrong,
				...soundFlasks.slice(4),
			];
			const checked = checkRows({ flasks, solutions: soundSolutions });
			expect(!checked.ok && checked.problems.map(brief)).toContain(
				`flasks ${5 - n} char mass (g): negative`,
			);
		}
	});
});
