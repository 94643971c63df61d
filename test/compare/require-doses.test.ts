import { describe, expect, test } from "vitest";
import { readTrial, trialFromRows } from "../../kernel-lib/bench/index";
import {
	atSeveralResidues,
	compareTreatments,
	dosesOf,
	marginOf,
	missingDoses,
	residueOf,
	type SeveralDoses,
	severalDoses,
} from "../../kernel-lib/compare/index";
import { langmuir } from "../../kernel-lib/isotherms/index";
import { throwProblems } from "../../kernel-lib/quantity/index";
import { verdictSentence } from "../../kernel-lib/words/index";
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

	test("says nothing of iodine where another probe was dosed", () => {
		const dye = readTrial(
			new URL("../../data/demo-dye/dye.csv", import.meta.url).pathname,
		);
		let said = "";
		try {
			requireDoses(severalDoses(dye));
		} catch (error) {
			said = String(error);
		}
		expect(said).toContain("Add flasks");
		expect(said).not.toContain("iodine");
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

	test("needs no isotherm where a residue is stated: each flask is carried there", () => {
		const options = { margin, residue: residueOf(2500) };
		const { at } = compareTreatments(oneDose, options);
		expect([at.is, at.statedBy, at.residue.in("mg/L")]).toEqual([
			"carried",
			"the experimenter",
			2500,
		]);
		expect(atSeveralResidues(oneDose, options).rows).toHaveLength(1);
		expect(
			atSeveralResidues(oneDose, { ...options, confidence: 0.975 }).columns,
		).toContain("difference (mg/g), 97.5 % interval");
	});

	test("is refused where isotherms are given", () => {
		expect(() =>
			compareTreatments(oneDose, { margin, isotherms: [langmuir] }),
		).toThrow(tooFew);
	});

	test("without a stated residue the middle of what the flasks left is taken, in two digits, and the head says so", () => {
		const compared = compareTreatments(oneDose, { margin });
		const residues = compared.flasks.map((u) => u.residue.quantity.in("mg/L"));
		expect([compared.at.is, compared.at.statedBy]).toEqual([
			"carried",
			"nobody",
		]);
		expect(compared.at.residue.in("mg/L")).toBe(
			Number(Math.sqrt(residues[0] * residues[1]).toPrecision(2)),
		);
		expect(verdictSentence(compared, compared.verdicts[0])).toContain(
			"iodine left (not stated before the trial)",
		);
	});
});
