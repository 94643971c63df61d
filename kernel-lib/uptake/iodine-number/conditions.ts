import { significant } from "../../quantity";
import type { TitratedResidue } from "../../residue";
import type { DosagePoint } from "./points";
import { d4607 } from "./standard";

/** One condition of the standard, and whether this trial met it. */
export interface Condition {
	readonly condition: string;
	readonly state: "met" | "not met" | "not recorded";
	readonly found: string;
}

const state = (met: boolean): "met" | "not met" => (met ? "met" : "not met");

/** What else the standard asks for, from memory. */
export const placesNotInSheet =
	"The sheet has no place for these, and whoever signs the figure vouches for them: the char dried at 150 °C, boiled in the acid for 30 s and cooled, shaken with the iodine for 30 s and filtered at once, 1.5 times as much potassium iodide as iodine by mass, thiosulfate of 0.1 N, a starch end point.";

/** A condition that the numbers of the sheet decide. */
function measuredAs(condition: string, met: boolean, found: string): Condition {
	return { condition, state: state(met), found };
}

/** A condition that the sheet holds a word on, or not. */
function recordedAs(
	words: readonly string[],
	condition: string,
	wanted: string,
): Condition {
	const known = words.filter((w) => w !== "not recorded");
	if (known.length === words.length)
		return {
			condition,
			state: state(known.every((w) => w === wanted)),
			found: [...new Set(known)].join(", "),
		};
	return known.some((w) => w !== wanted)
		? { condition, state: "not met", found: [...new Set(known)].join(", ") }
		: { condition, state: "not recorded", found: "not in the sheet" };
}

const mL = (values: readonly number[]): string =>
	[...new Set(values.map((v) => significant(v, 4)))].join(", ");

/** True when the volumes are those of the standard, so that its name may be used. */
export function standardVolumes(found: readonly TitratedResidue[]): boolean {
	return found.every(
		(r) =>
			near(dosed(r), d4607.iodineVolume_mL) &&
			near(r.flask.aliquot.in("mL"), d4607.aliquot_mL) &&
			near(acid(r), d4607.acidVolume_mL),
	);
}

/** N; what a difference of two stated strengths may be off by without saying anything. */
const rounding = 1e-9;

const near = (a: number, b: number): boolean => Math.abs(a - b) <= 0.01 * b;

function dosed(r: TitratedResidue): number {
	return r.flask.events.reduce(
		(sum, e) => (e.is === "dose" ? sum + e.volume.in("mL") : sum),
		0,
	);
}

function acid(r: TitratedResidue): number {
	return r.flask.events.reduce(
		(sum, e) => (e.is === "liquid added" ? sum + e.volume.in("mL") : sum),
		0,
	);
}

/** Every condition of ASTM D4607 that the sheet can speak to. */
export function conditionsOf(
	found: readonly TitratedResidue[],
	points: readonly DosagePoint[],
	correlation: number,
): Condition[] {
	const normalities = points.map((p) => p.normality.in("N"));
	const strength = found.map(
		(r) => (2 * r.account.added.in("mmol")) / dosed(r),
	);
	return [
		measuredAs(
			`at least ${d4607.leastDosages} dosages of char`,
			points.length >= d4607.leastDosages,
			String(points.length),
		),
		measuredAs(
			`every residual normality between ${d4607.windowLow_N} and ${d4607.windowHigh_N} N`,
			normalities.every(
				(c) => c >= d4607.windowLow_N && c <= d4607.windowHigh_N,
			),
			normalities.map((c) => c.toFixed(4)).join(", "),
		),
		measuredAs(
			`correlation coefficient of the log-log line at least ${d4607.leastCorrelation}`,
			correlation >= d4607.leastCorrelation,
			correlation.toFixed(5),
		),
		measuredAs(
			`${d4607.iodineVolume_mL} mL of iodine on ${d4607.acidVolume_mL} mL of acid, aliquots of ${d4607.aliquot_mL} mL`,
			standardVolumes(found),
			`${mL(found.map(dosed))} mL, ${mL(found.map(acid))} mL, ${mL(found.map((r) => r.flask.aliquot.in("mL")))} mL`,
		),
		measuredAs(
			`iodine of ${d4607.iodineNormality} N, within ${d4607.iodineNormalityTolerance} N`,
			strength.every(
				(n) =>
					Math.abs(n - d4607.iodineNormality) <=
					d4607.iodineNormalityTolerance + rounding,
			),
			`${[...new Set(strength.map((n) => n.toFixed(4)))].join(", ")} N`,
		),
		recordedAs(
			found.map((r) => r.flask.acidBoiled),
			"boiled in the acid before dosing",
			"yes",
		),
		recordedAs(
			found.map((r) => r.flask.firstRunningsDiscarded),
			"first runnings of the filter discarded",
			"yes",
		),
		recordedAs(
			found.map((r) =>
				r.flask.moisture.recorded || r.flask.massBasis === "dry"
					? "yes"
					: "not recorded",
			),
			"reported per gram of dry char",
			"yes",
		),
		recordedAs(
			found.map((r) => r.flask.groundFine),
			"ground fine (95 % through 45 µm; from memory, check your copy)",
			"yes",
		),
	];
}
