import { type Trial, whyLeftOut } from "../bench";
import { quoted } from "../quantity";
import {
	byTreatment,
	everyUptake,
	type FlaskUptake,
	type ProbeBalance,
	uptakes,
} from "../uptake";
import type { Bar, Figure, Layer } from "./description";
import { figure } from "./figure";
import { countedProbe, leftOutNotes, leftOutText } from "./flask-words";
import type { Hatch, Ink } from "./look";
import { evenly, outermost } from "./thinned";
import { countOf, roundedTo, sentence } from "./words";

const unit = "mg";

type Part = "takenUp" | "left" | "withdrawn" | "lost";

const parts: readonly {
	readonly key: Part;
	readonly name: string;
	readonly ink: Ink;
	readonly hatch: Hatch;
}[] = [
	{ key: "takenUp", name: "taken up", ink: "blue", hatch: "plain" },
	{ key: "left", name: "left", ink: "teal", hatch: "rising" },
	{ key: "withdrawn", name: "withdrawn", ink: "rust", hatch: "crossed" },
	{ key: "lost", name: "lost", ink: "ochre", hatch: "falling" },
];

function amount(balance: ProbeBalance, key: Part | "added"): string {
	const q = balance[key].to(unit);
	return `${roundedTo(q.value, q.standardUncertainty)} ${unit}`;
}

/** "at most " before what was taken up and "at least " before what was left where an instrument read a flask above its line, and the mirror below it; "" for a value. */
function sideOf({ flask, residue }: FlaskUptake, key: Part): string {
	if (residue.is === "value" || !flask.readings.recorded) return "";
	if (key === "left") return `${residue.is} `;
	if (key !== "takenUp") return "";
	return residue.is === "at least" ? "at most " : "at least ";
}

function isBound(u: FlaskUptake): boolean {
	return sideOf(u, "left") !== "";
}

function balanceWords(u: FlaskUptake): string {
	return `${amount(u.balance, "added")} added = ${parts
		.map((p) => `${sideOf(u, p.key)}${amount(u.balance, p.key)} ${p.name}`)
		.join(" + ")}`;
}

/** The bars of one flask, end to end: parts above zero to the right of it, parts below to the left. */
function barsOf(
	u: FlaskUptake,
	row: number,
	hollow: boolean,
): ReadonlyMap<Part, Bar> {
	const bars = new Map<Part, Bar>();
	const why = whyLeftOut(u.flask);
	let positive = 0;
	let negative = 0;
	for (const { key, name } of parts) {
		const value = u.balance[key].in(unit);
		if (value === 0) continue;
		const from = value > 0 ? positive : negative;
		if (value > 0) positive += value;
		else negative += value;
		const share = (100 * value) / u.balance.added.in(unit) || 0;
		bars.set(key, {
			at: row,
			from,
			to: from + value,
			...(hollow ? { hollow } : {}),
			hover: `flask ${u.flask.name}, ${u.flask.treatment}\n${name}: ${sideOf(u, key)}${amount(u.balance, key)} (${roundedTo(share, 1)} % of what was added)\n${balanceWords(u)}${why === "" ? "" : `\nleft out: ${why}`}`,
		});
	}
	return bars;
}

function partLayers(
	uptakes: readonly FlaskUptake[],
	leftOut: ReadonlySet<string>,
): Layer[] {
	const rows = uptakes.map((u, row) =>
		barsOf(u, row, leftOut.has(u.flask.name)),
	);
	return parts.flatMap(({ key, name, ink, hatch }): Layer[] => {
		const bars = rows.flatMap((row) => row.get(key) ?? []);
		return bars.length === 0
			? []
			: [{ is: "bars", name, ink, hatch, along: "x", width: 0.72, bars }];
	});
}

function addedLayer(uptakes: readonly FlaskUptake[]): Layer {
	return {
		is: "points",
		name: "added",
		ink: "text",
		shape: "stroke",
		points: uptakes.map((u, row) => ({
			x: u.balance.added.in(unit),
			y: row,
			hover: `flask ${u.flask.name}\n${balanceWords(u)}`,
		})),
	};
}

function rowName(u: FlaskUptake, leftOut: ReadonlySet<string>): string {
	const { name, treatment } = u.flask;
	return [
		name,
		treatment,
		isBound(u) ? "a bound" : "",
		leftOut.has(name) ? "left out" : "",
	]
		.filter((t) => t !== "")
		.join(" · ");
}

function notesOn(uptakes: readonly FlaskUptake[]): string[] {
	const negative = uptakes.some((u) =>
		parts.some((p) => u.balance[p.key].in(unit) < 0),
	);
	return [
		...(negative
			? [
					"A part left of zero is negative; the parts add up to what was added, signs included.",
				]
			: []),
		...(uptakes.some(isBound)
			? [
					'"A bound": read beyond its line; taken up and left are limits, not values.',
				]
			: []),
		...leftOutNotes(uptakes),
	];
}

/** Flasks that a ladder draws all of, and how many it draws of more. Our decision. */
const allFlasks = 80;
const someFlasks = 40;

/** Of many flasks those at the ends of each treatment, and some between. */
function drawnOf(every: readonly FlaskUptake[]): readonly FlaskUptake[] {
	if (every.length <= allFlasks) return every;
	const kept = new Set(evenly(every.length, someFlasks).map((i) => every[i]));
	for (const own of byTreatment(every).values())
		for (const i of outermost(own.map((u) => u.balance.takenUp.in(unit))))
			kept.add(own[i]);
	return every.filter((u) => kept.has(u));
}

/**
 * The ladder of any uptakes of one probe.
 *
 * @param leftOut names of flasks that a deviation leaves out
 */
export function ladderOf(
	every: readonly FlaskUptake[],
	probe: string,
	leftOut: ReadonlySet<string>,
): Figure {
	const uptakes = drawnOf(every);
	const fewer = uptakes.length < every.length;
	const treatments = new Set(uptakes.map((u) => u.flask.treatment)).size;
	return figure({
		title: `Where the ${probe} went, flask by flask`,
		alt: `${sentence(probe)} balance of ${fewer ? `${uptakes.length} of ` : ""}${countOf(every.length, "flask")} in ${countOf(treatments, "treatment")}, one bar a flask. ${uptakes
			.map(
				(u) =>
					`Flask ${u.flask.name} (${quoted(u.flask.treatment)}): ${balanceWords(u)}`,
			)
			.join("; ")}.${leftOutText(uptakes)}`,
		x: {
			label: sentence(countedProbe(probe)),
			unit,
			scale: { is: "linear", zero: true },
		},
		y: {
			label: "",
			unit: "",
			scale: {
				is: "categories",
				names: uptakes.map((u) => rowName(u, leftOut)),
			},
		},
		layers: [...partLayers(uptakes, leftOut), addedLayer(uptakes)],
		notes: [
			...notesOn(uptakes),
			...(fewer
				? [
						`Drawn are ${uptakes.length} of ${every.length} flasks: of each treatment those that took up least and most, and others at even steps in the order of the sheet.`,
					]
				: []),
		],
	});
}

/**
 * Where each flask's probe went, in mg: taken up, left, withdrawn and lost, end to end, so that together they reach the mark of what was added. A negative part (an uptake below zero within its uncertainty,
 * a recovery above one) stands left of zero; the parts still add up with their signs. Flasks that a deviation leaves out are outlines and named as left out.
 *
 * @throws ProblemError as uptake.uptakes does
 * @example
 * figures.balanceLadder(trial).title // => "Where the iodine went, flask by flask"
 */
export function balanceLadder(trial: Trial): Figure {
	const used = new Set(uptakes(trial).map((u) => u.flask.name));
	const every = everyUptake(trial);
	return ladderOf(
		every,
		trial.probe.name,
		new Set(every.map((u) => u.flask.name).filter((name) => !used.has(name))),
	);
}
