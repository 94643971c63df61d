import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test, vi } from "vitest";
import { readTrial, trialFromRows } from "../../kernel-lib/bench/index";
import { attach, inputMimeType } from "../../kernel-lib/notebook/attach";
import * as display from "../../kernel-lib/notebook/display";
import { inputSchema } from "../../kernel-lib/notebook/schema";
import { contentHash } from "../../kernel-lib/quantity/index";

function attached(trial: Parameters<typeof attach>[0]) {
	const emit = vi.spyOn(display, "emit").mockImplementation(() => {});
	attach(trial);
	const inputs = emit.mock.calls.map(([bundle]) =>
		inputSchema.parse(bundle[inputMimeType]),
	);
	emit.mockRestore();
	return inputs;
}

test("a trial is attached with all its files, byte for byte as they were read", () => {
	const folder = join(import.meta.dirname, "../../data/demo-run");
	const inputs = attached(readTrial(join(folder, "hazelnut.csv")));
	expect(inputs.map((i) => i.file).sort()).toEqual([
		"hazelnut.csv",
		"hazelnut.deviations.csv",
		"hazelnut.glassware.csv",
		"hazelnut.solutions.csv",
	]);
	for (const { file, base64, bytes, hash } of inputs) {
		const content = readFileSync(join(folder, file));
		expect(Buffer.from(base64, "base64").equals(content), file).toBe(true);
		expect(bytes).toBe(content.length);
		expect(hash).toBe(contentHash(content));
	}
});

test("of rows typed into a cell nothing is attached", () => {
	const trial = trialFromRows({
		flasks: [
			{
				flask: "1",
				treatment: "control",
				"char mass (g)": 1.02,
				"dose (mL)": 40,
				"made up to (mL)": 100,
				"aliquot (mL)": 25,
				"titre (mL)": 5.35,
			},
		],
		solutions: [
			{ solution: "iodine", substance: "iodine", "concentration (N)": 0.1 },
			{
				solution: "thiosulfate",
				substance: "sodium thiosulfate",
				"concentration (N)": 0.1,
			},
		],
	});
	expect(attached(trial)).toEqual([]);
});
