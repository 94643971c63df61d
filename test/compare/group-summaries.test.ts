/** Each treatment's own mean and interval, by hand, and the table that shows them. */
import { describe, expect, test } from "vitest";
import { groupTable } from "../../kernel-lib/compare";
import { groupSummaries } from "../../kernel-lib/compare/group-summaries";
import { observationsOf } from "../../kernel-lib/compare/observations";
import { spreadOf } from "../../kernel-lib/compare/spread";
import { unitModelOf } from "../../kernel-lib/compare/unit-model";
import {
	compareTreatments,
	type FlaskFixture,
	flasks,
	group,
} from "./fixtures";

function summaries(
	fixtures: readonly FlaskFixture[],
	at?: number,
	treatments: readonly string[] = ["steam", "water"],
) {
	const observations = observationsOf(flasks(fixtures));
	const unitModel = unitModelOf(observations.list);
	return groupSummaries(
		treatments,
		{
			observations,
			unitModel,
			spread: spreadOf(unitModel.model, observations, "pooled"),
		},
		0.95,
		at,
	);
}
/** Two soaks each, pooled variance (8 + 2)/2 with two degrees of freedom. */
const trial = [
	...group("water", "", [100, 104], { residue: 400 }),
	...group("steam", "water", [150, 152], { residue: 200 }),
];
/** t of 0.975 with two degrees of freedom (tables). */
const half = 4.302653 * Math.sqrt(5 / 2);

describe("a treatment's own interval", () => {
	test("Student's t about the mean of its units", () => {
		expect(summaries(trial, 300)).toEqual([
			{
				treatment: "steam",
				units: 2,
				flasks: 2,
				boundFlasks: [],
				mean: 151,
				low: expect.closeTo(151 - half, 4),
				high: expect.closeTo(151 + half, 4),
				residue: 300,
				left: expect.closeTo(200, 9),
				is: "value",
			},
			expect.objectContaining({
				treatment: "water",
				mean: 102,
				left: expect.closeTo(400, 9),
			}),
		]);
	});
	test("at its own residue where none is common; a treatment without flasks has none", () => {
		const [steam, ...more] = summaries(trial, undefined, ["steam", "smoke"]);
		expect(steam.residue).toBeCloseTo(200, 9);
		expect(more).toEqual([]);
	});
	test("bounds stand at their limit, by name; a group of them alone is one", () => {
		const bound: FlaskFixture = {
			flask: "dry",
			treatment: "steam",
			soak: "dry",
			uptake: 190,
			is: "at least",
			residue: 200,
		};
		const [mixed] = summaries([bound, ...trial], 300);
		expect(mixed).toMatchObject({
			units: 3,
			flasks: 3,
			boundFlasks: ["dry"],
			mean: expect.closeTo(164, 9),
			is: "value",
		});
		const [alone] = summaries([...group("water", "", [100, 104]), bound], 300);
		expect(alone).toMatchObject({ is: "at least", mean: 190 });
	});
	test("no width where nothing scatters and nothing was read with an error", () => {
		const [still] = summaries(
			[...group("water", "", [100, 100]), ...group("steam", "", [150, 150])],
			300,
		);
		expect(still).toMatchObject({ mean: 150, low: 150, high: 150 });
	});
	test("flasks of a soak count once", () => {
		const soaks = summaries(
			[
				...group("water", "", [100, 104]),
				...group("steam", "water", [150, 170], { soak: "one" }),
				...group("steam", "water", [130], { soak: "two" }),
			],
			300,
		);
		expect(soaks[0]).toMatchObject({ units: 2, flasks: 3, mean: 145 });
	});
});

describe("the table of groups", () => {
	test("to the digits of its interval, residues to four, bounds by name and side", () => {
		const c = compareTreatments(flasks(trial), {});
		const [steam, water] = ["steam", "water"].map((t) =>
			c.groups.find((g) => g.treatment === t),
		);
		const groups = [
			{ ...steam, mean: 151.26, low: 144.2, high: 157.8, residue: 300.0001 },
			{ ...water, is: "at least", left: 412.3456, boundFlasks: ["a", "b"] },
		] as typeof c.groups;
		const { rows, columns } = groupTable({ ...c, groups });
		expect(rows[0]).toEqual([
			"steam",
			2,
			2,
			"151.3",
			"144.2 to 157.8",
			300,
			expect.any(Number),
			"",
		]);
		expect(rows[1][3]).toMatch(/^at least \d/);
		expect(rows[1].slice(6)).toEqual([412.3, "a, b"]);
		expect(columns[1]).toBe("soaks");
		expect(groupTable({ ...c, scope: "these lots" }).columns[1]).toBe(
			"flasks as units",
		);
	});
});
