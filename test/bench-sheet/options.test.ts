import { describe, expect, test } from "vitest";
import {
	checkRows,
	type TrialOptions,
	trialFromRows,
} from "../../kernel-lib/bench/index";
import { charRow, plainSolutions } from "../uptake/sheets";

const rows = { flasks: [charRow("1")], solutions: plainSolutions };

describe("the options that a sheet is read with", () => {
	const found = (options: object): string[] => {
		const checked = checkRows(rows, options as TrialOptions);
		return checked.ok ? [] : checked.problems.map((p) => p.code);
	};

	test.each([
		[{ drifft: "correct" }, ["option-unknown"]],
		[{ drift: "mend" }, ["option-wrong"]],
		[{ errorProbability: 0.5 }, ["option-wrong"]],
		[{ wavelengths: 664 }, ["option-wrong"]],
		[
			{ wavelengths: { first: 664, secnod: 800 } },
			["option-unknown", "option-missing"],
		],
		[{ wavelengths: { first: 664 } }, ["option-missing"]],
		[{ wavelengths: { first: -1, second: 800 } }, ["option-wrong"]],
		[
			{ absorptivities: [{ molarAbsorptivity: 74_000, source: "a table" }] },
			["option-missing"],
		],
		[
			{
				absorptivities: [
					{
						molarAbsorptivity: 0,
						standardUncertainty: 3700,
						source: "a table",
					},
				],
			},
			["option-wrong"],
		],
	])("%o", (options, codes) => {
		expect(found(options)).toEqual(codes);
	});

	test.each([
		[{ errorProbability: 0.499 }],
		[{ wavelengths: { first: 664, second: 800 } }],
		[
			{
				absorptivities: [
					{
						molarAbsorptivity: 74_000,
						standardUncertainty: 0,
						source: "a table",
					},
				],
			},
		],
	])("%o is taken", (options) => {
		expect(found(options)).toEqual([]);
	});

	test("an option of undefined counts as not given", () => {
		const { settings } = trialFromRows(rows, {
			probe: undefined,
			drift: undefined,
		});
		expect(settings).toEqual(trialFromRows(rows).settings);
	});

	test("the settings of a trial can be handed on to another", () => {
		const { settings } = trialFromRows(rows, { drift: "correct" });
		expect(trialFromRows(rows, settings).settings).toEqual(settings);
	});
});
