/** Titrations one by one, as if each were the only one of its flask. */
import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../../kernel-lib/bench";
import {
	compareTreatments,
	marginOf,
	residueOf,
	scatterOfTrial,
} from "../../../kernel-lib/compare";
import { brought } from "../../../kernel-lib/compare/scatter/brought";
import { singlesOf } from "../../../kernel-lib/compare/scatter/readings";
import { charRow, plainSolutions, type Row } from "../../uptake/sheets";

const pieces = [
	{ piece: "burette", "used for": "titre", "size (mL)": 50, class: "A" },
];
function compared(titres: Row) {
	const flask = (name: string, treatment: string, more: Row): Row =>
		charRow(name, {
			treatment,
			control: treatment === "water" ? "" : "water",
			soak: name,
			"titre (mL)": "",
			...more,
		});
	const c = compareTreatments(
		trialFromRows({
			flasks: [
				flask("w1", "water", titres),
				flask("w2", "water", { "titre 1 (mL)": 5.2 }),
				flask("s1", "steam", { "titre 1 (mL)": 4 }),
				flask("s2", "steam", { "titre 1 (mL)": 4.3 }),
			],
			solutions: plainSolutions,
			glassware: pieces,
		}),
		// Far from what the flasks leave, so that carrying counts
		{ margin: marginOf(35), residue: residueOf(5000) },
	);
	const [own] = brought(c);
	return { c, value: own.of.value, singles: singlesOf(own, 0.025) };
}
const alone = (titre: number) => compared({ "titre 1 (mL)": titre }).value;

describe("two titrations of a flask", () => {
	const { singles, value } = compared({
		"titre 1 (mL)": 4.99,
		"titre 2 (mL)": 5.01,
	});
	test("each as the comparison would have it alone, carried and all", () => {
		expect(singles).toHaveLength(2);
		// About 0.6 mg/g to either side; second order is a hundredth of a per cent of it
		expect(singles[0].value).toBeCloseTo(alone(4.99), 2);
		expect(singles[1].value).toBeCloseTo(alone(5.01), 2);
		expect(Math.abs(singles[0].value - singles[1].value)).toBeGreaterThan(1);
		expect((singles[0].value + singles[1].value) / 2).toBeCloseTo(value, 9);
	});
	test("its reading: half a drop and the burette, times what a millilitre does", () => {
		const perMillilitre = (alone(4.99) - alone(5.01)) / 0.02;
		const [own] = compared({ "titre 1 (mL)": 5 }).c.compared;
		const [reading] = own.flask.flask.titrations;
		if (reading.is !== "titre") throw new Error(reading.is);
		const burette = reading.titre.to("mL").standardUncertainty;
		expect(burette).toBeGreaterThan(0);
		for (const s of singles)
			expect(
				s.reading / (perMillilitre * Math.hypot(0.025, burette)),
			).toBeCloseTo(1, 3);
	});
});

test("start, end and refills of a burette are read one by one", () => {
	const readingOf = (row: Row) => compared(row).singles[0].reading;
	const plain = readingOf({
		"burette start 1 (mL)": 10,
		"burette end 1 (mL)": 15,
	});
	const refilled = readingOf({
		"burette start 1 (mL)": 46,
		"refilled at 1 (mL)": 49,
		"refilled to 1 (mL)": 1,
		"burette end 1 (mL)": 3,
	});
	const { c } = compared({
		"burette start 1 (mL)": 10,
		"burette end 1 (mL)": 15,
	});
	const [reading] = c.compared[0].flask.flask.titrations;
	if (reading.is === "titre") throw new Error(reading.is);
	const level = reading.end.to("mL").standardUncertainty;
	// Two levels against four
	expect(refilled / plain).toBeCloseTo(
		Math.hypot(0.025, 2 * level) / Math.hypot(0.025, Math.SQRT2 * level),
		3,
	);
});

test("a trial's error of reading is the root mean square of its titrations", () => {
	const { c } = compared({ "titre 1 (mL)": 4.99, "titre 2 (mL)": 5.01 });
	const all = brought(c).flatMap((b) =>
		singlesOf(b, c.trial.settings.endPoint),
	);
	expect(all).toHaveLength(5);
	expect(scatterOfTrial(c)?.reading).toBeCloseTo(
		Math.sqrt(all.reduce((sum, s) => sum + s.reading ** 2, 0) / 5),
		10,
	);
});

test("a flask that was not titrated stands as it is", () => {
	const { c } = compared({ "titre 1 (mL)": 5 });
	const [own] = brought(c);
	const of = {
		...own.of,
		flask: {
			...own.of.flask,
			flask: { ...own.of.flask.flask, titrations: [] },
		},
	};
	expect(singlesOf({ ...own, of }, 0.025)).toEqual([
		{ of, value: own.value, reading: 0 },
	]);
});
