import { plainNumber } from "../quantity";
import { halfDrop } from "./glassware/end-point";
import {
	type LossRule,
	type TrialSettings,
	usualSettings,
} from "./trial-settings";

/** Settings of reading that nothing in a sheet decides: decisions of ours, which a laboratory may take otherwise. */
export type ReadingDecision = "losses" | "displacement" | "endPoint";

const lossTexts: Readonly<Record<LossRule, string>> = {
	"between the extremes": "from the dose and from what is left",
	"from the dose": "from the dose only",
	"from what is left": "from what is left only",
	"the blank is the dose": "none, the blank is the dose",
};

/** What each is about, and what it says: "losses from the dose only". */
export const readingDecisions: {
	readonly [K in ReadingDecision]: {
		readonly what: string;
		readonly says: (value: TrialSettings[K]) => string;
	};
} = {
	losses: {
		what: "losses",
		says: (rule) => lossTexts[rule],
	},
	displacement: {
		what: "liquid displaced by char",
		says: (value) => (value === 0 ? "none" : `${plainNumber(value)} mL/g`),
	},
	endPoint: {
		what: "end point error",
		says: (value) =>
			value === 0
				? "none"
				: `${plainNumber(value)} mL${value === halfDrop ? " (half a drop)" : ""}`,
	},
};

/** A decision that a sheet was read with, in words; "" where it is the usual one. */
function unusual<K extends ReadingDecision>(
	key: K,
	settings: TrialSettings,
): string {
	const { what, says } = readingDecisions[key];
	return settings[key] === usualSettings[key]
		? ""
		: `${what} ${says(settings[key])} (usually ${says(usualSettings[key])})`;
}

/** The decisions that a sheet was read with otherwise than usual. */
export function unusualDecisions(settings: TrialSettings): string[] {
	return (Object.keys(readingDecisions) as ReadingDecision[])
		.map((key) => unusual(key, settings))
		.filter((text) => text !== "");
}
