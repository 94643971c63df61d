import type { FlaskUptake, IodineBalance } from "../uptake";
import type { Bar, Figure, Layer } from "./description";
import { figure } from "./figure";
import { countedProbe, probeWord } from "./flask-words";
import type { Hatch, Ink } from "./look";
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

function amount(balance: IodineBalance, key: Part | "added"): string {
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

/**
 * Where each flask's iodine went: taken up, left, withdrawn and lost, end to end, so that together they reach the mark of what was added. A negative part (an uptake below zero within its uncertainty,
 * a recovery above one) stands left of zero; the parts still add up with their signs.
 */
export function balanceLadder(uptakes: readonly FlaskUptake[]): Figure {
	const stacks = parts.map((): Bar[] => []);
	uptakes.forEach((u, row) => {
		let positive = 0;
		let negative = 0;
		parts.forEach((part, i) => {
			const value = u.balance[part.key].in("mg");
			if (value === 0) return;
			const from = value > 0 ? positive : negative;
			if (value > 0) positive += value;
			else negative += value;
			stacks[i].push({
				at: row,
				from,
				to: from + value,
				hover: `flask ${u.flask.name}, ${u.flask.treatment}\n${part.name}: ${sideOf(u, part.key)}${amount(u.balance, part.key)} (${roundedTo((100 * value) / u.balance.added.in("mg") || 0, 1)} % of what was added)\n${balanceWords(u)}`,
			});
		});
	});
	const layers: Layer[] = parts.flatMap((part, i): Layer[] =>
		stacks[i].length === 0
			? []
			: [
					{
						is: "bars",
						name: part.name,
						ink: part.ink,
						hatch: part.hatch,
						along: "x",
						width: 0.72,
						bars: stacks[i],
					},
				],
	);
	layers.push({
		is: "points",
		name: "added",
		ink: "text",
		shape: "stroke",
		points: uptakes.map((u, row) => {
			const q = u.balance.added.to(unit);
			return {
				x: q.value,
				y: row,
				hover: `flask ${u.flask.name}\n${balanceWords(u)}`,
			};
		}),
	});
	const treatments = new Set(uptakes.map((u) => u.flask.treatment)).size;
	return figure({
		title: `Where the ${probeWord(uptakes)} went, flask by flask`,
		alt: `${sentence(probeWord(uptakes))} balance of ${countOf(uptakes.length, "flask")} in ${countOf(treatments, "treatment")}, one bar a flask. ${uptakes
			.map(
				(u) =>
					`Flask ${u.flask.name} (${u.flask.treatment}): ${balanceWords(u)}`,
			)
			.join("; ")}.`,
		x: {
			label: sentence(countedProbe(uptakes)),
			unit,
			scale: { is: "linear", zero: true },
		},
		y: {
			label: "",
			unit: "",
			scale: {
				is: "categories",
				names: uptakes.map((u) =>
					[u.flask.name, u.flask.treatment, isBound(u) ? "a bound" : ""]
						.filter((t) => t !== "")
						.join(" · "),
				),
			},
		},
		layers,
		notes: [
			...(uptakes.some((u) => parts.some((p) => u.balance[p.key].in("mg") < 0))
				? [
						"A part left of zero is negative; the parts add up to what was added, signs included.",
					]
				: []),
			...(uptakes.some(isBound)
				? [
						'"A bound": read beyond its line; taken up and left are limits, not values.',
					]
				: []),
		],
	});
}
