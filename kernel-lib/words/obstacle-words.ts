import type { Dosing, Finding, Missing, Obstacle } from "../compare";
import { residueText } from "../compare";
import { listed, plainNumber, quoted } from "../quantity";
import {
	contradictionsTold,
	safeToDose,
	soakMay,
	soakMayLook,
} from "../uptake";
import { findingText } from "./finding-words";
import { probeBlank, probeCounted } from "./probe-words";
import { capital, flasksNamed, roughly, sentence } from "./wording";

/** "raised the difference by up to 5 mg/g", "lowered it by up to 2 mg/g", or both. */
export function raisedOrLowered({
	low,
	high,
}: {
	readonly low: number;
	readonly high: number;
}): string {
	return listed([
		...(low > 0 ? [`raised the difference by up to ${roughly(low)} mg/g`] : []),
		...(high > 0
			? [
					`lowered ${low > 0 ? "it" : "the difference"} by up to ${roughly(high)} mg/g`,
				]
			: []),
	]);
}

/** So many flasks are named, more are counted. */
const mostNamed = 3;

const batchesText = (names: readonly string[]): string =>
	`${names.length === 1 ? "batch" : "batches"} ${listed(names.map(quoted))}`;

/** After "cannot tell: ", in the head of the page. */
export function obstacleHeadline(o: Obstacle): string {
	switch (o.is) {
		case "no control":
			return "there is no control to compare it with";
		case "no treated flask":
			return "none of its flasks is left";
		case "no control flask":
			return "none of its control's flasks is left";
		case "no common day":
			return "treatment and day cannot be distinguished";
		case "no spread":
			return "there is nothing to judge the difference by";
		case "bounds on both sides":
			return "bounds on both sides";
		case "only bounds":
			return `${flasksNamed(o.flasks)} gave only a bound`;
		case "unlike grams":
			return "not per gram of the same thing";
		case "unlike losses":
			return "losses were taken off one side only";
		case "unlike residues":
			return "residues differ, and how steeply uptake grows with the residue was not measured";
		case "carried too far":
			return `the flasks of ${quoted(o.treatment)} left too little or too much for ${residueText(o.residue)}`;
		case "unlike batches":
			return `all of the control is ${batchesText(o.control)}, all of the treated ${batchesText(o.treated)}`;
		case "one soak":
			return `${listed(o.treatments.map(quoted))} had one soak only`;
		case "contradiction":
			return `the numbers of ${o.flasks.length > mostNamed ? `${o.flasks.length} flasks` : flasksNamed(o.flasks)} cannot all be right`;
		case "soak remains":
			return `what is left of its ${o.ofControl ? "control's " : ""}soak ${soakMay[o.looksLike]}`;
		case "soak allowance":
			return "what is left of a soak may have made the difference";
		case "unlike conditions":
			return conditionHeadline(o);
		case "no flask left":
			return `no flask of ${quoted(o.treatment)} is left`;
		case "too few doses":
			return `${quoted(o.doses.treatment)} has too few doses for an isotherm`;
		case "residue not reached":
			return `${residueText(o.residue)} lies outside the residues that ${quoted(o.treatment)} reached`;
		case "isotherm not determined":
			return `the isotherm of ${quoted(o.treatment)} is not determined`;
	}
}

type MissingObstacle = Extract<Obstacle, { is: Missing }>;

function missingReason(o: MissingObstacle): string {
	const { treatment, control } = o;
	switch (o.is) {
		case "no control":
			return `The sheet names no control for ${quoted(treatment)}: add flasks of char that was handled alike in everything but the treatment, and name them in the column "control".`;
		case "no treated flask":
			return `Every flask of ${quoted(treatment)} was left out because of a deviation, so that there is nothing to compare.`;
		case "no control flask":
			return `Every flask of the control ${quoted(control)} was left out because of a deviation, so that there is nothing to compare with.`;
		case "no common day":
			return `${quoted(treatment)} and its control ${quoted(control)} were not measured on common days, so that a difference between them may be one between days. ${safeToDose(o.ammonia, "Measure some flasks of both on the same day.")}`;
		case "no spread":
			return `The flasks of ${quoted(treatment)} and ${quoted(control)} show no scatter and no measuring error is stated, so that no interval can be given. ${safeToDose(o.ammonia, "State the glassware, or measure more flasks.")}`;
		case "bounds on both sides":
			return `Flasks of ${quoted(treatment)} and of its control ${quoted(control)} gave only bounds that pull in opposite directions, so that nothing is known of the difference. ${safeToDose(o.ammonia, "Dose them again so that a residue and an uptake can be measured.")}`;
	}
}

/** What forbids a word, in short: "what is left of its soak may consume iodine". */
export function obstaclesText(obstacles: readonly Obstacle[]): string {
	return listed([...new Set(obstacles.map(obstacleHeadline))]);
}

function boundReason(o: Extract<Obstacle, { is: "only bounds" }>): string {
	const flasks = capital(flasksNamed(o.flasks));
	const remedy = o.dilute
		? "Dilute what is left of the filtrate and read it again."
		: safeToDose(o.ammonia, "Dose again so that a residue can be measured.");
	const [without, atLimit] = o.found;
	return without === atLimit
		? `${flasks} gave only a bound, which can show "${o.provable}" and nothing else. The interval does not show that, neither without it nor with it at its limit. ${remedy}`
		: `${flasks} gave only a bound: without it the word would be "${without}", with it at its limit "${atLimit}". Only what holds both ways and on the bound's own side ("${o.provable}") is said. ${remedy}`;
}

function residuesReason({
	word,
	treatment,
	residues,
	slopes,
	ammonia,
}: Extract<Obstacle, { is: "unlike residues" }>): string {
	return `${quoted(treatment)} left ${roughly(residues.treated)} mg/L and its control ${roughly(residues.control)} mg/L; uptake grows with the residue. How steeply was not measured, and "${word}" does not hold for every 1/n from ${plainNumber(slopes.low)} to ${plainNumber(slopes.high)}. ${safeToDose(ammonia, "A second dose in each treatment, at least 1.5 times the first, would measure it.")}`;
}

function soakReason(o: Extract<Obstacle, { is: "soak remains" }>): string {
	const what = `What is left of the soak of ${quoted(o.treatment)} ${soakMayLook[o.looksLike]} (${flasksNamed(o.flasks)}: ${listed(o.because)}), so that "${o.word}" is not said`;
	return o.ammonia === "none named"
		? sentence(`${what}; a leachate, dosed and titrated, would settle it`)
		: `${sentence(what)} ${safeToDose(o.ammonia, "A leachate, dosed and titrated, would settle it.")}`;
}

function allowanceReason(
	o: Extract<Obstacle, { is: "soak allowance" }>,
): string {
	return `What is left of the soaks of ${quoted(o.treatment)} and ${quoted(o.control)} may have ${raisedOrLowered(o)} (${o.steps.join("; ")}), so that "${o.word}" is not said. Rinse further and read the last rinse beside that of the control: pH and conductivity, and, where it surely holds no ammonia, the iodine that it consumes.`;
}

type Conditions = Extract<Obstacle, { is: "unlike conditions" }>;

const ofKind = (o: Conditions, is: Finding["is"]): readonly Finding[] =>
	o.findings.filter((f) => f.is === is);

function conditionHeadline(o: Conditions): string {
	const recorded = ofKind(o, "recorded").map(findingText);
	const assumed = ofKind(o, "assumed").map((f) => f.treated);
	return listed([
		...(recorded.length > 0
			? [`${listed(recorded)} may have made it look so`]
			: []),
		...(assumed.length > 0
			? [`the word would rest on ${listed(assumed)}, which was assumed`]
			: []),
	]);
}

function conditionReason(o: Conditions): string {
	const recorded = ofKind(o, "recorded").map(findingText);
	const assumed = ofKind(o, "assumed").map((f) => f.treated);
	return [
		...(recorded.length > 0
			? [
					`${quoted(o.treatment)} and its control ${quoted(o.control)} were not alike in everything but the treatment: ${listed(recorded)}. That by itself could look like "${o.word}"; by how much is not known. ${safeToDose(o.ammonia, "Handle flasks of both alike and measure them again.")}`,
				]
			: []),
		...(assumed.length > 0
			? [
					`With one flask a treatment the word would rest on ${listed(assumed)}, which was assumed. Name what you measured with in a table of glassware (piece, used for, size, class or tolerance), or make more flasks.`,
				]
			: []),
	].join(" ");
}

/** What would mend it, by itself; "" for what only its reason tells, or no more than a dose. */
export function obstacleRemedy(o: Obstacle): string {
	switch (o.is) {
		case "only bounds":
			return o.dilute
				? `Dilute what is left of the filtrate of ${flasksNamed(o.flasks)} and read it again.`
				: safeToDose(
						o.ammonia,
						`Dose ${flasksNamed(o.flasks)} again so that a residue can be measured.`,
					);
		case "soak remains":
			return safeToDose(o.ammonia, "Dose and titrate a leachate of its char.");
		case "soak allowance":
			return "Rinse further and read the last rinse beside that of the control.";
		case "one soak":
			return "Soak further portions of its char on their own.";
		case "unlike batches":
			return "Treat char of a batch that a control comes from.";
		case "unlike grams":
			return "Give the moisture of all flasks.";
		case "bounds on both sides":
			return safeToDose(
				o.ammonia,
				"Dose its flasks and those of its control again so that a residue and an uptake can be measured.",
			);
		case "no common day":
			return safeToDose(
				o.ammonia,
				"Measure some flasks of it and of its control on the same day.",
			);
		default:
			return "";
	}
}

/** A full sentence: why, and what would mend it. */
export function obstacleReason(o: Obstacle): string {
	switch (o.is) {
		case "only bounds":
			return boundReason(o);
		case "unlike grams":
			return `Some uptakes of ${o.treatments.map(quoted).join(" and ")} are per gram of dry char and some per gram as weighed: give the moisture of all of them.`;
		case "unlike losses":
			return `On one day losses of ${o.probe} were taken off some flasks of ${quoted(o.treatment)} and ${quoted(o.control)} and not off others: ${o.probe === "iodine" ? "an" : "a"} ${probeBlank(o.probe)} must serve both or neither.`;
		case "unlike residues":
			return residuesReason(o);
		case "unlike batches":
			return `Treated and control char came from different batches (${listed(o.treated.map(quoted))} against ${listed(o.control.map(quoted))}): a difference between batches looks like one of the treatment. Treat char of a batch that a control comes from.`;
		case "one soak":
			return `${listed(o.treatments.map(quoted))} had one soak only. How far its soaks lie apart is not known, whatever those of other treatments do: a difference may be one between soaks. Soak further portions of its char on their own.`;
		case "contradiction":
			return contradictionsTold(o.ofPair).join(" ");
		case "soak remains":
			return soakReason(o);
		case "soak allowance":
			return allowanceReason(o);
		case "unlike conditions":
			return conditionReason(o);
		case "no flask left":
			return `Every flask of ${quoted(o.treatment)} was left out because of a deviation, so that there is no isotherm to read.`;
		case "too few doses":
			return `${quoted(o.doses.treatment)} shows ${o.doses.because}, so that its uptake at ${residueText(o.residue)} cannot be read off a curve.`;
		case "carried too far":
			return `The flasks of ${quoted(o.treatment)} left ${residueText(o.range.low)} to ${residueText(o.range.high)} of ${o.dosing.probe}; without a slope measured by two doses or more they are not carried further than three times up or down, and ${residueText(o.residue)} lies beyond.`;
		case "residue not reached":
			return `The flasks of ${quoted(o.treatment)} left ${residueText(o.range.low)} to ${residueText(o.range.high)} of ${o.dosing.probe}; at ${residueText(o.residue)} its isotherm would be carried on beyond what was measured.${o.otherUnit ? " Was it meant in the other unit, g/L for mg/L?" : ""}`;
		case "isotherm not determined":
			return `The ${o.isotherm} isotherm of ${quoted(o.treatment)} gives no uptake with an error: ${o.because}.`;
		default:
			return missingReason(o);
	}
}

function flaskText({ flask }: Dosing): string {
	return `${Number(flask.char.toPrecision(2))} g of char in ${Number((1000 * flask.liquid).toPrecision(2))} mL`;
}

/** The dose that would make the residues comparable; "" for obstacles that no dose removes. */
export function obstacleDose(o: Obstacle): string {
	switch (o.is) {
		case "unlike residues": {
			const less = o.doseChange < 0;
			return safeToDose(
				o.ammonia,
				`Dose each flask of ${quoted(o.treatment)} with about ${roughly(Math.abs(o.doseChange))} mg ${probeCounted(o.probe)} ${less ? "less" : "more"}, or its control with as much ${less ? "more" : "less"}: a first-order estimate, since the uptake shifts with the residue.`,
			);
		}
		case "too few doses":
			return safeToDose(
				o.dosing.ammonia,
				`Make flasks of ${quoted(o.doses.treatment)} at four or more doses whose residues lie on both sides of ${residueText(o.residue)}: with ${flaskText(o.dosing)} about ${roughly(o.from)} to ${roughly(o.to)} mg of ${probeCounted(o.dosing.probe)}, as if each gram took up ${roughly(o.uptake)} mg as now.`,
			);
		case "carried too far":
			return safeToDose(
				o.dosing.ammonia,
				`Dose flasks of ${quoted(o.treatment)} with about ${roughly(o.dose)} mg of ${probeCounted(o.dosing.probe)} for ${flaskText(o.dosing)}: a first estimate, as if each gram took up ${roughly(o.uptake)} mg.`,
			);
		case "residue not reached":
			return safeToDose(
				o.dosing.ammonia,
				`Dose a flask of ${quoted(o.treatment)} with about ${roughly(o.dose)} mg of ${probeCounted(o.dosing.probe)} for ${flaskText(o.dosing)}: a first estimate, its isotherm carried on to there.`,
			);
		default:
			return "";
	}
}
