import { oneDeterminationPoints } from "../bench";
import {
	type Comparison,
	findingsOf,
	lossesOf,
	perGramOf,
	residueText,
	type TreatmentVerdict,
	takesAs,
} from "../compare";
import { grouped, listed, quoted } from "../quantity";
import { assumedJarSpread } from "../uptake";
import { charBatchesOf } from "./char-batches";
import { findingText } from "./finding-words";
import { probeBlank } from "./probe-words";
import { decidedOtherwise, fewUnits, soakRoom } from "./verdict-clauses";
import { capital, flasksNamed, marginText, sentence } from "./wording";

type Line = (c: Comparison, told: readonly TreatmentVerdict[]) => string[];

const namesOf = (verdicts: readonly TreatmentVerdict[]): string =>
	listed(verdicts.map((v) => quoted(v.treatment)));

const hangOnDeviations: Line = (c) => {
	const hanging = c.verdicts.filter(
		(v) => v.withDeviations !== v.withoutDeviations,
	);
	return hanging.map(
		(v) =>
			`The word on ${quoted(v.treatment)} hangs on ${flasksNamed(c.deviations.flasks)}, touched by a deviation: "${v.withDeviations}" with, "${v.withoutDeviations}" without.`,
	);
};

const claimed: Line = (c, [first]) => {
	if (c.claim === "difference" || first === undefined) return [];
	const margin = marginText(c, first);
	return margin.is === "not known"
		? []
		: [`The claim set beforehand was "at least ${margin.value} more".`];
};

const oneBatch: Line = (c, told) => {
	const batches = told.map((v) => charBatchesOf(c, v.treatment));
	if (batches.some((own) => own.includes("")))
		return [
			"The char batch is not recorded for all flasks: the words are about the char at hand.",
		];
	const single = told.filter((_, i) => batches[i].length === 1);
	return [...grouped(single, (v) => charBatchesOf(c, v.treatment)[0])].map(
		([batch, own]) =>
			`${own.length === told.length ? "All treated char" : `The char of ${namesOf(own)}`} came from one batch, ${quoted(batch)}: another batch may answer differently.`,
	);
};

const residueNotStated: Line = ({ at }) =>
	at.statedBy === "nobody"
		? [
				`The residue at which they are compared, ${residueText(at.residue.in("mg/L"))}, was not stated before the trial.`,
			]
		: [];

const perGramAsWeighed: Line = (c, told) =>
	told.some((v) => perGramOf(c.compared, v) === "char as weighed")
		? [
				"Uptakes are per gram as weighed: moisture was not measured, and a difference in moisture looks like one in uptake.",
			]
		: [];

const lossesIncluded: Line = (c, told) =>
	told.some((v) => lossesOf(c.compared, v) === "included")
		? [
				`No ${probeBlank(c.probe)}: uptakes include losses of ${c.probe}, taken to be alike in treated and control flasks.`,
			]
		: [];

const soakAllowed: Line = (_, told) =>
	told.flatMap((v) => {
		const room = soakRoom(v);
		return room === ""
			? []
			: [
					`For what the soaks may have left the interval of ${quoted(v.treatment)} is wider by ${room}.`,
				];
	});

const recordedBeside: Line = (_, told) => {
	const findings = told.flatMap((v) =>
		findingsOf(v.audited).map((finding) => ({ v, finding })),
	);
	const lines = findings.map(({ v, finding }) => ({
		v,
		text:
			finding.is === "recorded"
				? `recorded beside it, ${findingText(finding)}`
				: `assumed, ${finding.treated}`,
	}));
	return [...grouped(lines, ({ text }) => text)].map(([text, own]) =>
		sentence(`${namesOf(own.map(({ v }) => v))}: ${text}`),
	);
};

const moistureOnce: Line = (c, told) =>
	told.some((v) => takesAs(c.compared, v, "moisture"))
		? [
				`Moisture is from one determination, taken as good to ${oneDeterminationPoints} point.`,
			]
		: [];

/** Replicates show by their scatter how jars differ. */
const jarsTaken: Line = (c, told) =>
	c.scope === "measuring error only" &&
	told.some((v) => takesAs(c.compared, v, "losses of jars"))
		? [
				`No two iodine blanks show how jars differ: taken as ${100 * assumedJarSpread} points of recovery.`,
			]
		: [];

const fewSoaks: Line = (c, told) => {
	const few = told.filter(
		({ units: { treated, control } }) => Math.min(treated, control) <= fewUnits,
	);
	return c.method.is !== "carried" ||
		c.scope !== "treatment" ||
		few.length === 0
		? []
		: [
				`With ${Math.min(...few.map(({ units }) => Math.min(units.treated, units.control)))} soaks a side the words on ${namesOf(few)} rest in part on soaks of all treatments scattering alike.`,
			];
};

const repeatsApart: Line = ({ compared }) => {
	const cautions = compared.flatMap(({ flask }) =>
		flask.cautions.map((text) => ({ text, name: flask.flask.name })),
	);
	return [...grouped(cautions, ({ text }) => text)].map(([text, own]) =>
		sentence(
			own.length > 3
				? `${text} (${own.length} flasks)`
				: `${capital(flasksNamed(own.map(({ name }) => name)))}: ${text}`,
		),
	);
};

/** The weightiest first: what turns a word before what widens its interval, what was assumed before what was seen. */
const lines: readonly Line[] = [
	hangOnDeviations,
	claimed,
	(c) => decidedOtherwise(c).map(sentence),
	oneBatch,
	residueNotStated,
	perGramAsWeighed,
	lossesIncluded,
	soakAllowed,
	recordedBeside,
	jarsTaken,
	moistureOnce,
	fewSoaks,
	repeatsApart,
];

/** What to know of this trial before its words are quoted, each once for all treatments, the weightiest first. */
export function beforeQuoting(c: Comparison): readonly string[] {
	const told = c.verdicts.filter((v) => v.word !== "cannot tell");
	return lines.flatMap((line) => line(c, told));
}
