import { type Flask, type LossRule, step, type Trial } from "../bench";
import {
	type Evidence,
	exact,
	furtherApart,
	idsOf,
	input,
	kept,
	meanOfRepeats,
	minus,
	named,
	normal,
	per,
	plus,
	type Quantity,
	scatterBeyondReading,
	stated,
	type Table,
	table,
	withWord,
} from "../quantity";
import { type Residue, residues } from "../residue";

/** Share of the iodine that the iodine blank of a day still held, from dose to titration. */
export type Recovery =
	| {
			readonly is: "measured";
			readonly ratio: Quantity<"ratio">;
			readonly flasks: readonly string[];
			readonly jars: JarSpread;
			/** That the blanks lie further apart than reading them explains; "" where they do not. */
			readonly apart: string;
	  }
	| { readonly is: "none" };

/** How far one jar differs from the next in what it keeps of its dose: standard deviation, a ratio. */
export interface JarSpread {
	/** "seen": two blanks or more, which differ by more than reading them explains (none, where they do not); "assumed": one iodine blank shows nothing of it. */
	readonly is: "seen" | "assumed";
	readonly evidence: Evidence;
}

/** What one jar keeps of its iodine is taken to differ from the next by this standard deviation, where one iodine blank shows nothing of it. Our decision. */
export const assumedJarSpread = 0.015;

/** Recoveries by day. Iodine blanks are matched by day only: another day's losses say nothing about this one. */
export interface Recoveries {
	forDay(day: string): Recovery;
	/** The same for one flask of the day: its jar may have kept another share than the jars of the blanks. */
	forFlask(flask: Flask): Recovery;
	readonly table: Table;
}

/** left / (added - withdrawn), in moles or in grams. */
function recoveryOf(r: Residue): Quantity<"ratio"> {
	const left = r.left as Quantity<"mass">;
	const added = r.account.added as Quantity<"mass">;
	return per(left, minus(added, r.account.withdrawn as Quantity<"mass">));
}

function jarSpreadOf(
	shares: readonly Quantity<"ratio">[],
	probe: string,
): JarSpread {
	if (shares.length > 1)
		return { is: "seen", evidence: scatterBeyondReading(shares) };
	// A dye does not escape, and nothing is known of how glass and filters differ.
	return probe === "iodine"
		? { is: "assumed", evidence: normal(assumedJarSpread) }
		: { is: "seen", evidence: exact };
}

/** Of a recovery, which all flasks of its day share: its whole graph is walked for it. */
const idOf = kept((ratio: Quantity<"ratio">) => idsOf([ratio]).join(" "));

/** What a flask kept beside the blanks of its day: independent from flask to flask, so that replicates show it as scatter. Where the blanks are the dose, jars do not differ. */
function ofItsOwnJar(
	recovery: Recovery,
	flask: Flask,
	losses: LossRule,
): Recovery {
	if (recovery.is === "none") return recovery;
	if (losses === "the blank is the dose")
		return { ...recovery, jars: { is: "seen", evidence: exact } };
	const { evidence, is } = recovery.jars;
	if (evidence.standardUncertainty === 0) return recovery;
	const own = input("ratio", 0, "1", evidence, {
		symbol: "δ_{jar}",
		meaning: `what the jar of flask ${flask.name} kept beside the iodine blanks`,
		source: stated(
			is === "assumed"
				? "one iodine blank does not show how jars differ: standard deviation of 1.5 points of recovery taken; a decision of ours"
				: `standard deviation of ${recovery.flasks.length} recoveries beyond their reading error`,
		),
		scope: "replicate",
		computedFrom: `${idOf(recovery.ratio)} ${flask.name}`,
	});
	return {
		...recovery,
		ratio: named(
			plus(recovery.ratio, own),
			"R",
			`share that flask ${flask.name} would keep without char`,
		),
	};
}

/** Share of a dose that a jar lost where no iodine blank of its day says: none is taken off, and jars differ all the same. */
export function unknownLoss(flask: Flask): Quantity<"ratio"> {
	return input("ratio", 0, "1", normal(assumedJarSpread), {
		symbol: "δ_{jar}",
		meaning: `what the jar of flask ${flask.name} lost more than others`,
		source: stated(
			"no iodine blank of the day, so that no losses are taken off and nothing shows how jars differ: standard deviation of 1.5 points of the dose taken; a decision of ours",
		),
		scope: "replicate",
		computedFrom: flask.name,
	});
}

/** Mean over the blanks of a day, which share what they have in common: the titrant, the reagent blank. */
function measuredRecovery(
	own: readonly Residue[],
	what: string,
	probe: string,
): Recovery {
	const shares = own.map(recoveryOf);
	const flasks = own.map((r) => r.flask.name);
	return {
		is: "measured",
		ratio: named(meanOfRepeats(shares, what), "R", what),
		flasks,
		jars: jarSpreadOf(shares, probe),
		apart: furtherApart(
			shares,
			`Recoveries of the blanks without char (${flasks.join(", ")})`,
			"%",
		),
	};
}

/**
 * Recovery of each day from its blanks without char: left / (added - withdrawn), mean over the blanks of the day; a ratio. A blank in which nothing measurable was left, or that read outside its calibration line, gives none; one that a
 * deviation leaves out counts nowhere.
 * @throws ProblemError as `residue.residues` does
 * @example
 * uptake.recoveries(trial).table.title // => "Recovery of iodine without char"
 */
export const recoveries: (trial: Trial) => Recoveries = step(recoveriesOf);

function recoveriesOf(trial: Trial): Recoveries {
	const found = residues(trial);
	const probe = trial.probe.name;
	const blanks = found.filter((r) => r.flask.contents === "iodine blank");
	const days = [...new Set(found.map((r) => r.flask.day))].map((day): Day => {
		const own = blanks.filter((r) => r.flask.day === day);
		return { day, blanks: own, recovery: recoveryOfDay(day, own, probe) };
	});
	const byDay = new Map(days.map(({ day, recovery }) => [day, recovery]));
	const forDay = (day: string): Recovery => byDay.get(day) ?? { is: "none" };
	return {
		forDay,
		forFlask: (flask) =>
			ofItsOwnJar(forDay(flask.day), flask, trial.settings.losses),
		table: recoveryTable(days, probe),
	};
}

interface Day {
	readonly day: string;
	/** Without char, measured or not. */
	readonly blanks: readonly Residue[];
	readonly recovery: Recovery;
}

function recoveryOfDay(
	day: string,
	blanks: readonly Residue[],
	probe: string,
): Recovery {
	const measured = blanks.filter((r) => r.residue.is === "value");
	return measured.length === 0
		? { is: "none" }
		: measuredRecovery(
				measured,
				`recovery of ${probe} without char${day === "" ? "" : `, ${withWord("day", day)}`}`,
				probe,
			);
}

/** Why a day has no recovery: it has no blank, or none of its blanks could be measured. */
function whyNone({ blanks }: Day): string {
	return blanks.length === 0
		? "none of this day"
		: `${blanks.map((r) => r.flask.name).join(", ")}: what was left could not be measured`;
}

function whatItMeans(ratio: Quantity<"ratio">, probe: string): string {
	if (ratio.value <= 1) return "losses are taken off the uptakes";
	return probe === "iodine"
		? "more iodine than was dosed: look for iodide oxidised by air in acid"
		: `more ${probe} than was dosed: its error, or a standard that is not what it is called`;
}

function recoveryTable(days: readonly Day[], probe: string): Table {
	return table(
		`Recovery of ${probe} without char`,
		[
			"day",
			"recovery",
			probe === "iodine" ? "iodine blanks" : "blanks without char",
			"what it means",
		],
		days.map((d) =>
			d.recovery.is === "none"
				? [d.day, "none", whyNone(d), "uptakes of this day include losses"]
				: [
						d.day,
						d.recovery.ratio.to("%"),
						d.recovery.flasks.join(", "),
						whatItMeans(d.recovery.ratio, probe),
					],
		),
		days.flatMap(({ recovery }) =>
			recovery.is === "none" || recovery.apart === "" ? [] : [recovery.apart],
		),
	);
}
