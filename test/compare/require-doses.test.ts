import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench/index";
import {
	atSeveralResidues,
	compareTreatments,
	dosesOf,
	marginOf,
	missingDoses,
	residueOf,
	type SeveralDoses,
} from "../../kernel-lib/compare/index";
import { langmuir } from "../../kernel-lib/isotherms/index";
import { throwProblems } from "../../kernel-lib/quantity/index";
import { char, soundSolutions } from "../bench-sheet/rows";
import { flasks, group } from "./fixtures";

/** Flasks of one treatment at these residues, mg/L. */
const at = (treatment: string, control: string, residues: readonly number[]) =>
	residues.map((residue, i) => ({
		...group(treatment, control, [200 + i])[0],
		flask: `${treatment} ${i + 1}`,
		residue,
	}));

const doses = dosesOf(
	flasks([
		...at("water", "", [50, 150, 500, 1500, 3000]),
		...at("steam", "water", [60, 900]),
	]),
);

const requireDoses = (doses: SeveralDoses, treatment = ""): void =>
	throwProblems(missingDoses(doses, treatment));

describe("a notebook whose every step needs an isotherm", () => {
	test("goes on with the treatment that has doses enough", () => {
		expect(() => requireDoses(doses, "water")).not.toThrow();
	});

	test("stops in a sentence at what lacks them, and says what to add", () => {
		expect(() => requireDoses(doses)).toThrow(
			/2 flasks of "steam", of which 2 could be read: 2 clearly different residues.*Add flasks/s,
		);
		expect(() => requireDoses(doses)).not.toThrow(/"water"/);
	});

	test("lists the names there are for one that is not there", () => {
		expect(() => requireDoses(doses, "Steam")).toThrow(
			/no treatment called "Steam".*"water" and "steam"/s,
		);
	});
});

describe("a comparison on isotherms that was asked for", () => {
	const margin = marginOf(25);
	const oneDose = trialFromRows({
		flasks: [char("c", "control", 5.35), char("s", "steam", 4.1)],
		solutions: soundSolutions,
	});
	const tooFew =
		/1 flask of "control".*1 flask of "steam".*expected doses enough for an isotherm.*Add flasks/s;

	test("is refused, and says what to add, where a residue is stated", () => {
		const options = { margin, residue: residueOf(2500) };
		expect(() => compareTreatments(oneDose, options)).toThrow(tooFew);
		expect(() => atSeveralResidues(oneDose, options)).toThrow(tooFew);
	});

	test("is refused where isotherms are given", () => {
		expect(() =>
			compareTreatments(oneDose, { margin, isotherms: [langmuir] }),
		).toThrow(tooFew);
	});

	test("is not asked for where neither is: each at its own residue", () => {
		expect(compareTreatments(oneDose, { margin }).at.is).toBe("own residues");
	});
});
