import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { readSolute } from "../../kernel-lib/mixtures/index";

const folder = mkdtempSync(join(tmpdir(), "charledger-solute-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const read = (text: string): ReturnType<typeof readSolute> => {
	const path = join(folder, "solute.csv");
	writeFileSync(path, text);
	return readSolute(path);
};
const head = "solute,molar mass (g/mol),residue (mg/L),uptake (mg/g)\n";

test("residues and uptakes of one solute, with its name, in the units of the heads", () => {
	const solute = read(
		"solute,molar mass (g/mol),residue (g/L),uptake (mg/g)\ntannin,1701,0.002,30\n,,0.01,60\n",
	);
	expect(solute.name).toBe("tannin");
	expect(solute.molarMass).toBe(1701);
	expect(solute.points.probe).toBe("tannin");
	expect(solute.points.points.map((p) => [p.concentration, p.uptake])).toEqual([
		[2, 30],
		[10, 60],
	]);
	expect(solute.sources[0].file).toBe("solute.csv");
});

test("what is missing or said twice is told, all at once", () => {
	expect(() => read(`${head}a,100,1,\nb,100,,3\n`)).toThrow(
		/3 problems.*"a" and "b".*row 2.*the uptake of every row.*row 3.*the residue of every row/s,
	);
	expect(() => read(`${head},,1,2\n`)).toThrow(
		/2 problems.*no solute.*no molar mass/s,
	);
	expect(() => readSolute(join(folder, "nowhere.csv"))).toThrow(/no file at/);
});
