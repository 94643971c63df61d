/** The same comparison at residues spread over what all treatments reached. */
import { expect, test } from "vitest";
import { readTrial } from "../../kernel-lib/bench";
import {
	atSeveralResidues,
	compareTreatments,
	marginOf,
	residueOf,
	severalDoses,
} from "../../kernel-lib/compare";
import { langmuir } from "../../kernel-lib/isotherms";

const trial = readTrial("data/demo-isotherm/isotherm.csv");
const options = { margin: marginOf(25), isotherms: [langmuir] };
const rounded = (x: number): number => Number(x.toPrecision(2));

test("a tenth and three tenths of the way on the logarithmic scale, just below the largest, and the one that was stated, in order", () => {
	const { low, high } = severalDoses(trial).common;
	const spread = [
		low * (high / low) ** 0.1,
		low * (high / low) ** 0.3,
		0.99 * high,
	].map(rounded);
	// What rounding lifts over the largest is left out.
	const kept = spread.filter((c) => c < high);
	const found = atSeveralResidues(trial, {
		...options,
		residue: residueOf(2000),
	});
	expect([...new Set(found.rows.map(([c]) => c))]).toEqual(
		[...kept, 2000].sort((a, b) => a - b),
	);
	expect(found.columns).toEqual([
		"residue (mg/L)",
		"treatment",
		"verdict",
		"difference (mg/g), 95 % interval",
	]);
	expect(found.notes).toHaveLength(1);
	expect(found.notes[0]).toContain("the one stated beforehand counts");
	// Each row is the comparison at its residue.
	const [own] = compareTreatments(trial, {
		...options,
		residue: residueOf(2000),
	}).verdicts;
	const row = found.rows.find(([c]) => c === 2000);
	expect(row?.slice(1, 3)).toEqual([own.treatment, own.word]);
	expect(new Set(found.rows.map((r) => r[3])).size).toBe(found.rows.length);
});
