import { readTrial } from "../../kernel-lib/bench/index";
import {
	calibrate,
	calibrationLines,
	residues,
} from "../../kernel-lib/residue/index";

const trial = readTrial(
	new URL("../../data/demo-dye/dye.csv", import.meta.url).pathname,
);

export const [dyeLine] = calibrationLines(trial);
export const dyeTrial = trial;
export const dyeResidues = residues(trial).filter((r) => r.is === "read");

/** Invented; bends as dimers make it. */
export const bentLine = calibrate(
	[0, 2, 4, 6, 8, 10].map((c, i) => ({
		concentration: c,
		signal: 0.003 + 0.21 * c - 0.004 * c * c + (i % 2 === 0 ? 0.002 : -0.002),
	})),
	{ name: "bent", model: "quadratic" },
);
