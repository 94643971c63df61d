// Invented numbers for the figures of firings.
import {
	type Drying,
	dryings,
	type Washing,
	washouts,
} from "../../kernel-lib/activation/index";
import type { TypedRow } from "../../kernel-lib/bench/index";
import { exact, input } from "../../kernel-lib/quantity/index";
import { type FiringUptake, linkFirings } from "../../kernel-lib/uptake/index";
import { kilnOf } from "../activation/firings";
import { rowOf, usualTruth } from "../activation/made-up-firing";
import { sketchedUptake } from "./fixtures";

const wobble = [0.03, -0.02, 0.01, -0.03];
const washedRow: TypedRow = rowOf(
	usualTruth,
	(head) => (head.startsWith("rinse") ? wobble[Number(head[6]) - 1] : 0),
	"potash 1",
);
const pHRow: TypedRow = {
	firing: "acid 1",
	"precursor mass (g)": 40,
	agent: "H3PO4",
	"rinse water pH": 7,
	"rinse 1 (mL)": 200,
	"rinse 1 pH": 2.1,
	"rinse 2 (mL)": 200,
	"rinse 2 pH": 2.95,
	"rinse 3 (mL)": 200,
	"rinse 3 pH": 3.7,
	"rinse 4 (mL)": 200,
	"rinse 4 pH": 4.52,
};

function washingOf(row: TypedRow): Washing {
	const [washing] = washouts(kilnOf([row]), {
		conductivity: input("conductivity", 50, "µS/cm", exact, {}),
		pH: input("pH", 6, "pH", exact, {}),
	});
	return washing;
}
export const washed: Washing = washingOf(washedRow);
export const washedByPH: Washing = washingOf(pHRow);
export const washedTwice: Washing = washingOf(
	rowOf({ ...usualTruth, volumes: [200, 200] }),
);

function driedOf(weighings: readonly (readonly [number, number])[]): Drying {
	const [drying] = dryings(
		kilnOf([
			{
				firing: "potash 1",
				"precursor mass (g)": 40,
				...Object.fromEntries(
					weighings.flatMap(([time, mass], i): [string, number][] => [
						[`drying ${i + 1} time (h)`, time],
						[`drying ${i + 1} mass (g)`, mass],
					]),
				),
			},
		]),
	);
	return drying;
}
export const dried: Drying = driedOf([
	[0, 25.01],
	[1, 21.08],
	[2, 18.66],
	[4, 16.37],
	[6, 15.49],
	[9, 15.12],
]);
export const weighedTwice: Drying = driedOf([
	[0, 25.01],
	[1, 21.08],
]);

const kiln = kilnOf(
	["wa1", "po1", "fi1"].map((name, i) => ({
		firing: name,
		precursor: "char",
		"precursor mass (g)": 20,
		"product mass (g)": [19.2, 16.4, 12.7][i],
		"step 1 temperature (°C)": [400, 700, 800][i],
	})),
);

export const fired: readonly FiringUptake[] = linkFirings(
	[
		["1", "water", 300],
		["2", "water", 310],
		["3", "potash", 380],
		["4", "potash", 372],
		["5", "fired", 455],
		["6", "fired", 470],
		["7", "unknown", 250],
	].map(([name, treatment, uptake]) =>
		sketchedUptake({
			name: String(name),
			treatment: String(treatment),
			day: "1",
			uptake: Number(uptake),
			residue: 1000,
			...(name === "6" ? { bound: "at least" as const } : {}),
		}),
	),
	kiln,
);
