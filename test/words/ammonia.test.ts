import { describe, expect, test } from "vitest";
import {
	compareTreatments as compareTrial,
	dosesOf,
	marginOf,
	missingDoses,
} from "../../kernel-lib/compare";
import { tooFewObstacle } from "../../kernel-lib/compare/residue-obstacles";
import { tableText } from "../../kernel-lib/quantity";
import { methodTable, nextSteps, obstacleReason } from "../../kernel-lib/words";
import { obstacleDose } from "../../kernel-lib/words/obstacle-words";
import {
	compareTreatments,
	type FlaskFixture,
	flasks,
	group,
} from "../compare/fixtures";
import { charRow, steps } from "../uptake/sheets";

const margin = marginOf(25);
const advice =
	/Dose (each|a) flask|Dose (them )?again|leachate, dosed|doses whose residues|[Mm]easure (some|more) flasks|Add at least|or dose about/;
const control = group("water", "", [98, 100, 102]);

const said = (treated: readonly FlaskFixture[]): string => {
	const c = compareTreatments(flasks([...control, ...treated]), { margin });
	return [nextSteps(c), methodTable(c)].map(tableText).join("\n");
};

describe.each<[string, Partial<FlaskFixture>]>([
	[
		"what is left of its soak may consume iodine",
		{
			demand: {
				is: "suspected",
				looksLike: "more uptake",
				because: "ammonia is alkaline",
			},
		},
	],
	["it stands at another residue", { residue: 900 }],
	["it ran dry", { is: "at least", reading: 120 }],
	["it was measured on other days", { day: "2" }],
])("a char where %s", (_, more) => {
	const treated = (ammonia: FlaskFixture["ammonia"]) =>
		group("steeped", "water", [198, 200, 202], { ...more, ammonia });

	test("is to be dosed again, where it holds no ammonia", () => {
		expect(said(treated("none named"))).toMatch(advice);
	});

	test("is not, where it may hold ammonia", () => {
		const text = said(treated("named"));
		expect(text).not.toMatch(advice);
		expect(text).toContain("rinse out and drive off the ammonia first");
	});

	test("is only with a condition, where its soak is not on the list", () => {
		expect(said(treated("not known"))).toContain(
			"Do so only if the char surely holds no ammonia",
		);
	});
});

test("too few doses and a residue that was not reached propose no dose to a char with ammonia", () => {
	const list = flasks(
		group("steeped", "water", [50, 60], { ammonia: "named" }),
	);
	const [doses] = dosesOf(list).treatments;
	const obstacle = tooFewObstacle(doses, list, 300);
	expect(obstacleDose(obstacle)).not.toMatch(advice);
	expect(obstacleDose(obstacle)).toContain("do not dose");
	expect(obstacleReason(obstacle)).not.toMatch(advice);
	const [problem] = missingDoses(dosesOf(list));
	expect(problem.mend).toContain("do not dose");
	expect(problem.mend).not.toContain("Add flasks");
});

test("residues that do not overlap propose no dose to a char with ammonia", () => {
	const at = (
		treatment: string,
		control: string,
		residues: readonly number[],
		ammonia: FlaskFixture["ammonia"],
	) =>
		residues.map((residue, i) => ({
			...group(treatment, control, [200], { residue, ammonia })[0],
			flask: `${treatment} ${i}`,
		}));
	const because = (ammonia: FlaskFixture["ammonia"]): string =>
		dosesOf(
			flasks([
				...at("water", "", [10, 20, 40, 80], "none named"),
				...at("steeped", "water", [200, 400, 800, 1600], ammonia),
			]),
		).because;
	expect(because("none named")).toMatch(/do not overlap.* Dose the flasks/);
	expect(because("named")).toMatch(/do not overlap.*do not dose/);
	expect(because("named")).not.toContain("Dose the flasks");
});

test.each(["ammonia", "NH4OH", "ammonium carbonate", "Salmiakgeist"])(
	"a sheet that names %s: nothing in what to do next advises a dose",
	(soakedIn) => {
		const { trial } = steps([
			charRow("c1"),
			charRow("c2"),
			...["s1", "s2"].map((name) =>
				charRow(name, {
					treatment: "steeped",
					control: "control",
					"soaked in": soakedIn,
					"titre (mL)": 3,
				}),
			),
		]);
		const c = compareTrial(trial, { margin: marginOf(10) });
		const text = [nextSteps(c), methodTable(c)].map(tableText).join("\n");
		expect(text).toContain("Do not dose; rinse out and drive off");
		expect(text).not.toMatch(advice);
	},
);
