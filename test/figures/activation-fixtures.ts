// Invented numbers for the figures of activation runs.
import {
	type Drying,
	drying,
	type RinsesNeeded,
	rinsesNeeded,
	type Washout,
	washout,
} from "../../kernel-lib/activation/index";
import {
	activationsFromRows,
	type FiringSheet,
	type TypedRow,
} from "../../kernel-lib/bench/index";
import { exact, input } from "../../kernel-lib/quantity/index";
import {
	type ActivatedUptake,
	withActivation,
} from "../../kernel-lib/uptake/index";
import { rowOf, usualTruth } from "../activation/made-up-run";
import { sketchedUptake } from "./fixtures";

const wobble = [0.03, -0.02, 0.01, -0.03];
const washedRow: TypedRow = rowOf(
	usualTruth,
	(head) => (head.startsWith("rinse") ? wobble[Number(head[6]) - 1] : 0),
	"potash 1",
);
const pHRow: TypedRow = {
	"activation run": "acid 1",
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

const runsOf = (row: TypedRow): FiringSheet["firings"] =>
	activationsFromRows({ activation: [row] }).firings;

export const washed: Washout = washout(runsOf(washedRow)[0]);
export const refusedWash: Washout = washout(runsOf(washedRow)[0], "pH");
export const washedByPH: Washout = washout(runsOf(pHRow)[0], "pH");

function neededOf(
	w: Washout,
	target: Parameters<typeof rinsesNeeded>[1],
): RinsesNeeded {
	if (w.is === "refused") throw new Error(w.because);
	return rinsesNeeded(w, target);
}
export const needed: RinsesNeeded[] = [
	neededOf(washed, input("conductivity", 50, "µS/cm", exact, {})),
];
export const neededByPH: RinsesNeeded[] = [
	neededOf(washedByPH, input("pH", 6, "pH", exact, {})),
];

function driedOf(weighings: readonly (readonly [number, number])[]): Drying {
	const row: TypedRow = {
		"activation run": "potash 1",
		"precursor mass (g)": 40,
		...Object.fromEntries(
			weighings.flatMap(([time, mass], i): [string, number][] => [
				[`drying ${i + 1} time (h)`, time],
				[`drying ${i + 1} mass (g)`, mass],
			]),
		),
	};
	return drying(runsOf(row)[0]);
}
export const dried: Drying = driedOf([
	[0, 25.01],
	[1, 21.08],
	[2, 18.66],
	[4, 16.37],
	[6, 15.49],
	[9, 15.12],
]);
export const refusedDrying: Drying = driedOf([
	[0, 25.01],
	[1, 21.08],
]);

const firings = activationsFromRows({
	activation: ["wa1", "po1", "fi1"].map((name, i) => ({
		"activation run": name,
		precursor: "char",
		"precursor mass (g)": 20,
		"product mass (g)": [19.2, 16.4, 12.7][i],
		"step 1 temperature (°C)": [400, 700, 800][i],
	})),
});

export const activated: ActivatedUptake[] = withActivation(
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
	firings,
);
