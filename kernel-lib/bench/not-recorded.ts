import { quoted } from "../quantity";
import { roleOf } from "../substances";
import { inUse, isUsable } from "./deviations";
import type { Flask, NotRecorded, Solution, Trial } from "./trial";

interface Gap {
	readonly what: string;
	readonly limits: string;
	/** The same where no flask was titrated; "" where it reads alike. */
	readonly limitsOfReading?: string;
	readonly concerns: (flask: Flask) => boolean;
	readonly missing: (flask: Flask) => boolean;
}

const isChar = (f: Flask): boolean => f.contents === "char";
const holdsChar = (f: Flask): boolean => isChar(f) || f.contents === "leachate";
const isDosed = (f: Flask): boolean => f.contents !== "reagent blank";
const isTitrated = (f: Flask): boolean => isDosed(f) && !f.readings.recorded;

/** What a row may leave open, and what that limits. */
const gaps: readonly Gap[] = [
	{
		what: "moisture of the char",
		limits: "uptake is per gram as weighed, not per gram of dry char",
		concerns: isChar,
		missing: (f) => f.massBasis !== "dry" && !f.moisture.recorded,
	},
	{
		what: "soak or firing",
		limits:
			"flasks that share a soak are not replicates of the treatment: the verdict is about these lots only",
		concerns: isChar,
		missing: (f) => f.soak === "",
	},
	{
		what: "day",
		limits:
			"blanks cannot be matched to the flasks of their day, and days cannot be taken out of the comparison",
		concerns: () => true,
		missing: (f) => f.day === "",
	},
	{
		what: "acidified",
		limits:
			"in an alkaline aliquot the ratio of iodine to thiosulfate does not hold",
		concerns: isTitrated,
		missing: (f) => f.acidified === "not recorded",
	},
	{
		what: "final pH",
		limits:
			"whether alkali or acid from the soak disturbed the titration is not known",
		limitsOfReading:
			"whether alkali or acid from the soak changed the readings is not known",
		concerns: holdsChar,
		missing: (f) => !f.finalPH.recorded,
	},
	{
		what: "first runnings discarded",
		limits: "the filter may have taken up iodine from the aliquot",
		limitsOfReading:
			"the filter may have taken up some of what was dosed from the filtrate",
		concerns: isDosed,
		missing: (f) => f.firstRunningsDiscarded === "not recorded",
	},
	{
		what: "lid",
		limits: "iodine may have been lost to the air",
		concerns: isTitrated,
		missing: (f) => f.lid === "not recorded",
	},
	{
		what: "times of dosing and titrating",
		limits:
			"contact times are not known, so it is not known whether uptake was complete",
		concerns: isDosed,
		missing: (f) => !f.contactTime.recorded,
	},
];

/** Blanks that are missing among the flasks in use: those of titrated flasks and those of flasks that an instrument read. */
function missingBlanks(
	all: readonly Flask[],
	usable: readonly Flask[],
): NotRecorded[] {
	/** A blank that was recorded and is left out was recorded all the same. */
	const called = (what: string, of: readonly Flask[], contents: string) =>
		of.some((f) => f.contents === contents) ? `usable ${what}` : what;
	const reagent = [false, true].flatMap((read): NotRecorded[] => {
		const ofKind = (f: Flask): boolean => f.readings.recorded === read;
		const own = usable.filter(ofKind);
		if (
			own.every((f) => f.contents === "reagent blank") ||
			own.some((f) => f.contents === "reagent blank")
		)
			return [];
		return [
			{
				what: called("reagent blank", all.filter(ofKind), "reagent blank"),
				limits: read
					? "what the water, the filter and the char itself show is not taken off the readings"
					: "what the indicator and the water consume is not taken off the titres",
				flasks: [],
			},
		];
	});
	if (usable.length === 0 || usable.some((f) => f.contents === "iodine blank"))
		return reagent;
	const titrated = usable.some(isTitrated);
	return [
		...reagent,
		{
			what: called(
				titrated ? "iodine blank" : "dye blank",
				all,
				"iodine blank",
			),
			limits: titrated
				? "uptake includes what was lost to the air, the stopper and the filter"
				: "uptake includes what was lost to the glass, the stopper and the filter",
			flasks: [],
		},
	];
}

function gapsIn(flasks: readonly Flask[]): NotRecorded[] {
	const titrated = flasks.some(isTitrated);
	return gaps.flatMap((gap) => {
		const concerned = flasks.filter(gap.concerns);
		const missing = concerned.filter(gap.missing);
		return missing.length === 0
			? []
			: [
					{
						what: gap.what,
						limits: titrated ? gap.limits : (gap.limitsOfReading ?? gap.limits),
						flasks:
							missing.length === concerned.length
								? []
								: missing.map((f) => f.name),
					},
				];
	});
}

function solutionGaps({
	name,
	basis,
	standardisedOn,
	substance,
}: Solution): NotRecorded[] {
	if (basis.is !== "stated") return [];
	const found: NotRecorded[] = [];
	if (basis.concentration.quantity.standardUncertainty === 0)
		found.push({
			what: `uncertainty of ${quoted(name)}`,
			limits:
				"its concentration is taken as exact, so the results look surer than they are",
			flasks: [],
		});
	if (!standardisedOn.recorded && roleOf(substance) !== "other")
		found.push({
			what: `standardisation of ${quoted(name)}`,
			limits:
				"its concentration is as stated; iodine and thiosulfate change with time",
			flasks: [],
		});
	return found;
}

/** What the sheet does not say of the flasks and solutions in use, and what that limits. */
export function whatIsNotRecorded({
	flasks,
	solutions,
}: Pick<Trial, "flasks" | "solutions">): NotRecorded[] {
	const usable = flasks.filter(isUsable);
	return [
		...missingBlanks(flasks, usable),
		...gapsIn(usable),
		...inUse(solutions).flatMap(solutionGaps),
	];
}
