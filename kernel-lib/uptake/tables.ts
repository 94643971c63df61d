import { isUsable, type Trial, whyLeftOut } from "../bench";
import { listed, type Table, type TableCell, table } from "../quantity";
import { ammoniaInAny, safeToDose } from "./ammonia";
import { contradictionsTold } from "./contradictions-told";
import { everyUptake } from "./every-uptake";
import type { FlaskUptake, LooksLike } from "./flask-uptake";
import { jointly, soakMayLook } from "./soak";

/** What was taken up, with a capital for titles; several probes are told by flask. */
function probesOf(list: readonly FlaskUptake[]): string {
	return [...new Set(list.map((u) => u.probe))].join(", ") || "iodine";
}

const capital = (text: string): string =>
	text.charAt(0).toUpperCase() + text.slice(1);

function demandCell(u: FlaskUptake): TableCell {
	return u.demand.is === "measured"
		? u.demand.mass.to("mg")
		: u.demand.is === "suspected"
			? "suspected, not measured"
			: "none expected";
}

/** Why a flask does not count; "" where it does. */
function leftOut({ flask }: FlaskUptake): string {
	return isUsable(flask) ? "" : `Left out: ${whyLeftOut(flask)}.`;
}

/** Flasks with char that a deviation leaves out and for which nothing could be computed. */
function notComputed(trial: Trial, shown: readonly FlaskUptake[]): string[] {
	const names = new Set(shown.map((u) => u.flask.name));
	return trial.flasks
		.filter((f) => f.contents === "char" && !names.has(f.name))
		.map(
			(f) =>
				`Flask ${f.name} is left out, without an uptake: ${whyLeftOut(f)}.`,
		);
}

/** A caution of so many flasks is told once, below the table. Our decision. */
const manyFlasks = 3;

/** Cautions that many flasks share, each with those flasks. */
function sharedCautions(
	list: readonly FlaskUptake[],
): readonly (readonly [string, readonly FlaskUptake[]])[] {
	const texts = new Set(list.flatMap((u) => u.cautions));
	return [...texts]
		.map(
			(text) => [text, list.filter((u) => u.cautions.includes(text))] as const,
		)
		.filter(
			([, own]) =>
				own.length >= manyFlasks ||
				(own.length === list.length && own.length > 1),
		);
}

/** Whose it is stands before it, unless it is every flask's. */
function sharedNote(
	[text, own]: readonly [string, readonly FlaskUptake[]],
	flasks: number,
): string {
	return own.length === flasks
		? text
		: `Flasks ${listed(own.map((u) => u.flask.name))}: ${text}`;
}

/** What the suspected soak remains of some flasks may look like together. */
function looksOf(suspected: readonly FlaskUptake[]): LooksLike {
	return jointly(
		suspected.flatMap(({ demand }) =>
			demand.is === "suspected" ? [demand.looksLike] : [],
		),
	);
}

/** What a reader must know of one flask; cautions that are `told` below the table are not repeated. */
function remarkOf(u: FlaskUptake, told: readonly string[]): string {
	return [
		leftOut(u),
		u.contradiction,
		u.lossesTakenOff ? "" : "Uptake including losses.",
		u.perGram === "char as weighed" ? "Per gram as weighed." : "",
		u.uptake.is === "at least" &&
		u.demand.is === "suspected" &&
		u.demand.looksLike !== "less uptake"
			? "Soak remains may have consumed part of this: for the char alone it is not a reliable bound."
			: "",
		...u.cautions.filter((text) => !told.includes(text)),
		u.nextDose,
	]
		.filter((text) => text !== "")
		.join(" ");
}

/** Every flask's uptake (mg/g) with the residual concentration (mg/L) that it stands at; flasks that a deviation leaves out are there and say so. */
export function uptakeTable(trial: Trial): Table {
	const list = everyUptake(trial);
	const including = list.some((u) => !u.lossesTakenOff);
	const asWeighed = list.some((u) => u.perGram === "char as weighed");
	const suspected = list.filter((u) => u.demand.is === "suspected");
	const probe = probesOf(list);
	const shared = sharedCautions(list);
	const told = shared.map(([text]) => text);
	// Only iodine is consumed by soak remains.
	const consumed = list.length === 0 || list.some((u) => u.probe === "iodine");
	return table(
		`${capital(probe)} uptake of each flask`,
		[
			"flask",
			"treatment",
			"soak or firing",
			"day",
			"uptake (mg/g)",
			`at residual ${probe} (mg/L)`,
			...(consumed ? ["consumed by soak remains (mg)"] : []),
			"remark",
		],
		list.map((u) => [
			u.flask.name,
			u.flask.treatment,
			u.flask.soak,
			u.flask.day,
			u.uptake,
			u.residue,
			...(consumed ? [demandCell(u)] : []),
			remarkOf(u, told),
		]),
		[
			including
				? consumed
					? "Uptake including losses: no iodine blank of the same day says how much iodine went into the air."
					: `Uptake including losses: no blank without char of the same day says how much ${probe} went to the glass and the filter.`
				: "",
			asWeighed
				? "Per gram as weighed: the char's moisture is not recorded."
				: "",
			suspected.length > 0
				? `Suspected demand: soak remains ${soakMayLook[looksOf(suspected)]}. ${safeToDose(ammoniaInAny(suspected), "A leachate would measure it.")}`
				: "",
			...shared.map((caution) => sharedNote(caution, list.length)),
			...contradictionsTold(list.filter((u) => isUsable(u.flask))),
			...notComputed(trial, list),
		].filter((text) => text !== ""),
	);
}

const opposite = { "at least": "at most", "at most": "at least" } as const;

/** What was taken up and what was left. Of a flask that an instrument read beyond its line both are bounds; a titre is counted as it was, however small. */
function shares(u: FlaskUptake): readonly [TableCell, TableCell] {
	const { takenUp, left } = u.balance;
	if (u.residue.is === "value" || !u.flask.readings.recorded)
		return [takenUp, left];
	const { is, because } = u.residue;
	return [
		{ is: opposite[is], quantity: takenUp, because },
		{ is, quantity: left, because },
	];
}

/** Where the probe of each flask went, in mg. */
export function balanceTable(trial: Trial): Table {
	const list = everyUptake(trial);
	return table(
		`Where the ${probesOf(list)} went`,
		[
			"flask",
			"treatment",
			"added (mg)",
			"taken up (mg)",
			"left (mg)",
			"withdrawn (mg)",
			"lost (mg)",
		],
		list.map((u) => [
			u.flask.name,
			u.flask.treatment,
			u.balance.added,
			...shares(u),
			u.balance.withdrawn,
			u.balance.lost,
		]),
		["Added = taken up + left + withdrawn + lost."],
	);
}
