import { fixed, plainNumber, type Table, table } from "../../quantity";
import type { Comparison } from "../verdict";
import {
	type Component,
	type LevelName,
	mostFollowed,
	type Scatter,
	scatterOfTrial,
} from "./components";
import { type PairScatter, scatterOfPairs } from "./repetition";

const between: Readonly<Record<LevelName, string>> = {
	batch: "batches of char",
	day: "days",
	soak: "soaks of one treatment",
	flask: "flasks of one soak",
	titration: "titrations of one flask",
};

const notRepeated: Readonly<Record<LevelName, string>> = {
	batch: "no treatment has a second batch",
	day: "no treatment, of one batch, stood on a second day",
	soak: "no treatment has a second soak of one batch and day",
	flask: "no soak has a second flask on one day",
	titration: "no flask was titrated twice",
};

type NotKnown = Extract<Component, { readonly is: "not known" }>;
type Known = Exclude<Component, NotKnown>;

function whyNot({ name, why }: NotKnown): string {
	switch (why) {
		case "not recorded":
			return "not known (not recorded)";
		case "nothing repeated":
			return `not known (nothing repeated: ${notRepeated[name]})`;
		case "confounded":
			return "not known (it changed together with something else)";
		case "agree exactly":
			return "not known (repeats agree exactly, which says only that they were read coarsely)";
		case "contradiction":
			return "not known (what lies within it scatters more than chance allows)";
	}
}

const short = (x: number): string => plainNumber(Number(x.toPrecision(2)));

function deviationText(c: Known): string {
	const high = Math.sqrt(c.high);
	return c.is === "none seen"
		? `none seen, at most ${short(high)}`
		: `${short(Math.sqrt(c.estimate))} (${short(Math.sqrt(c.low))} to ${short(high)})`;
}

const percent = (share: number): string => fixed(100 * share, 0);

/** "64 %", or "61 to 66 %" where pairs differ. */
function overPairs(values: readonly number[]): string {
	if (values.length === 0) return "";
	const [low, high] = [Math.min(...values), Math.max(...values)].map(percent);
	return low === high ? `${low} %` : `${low} to ${high} %`;
}

function shareText({ name }: Known, pairs: readonly PairScatter[]): string {
	return name === "day"
		? "taken off"
		: overPairs(pairs.map((p) => p.shares.get(name) ?? 0));
}

/** Flasks whose soaks are not written down may be of one soak or of several. */
function betweenText(name: LevelName, { components }: Scatter): string {
	const soaks = components.some(
		(c) =>
			c.name === "soak" && c.is === "not known" && c.why === "not recorded",
	);
	return name === "flask" && soaks ? "flasks of one treatment" : between[name];
}

function holdsText({ holds }: Known): string {
	return holds.length === 0
		? ""
		: `, with the single ${holds.join(" and the single ")} of each`;
}

/** Whether titrations scatter more than reading them explains: said where their whole interval lies above it. Our decision. */
function readingNote({ components, reading }: Scatter): string[] {
	if (reading === 0) return [];
	const alone = `Reading the burette and seeing the end point alone explains a standard deviation of ${short(reading)} mg/g between titrations of one flask`;
	const seen = components.find((c) => c.name === "titration");
	if (seen === undefined || seen.is === "not known")
		return [`${alone}; no duplicates show whether the bench does worse.`];
	if (Math.sqrt(seen.low) > reading)
		return [
			`${alone}; they scatter more than that: look for the end point, the aliquot and what stands between two titrations.`,
		];
	return [`${alone}; duplicates do not show more than that.`];
}

function moreNote(
	{ scope, at }: Comparison,
	pairs: readonly PairScatter[],
): string[] {
	if (at.is === "isotherms")
		return [
			"Flasks were brought to the residue of the comparison along their isotherms, and what these followed of them is taken off, to first order; those that came from so far that an error of their residue counts more than twice as much as in the nearest one are left out. How the scatter of a difference is made up, and what one more of each would leave, is not said: on an isotherm a flask counts by its place on the curve.",
		];
	if (pairs.length === 0 && scope === "treatment")
		return [
			"What soaks scatter by themselves is not known, or no difference has an interval: how the scatter of a difference is made up cannot be said.",
		];
	if (pairs.length === 0)
		return [
			"How the scatter of a difference is made up, and what to repeat, is said where treatments have several soaks: a second soak comes before everything else.",
		];
	const [{ oneMore }] = pairs;
	return [
		`What one more would leave of the half-width of a difference, were the scatter as it was seen: ${oneMore
			.map(
				({ of }) =>
					`a ${of} more ${of === "soak" ? "of each treatment" : of === "flask" ? "in each soak" : "of each flask"} ${overPairs(pairs.map((p) => p.oneMore.find((m) => m.of === of)?.leaves ?? 1))}`,
			)
			.join(
				", ",
			)}. It ranks what to repeat and promises no width: errors that flasks share are not made smaller, and numbers of soaks are reckoned with the upper limit of the spread.`,
	];
}

/**
 * Where the scatter of a trial comes from: the standard deviation at each level, as it acts on the uptakes that are compared, with its interval, its share in the differences, and what to repeat next.
 */
export function scatterTable(c: Comparison): Table {
	const title = "Where the scatter comes from (mg/g)";
	const columns = [
		"between",
		"standard deviation (interval)",
		"degrees of freedom",
		"share in the differences",
	];
	const scatter = scatterOfTrial(c);
	if (scatter === null)
		return table(
			title,
			columns,
			[],
			[
				`No flask could be brought to the residue of the comparison, or more than ${mostFollowed} parameters of curves would have to be taken off.`,
			],
		);
	const pairs = scatterOfPairs(c, scatter);
	return table(
		title,
		columns,
		scatter.components.map((component) =>
			component.is === "not known"
				? [betweenText(component.name, scatter), whyNot(component), "", ""]
				: [
						`${betweenText(component.name, scatter)}${holdsText(component)}`,
						deviationText(component),
						component.degreesOfFreedom,
						shareText(component, pairs),
					],
		),
		[
			...readingNote(scatter),
			...moreNote(c, pairs),
			`Henderson's method of fitting constants, treatments fixed, each level fitted after those above it; ${percent(c.confidence)} % intervals of the variances by modified large samples (Ting and others, 1990, from memory), each by itself, for scatter that is normal and alike in all treatments. All uptakes stand at the residue of the comparison. Bounds are left out.`,
		],
	);
}
