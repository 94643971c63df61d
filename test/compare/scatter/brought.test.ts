/** Flasks brought to the residue of the comparison along their isotherms, and where their scatter comes from. */
import { describe, expect, test } from "vitest";
import { marginOf, residueOf } from "../../../kernel-lib/compare";
import {
	type Brought,
	brought,
	followedByCurves,
	nearEnough,
} from "../../../kernel-lib/compare/scatter/brought";
import {
	type Scatter,
	scatterOfTrial,
} from "../../../kernel-lib/compare/scatter/components";
import { scatterOfPairs } from "../../../kernel-lib/compare/scatter/repetition";
import { scatterTable } from "../../../kernel-lib/compare/scatter/table";
import { freundlich, langmuir } from "../../../kernel-lib/isotherms";
import { compareAtResidue, type FlaskFixture, flasks } from "../fixtures";

const doses = [120, 180, 240, 300, 380, 480, 560, 640];
const k = 0.006;

/** The residue that 1 g in 100 mL leaves of a dose in mg, mg/L. */
function left(dose: number, plateau: number): number {
	const b = 0.1 + plateau * k - dose * k;
	return (-b + Math.sqrt(b * b + 4 * 0.1 * k * dose)) / (2 * 0.1 * k);
}

/** Flasks on a Langmuir isotherm, their residues off by so much (mg/L), in turn. */
const chars = (
	treatment: string,
	plateau: number,
	off: readonly number[],
	soak = "",
	of = doses,
): FlaskFixture[] =>
	of.map((dose, i) => {
		const residue = left(dose, plateau) + off[i % off.length];
		return {
			flask: `${treatment} ${soak} ${i + 1}`,
			treatment,
			control: treatment === "water" ? "" : "water",
			soak,
			uptake: dose - 0.1 * residue,
			residue,
			reading: 0.3,
			residueReading: 3,
		};
	});

const compared = (
	fixtures: readonly FlaskFixture[],
	isotherm = langmuir,
	at = 800,
) =>
	compareAtResidue(flasks(fixtures), {
		residue: residueOf(at),
		margin: marginOf(10),
		isotherms: [isotherm],
	});

const of = (scatter: Scatter | null, name: string) => {
	const found = scatter?.components.find((c) => c.name === name);
	if (found === undefined || found.is === "not known") throw new Error(name);
	return found;
};

describe("along its curve", () => {
	const c = compared([...chars("water", 300, [0]), ...chars("ash", 330, [0])]);

	test("a flask on it comes out where the curve stands at the residue", () => {
		const all = brought(c);
		expect(all).toHaveLength(16);
		for (const b of all)
			expect(b.value).toBeCloseTo(
				((b.of.treatment === "ash" ? 330 : 300) * 4.8) / 5.8,
				3,
			);
	});

	test("with the factor of the way and the steepness where it stood", () => {
		const [first] = brought(c);
		const residue = left(120, 300);
		const share = (r: number) => (k * r) / (1 + k * r);
		expect(first.factor).toBeCloseTo(share(800) / share(residue), 6);
		expect(first.slope).toBeCloseTo(1 / (1 + k * residue), 6);
	});

	test("what a plateau does, all flasks follow alike; what an affinity does, none at the residue itself", () => {
		const [first] = brought(c);
		const residue = left(120, 300);
		expect(first.pulls[0]).toBe(0);
		// d(ln q)/dK = 1/(K (1 + K C))
		const pull = (r: number) => 1 / (k * (1 + k * r));
		expect(first.pulls[1]).toBeCloseTo(
			((300 * 4.8) / 5.8) * (pull(residue) - pull(800)),
			1,
		);
	});

	test("each curve has columns of its own, none for a plateau", () => {
		const columns = followedByCurves(brought(c));
		expect(columns).toHaveLength(2);
		expect([...columns[0]].slice(8)).toEqual(Array(8).fill(0));
		expect([...columns[1]].slice(0, 8)).toEqual(Array(8).fill(0));
	});
});

describe("scatter about isotherms", () => {
	/** These leave 900 mg/L and more, where the curves are nearly flat. */
	const large = [380, 440, 500, 560, 620, 680, 740, 800];
	const off = [3, -3, -3, 3, 3, -3, 3, -3];
	const many = (treatment: string, plateau: number, soak = "") =>
		chars(treatment, plateau, off, soak, large);
	const c = compared(
		[...many("water", 300), ...many("ash", 330)],
		langmuir,
		2000,
	);
	const scatter = scatterOfTrial(c);

	test("two parameters of each curve are taken off: 16 flasks leave 12 degrees of freedom", () => {
		expect(of(scatter, "flask").degreesOfFreedom).toBe(12);
	});

	test("its size is that of the residues, carried: what 3 mg/L makes of each uptake at the residue of the comparison", () => {
		const squares = brought(c).map(({ stretch }) => (3 * stretch) ** 2);
		const mean = squares.reduce((a, b) => a + b, 0) / squares.length;
		// Squares by hand over 12 degrees of freedom in place of 16 flasks, less what the curves happened to follow.
		const part = of(scatter, "flask").estimate / mean;
		expect(part).toBeGreaterThan(0.9);
		expect(part).toBeLessThan(16 / 12);
	});

	test("soaks that lie apart are seen as such, beside flasks that do not", () => {
		const apart = [-8, 0, 8].flatMap((d, s) => [
			...many("water", 300 + d, `soak ${s}`),
			...many("ash", 330 - d, `soak ${s}`),
		]);
		const found = scatterOfTrial(compared(apart, langmuir, 2000));
		// 8 mg/g of plateau, at 12/13 of it.
		expect(Math.sqrt(of(found, "soak").estimate) / ((8 * 12) / 13)).toBeCloseTo(
			1,
			1,
		);
		// A curve for each soak: 48 flasks less 6 soaks and an affinity each.
		expect(of(found, "flask").degreesOfFreedom).toBe(36);
	});

	test("flasks that came from so far that their errors count more than twice are left out", () => {
		const at = (stretch: number) => ({ stretch }) as Brought;
		const near = [at(0.1), at(0.2), at(0.2 + 1e-9), at(0.15)];
		expect(nearEnough(near).map((b) => b.stretch)).toEqual([0.1, 0.2, 0.15]);
		expect(nearEnough([at(0), at(0)])).toHaveLength(2);
		const all = [...chars("water", 300, [0]), ...chars("ash", 330, [0])];
		const [first, , , , , , , last] = brought(compared(all));
		// 0.1 L/g of liquid and the rise of the curve, (mg/g)/(mg/L), times the factor of the way.
		const residue = left(120, 300);
		expect(first.stretch).toBeCloseTo(
			first.factor * (0.1 + (300 * k) / (1 + k * residue) ** 2),
			4,
		);
		expect(first.stretch).toBeGreaterThan(2 * last.stretch);
	});

	test("the table has it, and says what cannot be said on isotherms", () => {
		const table = scatterTable(c);
		expect(table.rows.map(([what]) => what)).toContain(
			"flasks of one treatment, with the single titration of each",
		);
		expect(table.rows.map((row) => row[3])).toEqual(Array(5).fill(""));
		expect(table.notes.join(" ")).toContain("by its place on the curve");
		if (scatter === null) throw new Error("nothing");
		expect(scatterOfPairs(c, scatter)).toEqual([]);
	});

	test("300 parameters of curves are taken off, and not one more", () => {
		const curvesOf = (curves: number) => {
			const [one] = c.fits;
			const fits = Array.from({ length: curves }, (_, n) => ({
				...one,
				used: one.used.map((p) => ({ ...p, flask: `${n} ${p.flask}` })),
			}));
			const compared = fits.flatMap((_, n) =>
				c.compared
					.filter((o) => o.treatment === "water")
					.slice(0, 2)
					.map((o) => ({ ...o, name: `${n} ${o.name}` })),
			);
			return scatterOfTrial({
				...c,
				compared,
				at: { ...c.at, fits },
			} as typeof c);
		};
		expect(curvesOf(300)).not.toBeNull();
		expect(curvesOf(301)).toBeNull();
	});

	test("flasks of a treatment without a curve are not in it, and without any there is nothing", () => {
		const some = compared(
			[
				...many("water", 300),
				...many("ash", 330),
				...many("lime", 330).slice(0, 2),
			],
			langmuir,
			2000,
		);
		expect(brought(some)).toHaveLength(16);
		const none = compared(
			[...many("water", 300).slice(0, 2), ...many("ash", 330).slice(0, 2)],
			freundlich,
		);
		expect(scatterOfTrial(none)).toBeNull();
		const table = scatterTable(none);
		expect(table.rows).toEqual([]);
		expect(table.notes).toEqual([
			"No flask could be brought to the residue of the comparison, or more than 300 parameters of curves would have to be taken off.",
		]);
	});
});
