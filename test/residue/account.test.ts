import { describe, expect, test } from "vitest";
import type { Flask } from "../../kernel-lib/bench";
import { accountOf, charMassOf } from "../../kernel-lib/residue";
import { charRow, type Row, steps } from "../uptake/sheets";

/** The account of a flask that stands beside an ordinary one. */
const account = (row: Row) => steps([row, charRow("other")]).found[0].account;
const liquid = (row: Row): number => account(row).liquid.in("mL");

describe("liquid when the aliquot was taken", () => {
	const wet = { "char mass (g)": 4, "moisture, wet basis (%)": 25 };
	const notMadeUp = { "made up to (mL)": "", "char in when made up": "" };

	test("made up with the char in: less half a millilitre a gram of dry char", () => {
		expect(
			liquid(charRow("a", { ...wet, "char in when made up": "yes" })),
		).toBeCloseTo(100 - 0.5 * 3, 9);
	});

	test("made up: what was in before does not count, the water of the char neither", () => {
		expect(liquid(charRow("a", { ...wet, "dose (mL)": 70 }))).toBeCloseTo(
			100,
			12,
		);
	});

	test("dry char brings no water", () => {
		expect(
			liquid(charRow("a", { ...notMadeUp, "mass basis": "dry" })),
		).toBeCloseTo(40, 12);
		expect(liquid(charRow("a", notMadeUp))).toBeCloseTo(40, 12);
	});

	test("a flask without char has no water of it and nothing that it displaces", () => {
		const blank: Row = {
			flask: "b",
			contents: "iodine blank",
			"dose (mL)": 40,
			"aliquot (mL)": 25,
			"titre (mL)": 5,
		};
		expect(liquid(blank)).toBeCloseTo(40, 12);
		expect(
			liquid({
				...blank,
				"made up to (mL)": 100,
				"char in when made up": "yes",
			}),
		).toBeCloseTo(100, 12);
	});

	test("a leachate taken is the liquid of leachates only", () => {
		expect(
			liquid(charRow("a", { ...notMadeUp, "leachate taken (mL)": 50 })),
		).toBeCloseTo(40, 12);
	});

	test("a leachate holds the part of it that was taken, and no char", () => {
		const leachate = (more: Row): number =>
			liquid(
				charRow("l", {
					contents: "leachate",
					"leachate (mL)": 100,
					"leachate taken (mL)": 50,
					...wet,
					...more,
				}),
			);
		expect(leachate({ "char in when made up": "yes" })).toBeCloseTo(100, 12);
		// 50 mL of leachate and a dose of 40 mL
		expect(leachate(notMadeUp)).toBeCloseTo(90, 12);
	});
});

test("water of the char is known only where the moisture is", () => {
	const water = (change: Row) =>
		charMassOf(steps([charRow("a", change)]).trial.flasks[0]).water;
	expect(water({})).toEqual({ known: false });
	expect(water({ "mass basis": "dry" })).toEqual({ known: false });
	const wet = water({ "char mass (g)": 4, "moisture, wet basis (%)": 25 });
	expect(wet.known && wet.mass.in("g")).toBeCloseTo(1, 12);
});

describe("withdrawals", () => {
	const row: Row = {
		flask: "a",
		treatment: "control",
		"char mass (g)": 1,
		"dose (mL)": 40,
		"withdrawn 1 (mL)": 10,
		"withdrawn 1 titre (mL)": 2,
		"made up to (mL)": 100,
		"char in when made up": "no",
		"aliquot (mL)": 25,
		"titre (mL)": 5,
	};

	test("what is made up after a withdrawal is whole again", () => {
		const found = account(row);
		expect(found.liquid.in("mL")).toBeCloseTo(100, 12);
		// 2 mL of 0.1 mol/L take 0.1 mmol of I2
		expect(found.withdrawn.in("mmol")).toBeCloseTo(0.1, 12);
		expect(found.withdrawn.name).toMatchObject({
			symbol: "n_{withdrawn}",
			meaning: "iodine (I2) withdrawn from flask a",
		});
	});

	test("without one nothing is withdrawn, exactly", () => {
		const { withdrawn } = account(charRow("a"));
		expect([withdrawn.value, withdrawn.standardUncertainty]).toEqual([0, 0]);
	});

	test("a portion that an instrument read belongs to no titrated flask", () => {
		const { trial, titrants } = steps([charRow("a")]);
		const [flask] = trial.flasks;
		const mixed = {
			...flask,
			events: [...flask.events, { is: "withdrawn and read" }],
		} as unknown as Flask;
		expect(() =>
			accountOf(mixed, titrants, { is: "none" }, trial.settings),
		).toThrow(/Flask a is not titrated/);
	});
});

test("duplicate titres are averaged within the flask", () => {
	const [found] = steps([
		charRow("a", { "titre (mL)": "", "titre 1 (mL)": 5, "titre 2 (mL)": 5.2 }),
	]).found;
	expect(found.titre.in("mL")).toBeCloseTo(5.1, 12);
	// 5.1 mL of 0.1 mol/L: 0.255 mmol in 25 of 100 mL
	expect(found.left.in("mmol")).toBeCloseTo(1.02, 12);
	expect(found.concentration.in("mmol/L")).toBeCloseTo(10.2, 9);
});
