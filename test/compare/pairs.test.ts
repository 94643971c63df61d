/** Who is compared with whom, and what is wrong with a sheet that says otherwise. */
import { describe, expect, test } from "vitest";
import { pairsOf } from "../../kernel-lib/compare/pairs";
import { flaskUptake } from "./fixtures";

type Row = readonly [flask: string, treatment: string, control: string];
const of = (...rows: readonly Row[]) =>
	pairsOf(
		rows.map(([flask, treatment, control], i) => {
			const u = flaskUptake({ flask, treatment, control, uptake: 1 });
			return {
				...u,
				flask: { ...u.flask, place: { ...u.flask.place, row: i + 2 } },
			};
		}),
	);
const problems = (...rows: readonly Row[]) =>
	of(...rows).problems.map(
		(p) => `${p.where.row} ${p.where.column}: ${p.code}, ${p.expected}`,
	);

describe("pairs", () => {
	test("in the order of the sheet; a control is compared where it names one itself, or where nobody names it", () => {
		expect(
			of(
				["1", "fired", "water"],
				["2", "water", ""],
				["3", "twice", "fired"],
				["4", "alone", ""],
				["5", "fired", "water"],
			),
		).toEqual({
			treatments: ["fired", "water", "twice", "alone"],
			pairs: [
				{ treatment: "fired", control: "water" },
				{ treatment: "twice", control: "fired" },
				{ treatment: "alone", control: "" },
			],
			problems: [],
		});
	});
	test("one flask that names the control is enough", () => {
		expect(
			of(["1", "water", ""], ["2", "steam", ""], ["3", "steam", "water"]).pairs,
		).toEqual([{ treatment: "steam", control: "water" }]);
	});
});

describe("problems, each at its cell", () => {
	const water: Row = ["1", "water", ""];
	test("a control that is not there, with the others that are", () => {
		expect(
			problems(water, ["2", "steam", "watr"], ["3", "smoke", "water"]),
		).toEqual([
			'3 control: control-not-there, one of the other treatments with char: "water", "smoke"',
		]);
		expect(problems(["1", "steam", "water"])).toEqual([
			"2 control: control-not-there, another treatment with char, and there is none",
		]);
	});
	test("a treatment as its own control, and several controls", () => {
		expect(problems(water, ["2", "steam", "steam"])).toEqual([
			"3 control: own-control, another treatment, or an empty cell for a control",
		]);
		expect(
			problems(
				water,
				["2", "smoke", "water"],
				["3", "steam", "water"],
				["4", "steam", "smoke"],
			),
		).toEqual(["4 control: several-controls, one control for each treatment"]);
	});
	test("no treatment, which is none of the treatments", () => {
		const found = of(water, ["2", "", "water"], ["3", "steam", "water"]);
		expect(found.treatments).toEqual(["water", "steam"]);
		expect(found.problems).toMatchObject([
			{ code: "treatment-missing", where: { row: 3, column: "treatment" } },
		]);
	});
	test("a flask more than once, told once, at its last row", () => {
		expect(
			of(water, ["1", "steam", "water"], ["1", "steam", "water"]).problems,
		).toMatchObject([{ code: "flask-name-twice", where: { row: 4 } }]);
	});
});
