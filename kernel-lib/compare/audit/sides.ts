import type { Flask, Trial } from "../../bench";
import type { LooksLike } from "../../uptake";
import type { Observation } from "../observations";

/** The flasks of a treatment and of its control, as they were compared, and what stands around them. */
export interface Sides {
	readonly control: string;
	readonly treated: readonly Observation[];
	readonly untreated: readonly Observation[];
	readonly trial: Trial;
	/** True where no scatter could be judged: the word then rests on measuring errors alone. */
	readonly measuringErrorOnly: boolean;
}

/** Which difference between treated and control something could have made; "nothing" for what is only told. */
export type Feigns = "higher" | "lower" | "either" | "nothing";

/** What was recorded of one condition on the two sides. */
export type Looked =
	| { readonly is: "not recorded" }
	| {
			readonly is: "within" | "beyond";
			readonly feigns: Feigns;
			/** In a few words, as "72 h", "open in 6 of 6". */
			readonly treated: string;
			readonly untreated: string;
			/** Where the sheet shows that it does no harm at margins above so much, mg/g, and what shows it. */
			readonly harmless?: { readonly above: number; readonly by: string };
	  };

export const unrecorded: Looked = { is: "not recorded" };

/** Share of flasks that have something; 0 of none. */
export const shareWith = (
	flasks: readonly Flask[],
	has: (flask: Flask) => boolean,
): number =>
	flasks.length === 0 ? 0 : flasks.filter(has).length / flasks.length;

export const flasksOf = (side: readonly Observation[]): Flask[] =>
	side.map((o) => o.flask.flask);

const opposite: Readonly<Record<LooksLike, Feigns>> = {
	"more uptake": "lower",
	"less uptake": "higher",
	either: "either",
};
const straight: Readonly<Record<LooksLike, Feigns>> = {
	"more uptake": "higher",
	"less uptake": "lower",
	either: "either",
};

/** What a thing that acts on one side makes of the difference: what looks like uptake makes treated char look higher, and a control make it look lower. */
export const acting = (
	on: "treated" | "control",
	looksLike: LooksLike,
): Feigns => (on === "treated" ? straight : opposite)[looksLike];

/**
 * From this share of the flasks of one side on, beyond the share on the other, a condition lies on that side. Below it, so few of the flasks are concerned that leaving them out is a
 * matter of deviations. Our decision.
 */
export const ofOneSide = 0.5;
