import { describe, expect, test } from "vitest";
import {
	dosesOf,
	missingDoses,
	type SeveralDoses,
} from "../../kernel-lib/compare/index";
import { throwProblems } from "../../kernel-lib/quantity/index";
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
