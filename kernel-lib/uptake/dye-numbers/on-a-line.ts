import { requireTrial, type Trial } from "../../bench";
import {
	exact,
	input,
	named,
	type Problem,
	ProblemError,
	per,
	problem,
	type Quantity,
	stated,
	type Table,
	type TableCell,
	table,
	times,
	type UnitOf,
} from "../../quantity";
import type { FlaskUptake } from "../flask-uptake";
import { type LogLogLine, logLogLine } from "../log-log-line";
import { byTreatment, uptakes } from "../uptakes";
import type { RemovalDefinition, ResidueDefinition } from "./definitions";

/** A number read on the log-log line of uptake against residue of one treatment. */
export type NumberOnLine =
	| {
			readonly is: "value";
			readonly treatment: string;
			readonly probe: string;
			/** Uptake at the residue of the definition. */
			readonly uptake: Quantity<"uptake">;
			/** 95 %, mg/g. */
			readonly low: number;
			readonly high: number;
			readonly line: LogLogLine;
			/** True where the residue of the definition lies outside those of the flasks. */
			readonly extrapolated: boolean;
			/** Flasks that are not on the line, each with its reason, as full sentences. */
			readonly leftOff: readonly string[];
	  }
	| {
			readonly is: "not available";
			readonly treatment: string;
			readonly because: string;
	  };

function oneOf<K extends "uptake" | "massConcentration">(
	kind: K,
	unit: UnitOf<K>,
): Quantity<K> {
	return input(kind, 1, unit, exact, {
		symbol: `1 ${unit}`,
		source: stated("unit"),
	});
}

const milligramPerGram = oneOf("uptake", "mg/g");
const milligramPerLitre = oneOf("massConcentration", "mg/L");

/** Why a flask has no point on a line of logarithms; "" where it has one. */
function whyOff({ contradiction, uptake }: FlaskUptake): string {
	if (contradiction !== "")
		return `its numbers cannot all be right (${contradiction})`;
	return uptake.is === "value" ? "" : `it took up ${uptake.is} so much`;
}

function onLine(
	treatment: string,
	flasks: readonly FlaskUptake[],
	residue: number,
): NumberOnLine {
	const usable = flasks.filter((u) => whyOff(u) === "");
	const leftOff = flasks.flatMap((u) =>
		whyOff(u) === ""
			? []
			: [`Flask ${u.flask.name} is not on the line: ${whyOff(u)}.`],
	);
	const none = (because: string): NumberOnLine => ({
		is: "not available",
		treatment,
		because: [`${because}.`, ...leftOff].join(" "),
	});
	if (usable.length < 3)
		return none(
			`${usable.length} of ${flasks.length} flasks gave a point; a line with an error needs three doses`,
		);
	const points = usable.map((u) => ({
		x: per(u.residue.quantity, milligramPerLitre) as Quantity<"ratio">,
		y: per(u.computedUptake, milligramPerGram) as Quantity<"ratio">,
		name: `Flask ${u.flask.name}`,
	}));
	const residues = points.map((p) => p.x.value);
	const [least, most] = [Math.min(...residues), Math.max(...residues)];
	// Doses that all left the same residue make no line.
	if (!(most > 1.5 * least))
		return none(
			`all residues lie within ${least.toPrecision(3)} to ${most.toPrecision(3)} mg/L: dose the flasks differently`,
		);
	const line = logLogLine(points, residue, `ln(${residue} mg/L)`);
	return {
		is: "value",
		treatment,
		probe: usable[0].probe,
		uptake: named(
			times(line.value, milligramPerGram) as Quantity<"uptake">,
			"q_{line}",
			`uptake on the log-log line at ${residue} mg/L`,
		),
		low: line.low,
		high: line.high,
		line,
		extrapolated: residue < least || residue > most,
		leftOff,
	};
}

/**
 * Uptake of each treatment at the residue of a definition, on the log-log line (Freundlich) through its flasks of several doses; flasks that gave only a bound, or whose numbers cannot all be right, are not on the line and are named. For curves of other
 * shapes fit an isotherm and read it there.
 */
export function uptakeNumbers(
	trial: Trial,
	definition: ResidueDefinition,
): NumberOnLine[] {
	return [...byTreatment(uptakes(trial))].map(([treatment, flasks]) =>
		onLine(treatment, flasks, definition.residue),
	);
}

/** A dose of char for a removal, mg of char per litre of water. */
export type DoseForRemoval =
	| {
			readonly is: "value";
			readonly treatment: string;
			readonly dose: number;
			readonly low: number;
			readonly high: number;
			readonly extrapolated: boolean;
			readonly leftOff: readonly string[];
	  }
	| {
			readonly is: "not available";
			readonly treatment: string;
			readonly because: string;
	  };

/**
 * Dose of each treatment that brings the substance from `from` to `to`: D = (from - to)/q(to), with q(to) on the log-log line of its flasks. Such values ("phenol value", "tannin value") are the lower the
 * better; definitions differ in the two concentrations.
 */
export function removalDoses(
	trial: Trial,
	definition: RemovalDefinition,
): DoseForRemoval[] {
	return [...byTreatment(uptakes(trial))].map(([treatment, flasks]) => {
		const at = onLine(treatment, flasks, definition.to);
		if (at.is === "not available") return at;
		const removed = definition.from - definition.to;
		const dose = (uptake: number): number => (1000 * removed) / uptake;
		return {
			is: "value",
			treatment,
			dose: dose(at.uptake.in("mg/g")),
			low: dose(at.high),
			high: dose(at.low),
			extrapolated: at.extrapolated,
			leftOff: at.leftOff,
		};
	});
}

/** What weakens a number, and what is not in it. */
function remarkOf({
	extrapolated,
	leftOff,
}: {
	readonly extrapolated: boolean;
	readonly leftOff: readonly string[];
}): string {
	return [
		...(extrapolated
			? ["Outside the residues of the flasks: the line is carried on to there."]
			: []),
		...leftOff,
	].join(" ");
}

function uptakeNumberTable(trial: Trial, definition: ResidueDefinition): Table {
	return table(
		`${definition.name} (${definition.standard})`,
		[
			"treatment",
			`uptake at ${definition.residue} mg/L (mg/g)`,
			"95 % interval (mg/g)",
			"remark",
		],
		uptakeNumbers(trial, definition).map((n): TableCell[] =>
			n.is === "not available"
				? [n.treatment, "not available", "", n.because]
				: [
						n.treatment,
						n.uptake.in("mg/g").toPrecision(3),
						`${n.low.toPrecision(3)} to ${n.high.toPrecision(3)}`,
						remarkOf(n),
					],
		),
		[`${definition.words} (${definition.provenance}; check the edition).`],
	);
}

function removalDoseTable(trial: Trial, definition: RemovalDefinition): Table {
	return table(
		`${definition.name} (${definition.standard})`,
		["treatment", "char (mg/L)", "95 % interval (mg/L)", "remark"],
		removalDoses(trial, definition).map((d): TableCell[] =>
			d.is === "not available"
				? [d.treatment, "not available", "", d.because]
				: [
						d.treatment,
						d.dose.toPrecision(3),
						`${d.low.toPrecision(3)} to ${d.high.toPrecision(3)}`,
						remarkOf(d),
					],
		),
		[
			`${definition.words} (${definition.provenance}; check the edition). The lower, the better.`,
		],
	);
}

/**
 * The number of each treatment by a definition, on the log-log line through its flasks of several doses, with the 95 % interval and the definition under the table: the uptake (mg/g) at a residue (mg/L), or the dose of
 * char (mg/L) that brings the substance from one concentration to another (mg/L), D = (from - to)/q(to). Flasks that gave only a bound, or whose numbers cannot all be right, are not on the line and are named.
 *
 * @param definition one of `uptakesAtResidue` or `dosesForRemoval`, or your own of either form
 * @throws ProblemError as `residue.residues` does, and for a definition of another form
 * @example
 * uptake.numbersByDefinition(dyeTrial, uptake.uptakesAtResidue["methylene blue, JIS K 1474"]).columns[1] // => "uptake at 0.24 mg/L (mg/g)"
 * uptake.numbersByDefinition(isothermTrial, uptake.dosesForRemoval["tannin value, AWWA B600"]).columns[1] // => "char (mg/L)"
 */
export function numbersByDefinition(
	trial: Trial,
	definition: ResidueDefinition | RemovalDefinition,
): Table {
	requireTrial(trial);
	switch (definition?.form) {
		case "uptake at a residue":
			return uptakeNumberTable(trial, definition);
		case "dose for a removal":
			return removalDoseTable(trial, definition);
		default:
			throw new ProblemError([wrongDefinition(definition)]);
	}
}

function wrongDefinition(definition: unknown): Problem {
	const { form } = (definition ?? {}) as { readonly form?: unknown };
	return problem(
		"definition-of-another-form",
		{ column: "definition" },
		form === undefined
			? "nothing that says its form"
			: `a definition of the form "${form}"`,
		'a definition of the form "uptake at a residue" or "dose for a removal"',
		"Take one of uptake.uptakesAtResidue or uptake.dosesForRemoval, or one of your own with the same entries.",
	);
}
