import type { Flask } from "../../bench";
import { titrationPH } from "../../uptake";
import { contact, contactAllowance } from "./contact";
import { keptDeviations } from "./kept-deviations";
import { mishapNotes, otherNotes } from "./notes";
import { shares, texts } from "./shares";
import type { Looked, Sides } from "./sides";
import { soakMass } from "./soak-mass";
import {
	blankAllowance,
	controlNamed,
	glassware,
	losses,
	order,
	reagentBlank,
	recovery,
	recoveryAllowance,
} from "./whole-trial";

/** One thing that a sheet may record and that limits the word. */
export interface Condition {
	readonly name: string;
	/** Written in the sheet, or taken for granted where it says nothing. */
	readonly is: "recorded" | "assumed";
	/** What may be without harm. */
	readonly allowance: string;
	/** What lies beyond does. */
	readonly effect: string;
	readonly look: (sides: Sides) => Looked;
}

const titrated = (f: Flask): boolean => f.titrations.length > 0;

const alkaline = (f: Flask): boolean =>
	titrated(f) &&
	f.finalPH.recorded &&
	f.finalPH.value.value > titrationPH.high &&
	f.acidified !== "yes";
const strongAcid = (f: Flask): boolean =>
	titrated(f) && f.finalPH.recorded && f.finalPH.value.value < titrationPH.low;
const pHSaid = (f: Flask): boolean => titrated(f) && f.finalPH.recorded;

/**
 * Everything recorded that limits a word, in the order in which it is told. Allowances and effects are decisions of ours; moisture, batch, losses taken off one side only, soak remains and
 * contradictions are obstacles of their own.
 */
export const conditions: readonly Condition[] = [
	{
		name: "alkaline liquid titrated as it was",
		is: "recorded",
		allowance: `final pH of at most ${titrationPH.high}, or the aliquot acidified`,
		effect:
			"looks like more uptake, so that the word that it could have made is not said",
		look: shares({
			has: alkaline,
			says: pHSaid,
			looksLike: "more uptake",
			with: "alkaline and not acidified",
			without: "no",
			spoils: true,
		}),
	},
	{
		name: "strongly acid liquid",
		is: "recorded",
		allowance: `final pH of at least ${titrationPH.low}`,
		effect: 'may look like more or less uptake: then "cannot tell"',
		look: shares({
			has: strongAcid,
			says: pHSaid,
			looksLike: "either",
			with: `pH below ${titrationPH.low}`,
			without: "no",
			spoils: true,
		}),
	},
	{
		name: "blue that returned after the end point",
		is: "recorded",
		allowance: "in fewer than half of the flasks of a side",
		effect:
			'fines in the aliquot, an end point that is not sure: then "cannot tell"',
		look: shares({
			has: (f) => f.blueReturned === "yes",
			says: (f) => f.blueReturned !== "not recorded",
			looksLike: "either",
			with: "returned",
			without: "did not return",
			spoils: true,
		}),
	},
	{
		name: "lid",
		is: "recorded",
		allowance: "alike on both sides",
		effect:
			"an open flask loses iodine, which looks like more uptake, so that the word that it could have made is not said",
		look: shares({
			has: (f) => f.lid === "no",
			says: (f) => f.lid !== "not recorded",
			looksLike: "more uptake",
			with: "open",
			without: "closed",
			spoils: false,
		}),
	},
	{
		name: "first runnings of the filter",
		is: "recorded",
		allowance: "alike on both sides",
		effect:
			"a filter takes up iodine, which looks like more uptake, so that the word that it could have made is not said",
		look: shares({
			has: (f) => f.firstRunningsDiscarded === "no",
			says: (f) => f.firstRunningsDiscarded !== "not recorded",
			looksLike: "more uptake",
			with: "not discarded",
			without: "discarded",
			spoils: false,
		}),
	},
	{
		name: "contact time",
		is: "recorded",
		allowance: `means within ${100 * contactAllowance} %, or a plateau shown on the shorter side by flasks or withdrawals at double time (change under a third of the margin)`,
		effect:
			"longer contact looks like more uptake, so that the word that it could have made is not said",
		look: contact,
	},
	{
		name: "particle size",
		is: "recorded",
		allowance: "alike on both sides",
		effect: 'then "cannot tell"',
		look: texts((f) => f.particleSize),
	},
	{
		name: "grinding",
		is: "recorded",
		allowance: "alike on both sides",
		effect: 'then "cannot tell"',
		look: shares({
			has: (f) => f.groundFine === "yes",
			says: (f) => f.groundFine !== "not recorded",
			looksLike: "either",
			with: "ground fine",
			without: "not ground fine",
			spoils: false,
		}),
	},
	{
		name: "boiling in acid",
		is: "recorded",
		allowance: "alike on both sides",
		effect: 'then "cannot tell"',
		look: shares({
			has: (f) => f.acidBoiled === "yes",
			says: (f) => f.acidBoiled !== "not recorded",
			looksLike: "either",
			with: "boiled",
			without: "not boiled",
			spoils: false,
		}),
	},
	{
		name: "mass of what a soak left in the char",
		is: "assumed",
		allowance:
			"limited by strength and rinses, the conductivity of the last rinse, a neutral flask (alkalis) or the ash",
		effect:
			"is weighed as char and looks like less uptake: a limit widens the interval; taken to be nothing where there is none, which is told in the head",
		look: soakMass,
	},
	{
		name: "deviations that are kept",
		is: "recorded",
		allowance: "flasks without any on both sides",
		effect: 'then "cannot tell"',
		look: keptDeviations,
	},
	{
		name: "notes of a mishap",
		is: "recorded",
		allowance: "not on one side alone",
		effect: 'then "cannot tell"; write what is harmless in other words',
		look: mishapNotes,
	},
	{
		name: "notes",
		is: "recorded",
		allowance: "not on one side alone",
		effect: "told in the head",
		look: otherNotes,
	},
	{
		name: "recovery of the blanks without char",
		is: "recorded",
		allowance: `${recoveryAllowance.low} to ${recoveryAllowance.high}`,
		effect: "told in the head",
		look: recovery,
	},
	{
		name: "reagent blank",
		is: "recorded",
		allowance: `at most ${blankAllowance} mL`,
		effect: "told in the head",
		look: reagentBlank,
	},
	{
		name: "order of titration",
		is: "recorded",
		allowance: "treated and control in turn",
		effect: "told in the head",
		look: order,
	},
	{
		name: "losses",
		is: "assumed",
		allowance: "shown by blanks without char",
		effect: "told in the head",
		look: losses,
	},
	{
		name: "glassware",
		is: "assumed",
		allowance: "named in the sheet",
		effect:
			'told in the head; "cannot tell" where the word rests on measuring errors alone',
		look: glassware,
	},
	{
		name: "control",
		is: "assumed",
		allowance: "named in the sheet",
		effect: "told in the head",
		look: controlNamed,
	},
];
