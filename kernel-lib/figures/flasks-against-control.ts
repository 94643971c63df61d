import type { Deviation } from "../bench";
import type { Comparison, GroupSummary } from "../compare";
import { withWord } from "../quantity";
import type { FlaskUptake } from "../uptake";
import type { Arrow, Figure, Layer, Point } from "./description";
import { figure } from "./figure";
import { flaskWords, uptakeLabel } from "./flask-words";
import { seriesLook } from "./look";
import { families, treatmentOrder } from "./treatment-order";
import { countOf, listed, roundedInterval, roundedTo, sentence } from "./words";

const unit = "mg/g";

/** Within its category, the flasks take the left part and the group's mean the right. */
const flaskPart = { from: -0.36, to: 0.16 } as const;
const meanPlace = 0.32;

function groupWords(group: GroupSummary): string {
	const name = group.treatment;
	if (group.is !== "value")
		return `${name}: ${group.is} ${roundedTo(group.mean, 0)} ${unit}`;
	const r = roundedInterval(group.mean, group.low, group.high);
	return group.low === group.high
		? `${name}: ${r.value} ${unit}`
		: `${name}: ${r.value} ${unit} (95 % interval ${r.low} to ${r.high})`;
}

function altText(
	uptakes: readonly FlaskUptake[],
	comparison: Comparison,
	treatments: readonly string[],
	deviating: ReadonlySet<string>,
): string {
	const { groups } = comparison;
	const parts = [
		`Uptake of ${countOf(uptakes.length, "flask")} in ${countOf(treatments.length, "treatment")}, each flask a point, with group means.`,
	];
	const best = groups.reduce<GroupSummary | null>(
		(a, b) => (a === null || b.mean > a.mean ? b : a),
		null,
	);
	if (best !== null && groups.length > 1)
		parts.push(
			`${sentence(best.treatment)} is highest at ${best.is === "value" ? "" : `${best.is} `}${roundedInterval(best.mean, best.low, best.high).value} ${unit}.`,
		);
	if (groups.length > 0) parts.push(`${groups.map(groupWords).join("; ")}.`);
	const bounds = uptakes.filter((u) => u.uptake.is !== "value");
	if (bounds.length > 0)
		parts.push(
			`Only a limit: ${listed(bounds.map((u) => `flask ${u.flask.name} (${u.flask.treatment}), ${u.uptake.is} ${roundedTo(u.uptake.quantity.in(unit), u.uptake.quantity.to(unit).standardUncertainty)} ${unit}`))}.`,
		);
	const hollow = uptakes.filter((u) => deviating.has(u.flask.name));
	if (hollow.length > 0)
		parts.push(
			`Touched by a deviation: ${listed(hollow.map((u) => `flask ${u.flask.name} (${u.flask.treatment})`))}.`,
		);
	return parts.join(" ");
}

/** Places of n flasks side by side in a category. */
function beside(index: number, count: number): number {
	const middle = (flaskPart.from + flaskPart.to) / 2;
	if (count === 1) return middle;
	const step = Math.min(0.1, (flaskPart.to - flaskPart.from) / (count - 1));
	return middle + (index - (count - 1) / 2) * step;
}

/**
 * Every flask by treatment (measuring uncertainty k = 2; days told apart by shape; bounds as arrows; flasks that a deviation touched as outlines), each group's mean with its 95 % interval
 * beside them, and the mean of the control as a line through the treatments that are compared with it.
 *
 * @param deviations as in the run; flasks named there are drawn as outlines
 */
export function flasksAgainstControl(
	uptakes: readonly FlaskUptake[],
	comparison: Comparison,
	deviations: readonly Deviation[] = [],
): Figure {
	const deviating = new Set(
		deviations.flatMap((d) =>
			d.targets.filter((t) => t.is === "flask").map((t) => t.name),
		),
	);
	const treatments = treatmentOrder(
		comparison,
		uptakes.map((u) => u.flask.treatment),
	);
	const days = [...new Set(uptakes.map((u) => u.flask.day))].sort(
		new Intl.Collator("en", { numeric: true }).compare,
	);
	const place = new Map<FlaskUptake, number>();
	treatments.forEach((treatment, category) => {
		const members = days.flatMap((day) =>
			uptakes.filter(
				(u) => u.flask.treatment === treatment && u.flask.day === day,
			),
		);
		members.forEach((u, i) => {
			place.set(u, category + beside(i, members.length));
		});
	});

	const layers: Layer[] = [];
	days.forEach((day, i) => {
		const look = seriesLook(i);
		const points: Point[] = [];
		const arrows: Arrow[] = [];
		for (const u of uptakes) {
			if (u.flask.day !== day) continue;
			const shown = u.uptake.quantity.to(unit);
			const at = {
				x: place.get(u) ?? 0,
				y: shown.value,
				hover: flaskWords(u),
				hollow: deviating.has(u.flask.name),
			};
			if (u.uptake.is === "value") {
				const spread = 2 * shown.standardUncertainty;
				points.push({
					...at,
					yInterval: { low: at.y - spread, high: at.y + spread },
				});
			} else
				arrows.push({
					...at,
					towards: u.uptake.is === "at least" ? "up" : "down",
					label: u.uptake.is,
					shape: look.shape,
				});
		}
		layers.push({
			is: "points",
			name: day === "" ? "flask" : `flask, ${withWord("day", day)}`,
			ink: look.ink,
			shape: look.shape,
			points,
		});
		if (arrows.length > 0)
			layers.push({
				is: "arrows",
				name: "only a limit",
				ink: look.ink,
				arrows,
			});
	});

	const valued = comparison.groups.filter((g) => g.is === "value");
	layers.push({
		is: "points",
		name: "group mean, 95 % interval",
		ink: "text",
		shape: "diamond",
		size: "large",
		points: valued.map((g) => ({
			x: treatments.indexOf(g.treatment) + meanPlace,
			y: g.mean,
			yInterval: { low: g.low, high: g.high },
			hover: `${groupWords(g)}\n${countOf(g.units, "unit")}, ${countOf(g.flasks, "flask")}`,
		})),
	});
	const limits = comparison.groups.filter((g) => g.is !== "value");
	if (limits.length > 0)
		layers.push({
			is: "arrows",
			name: "group with a limit only",
			ink: "text",
			arrows: limits.map((g) => ({
				x: treatments.indexOf(g.treatment) + meanPlace,
				y: g.mean,
				towards: g.is === "at least" ? "up" : "down",
				label: g.is,
				shape: "diamond",
				hover: groupWords(g),
			})),
		});
	for (const family of families(comparison)) {
		const control = comparison.groups.find(
			(g) => g.treatment === family.control,
		);
		if (!control) continue;
		const categories = [family.control, ...family.treatments].map((t) =>
			treatments.indexOf(t),
		);
		layers.push({
			is: "reference line",
			name: "mean of the control",
			axis: "y",
			at: control.mean,
			label: "",
			ink: "quiet",
			dash: "dashed",
			over: {
				low: Math.min(...categories) - 0.5,
				high: Math.max(...categories) + 0.5,
			},
		});
	}

	const notes = ["Error bars of single flasks: measuring uncertainty, k = 2."];
	if (deviating.size > 0)
		notes.push("Outlined: flasks that a deviation touched.");
	return figure({
		title: "Uptake by treatment, each flask against its control",
		alt: altText(uptakes, comparison, treatments, deviating),
		x: {
			label: "",
			unit: "",
			scale: { is: "categories", names: treatments },
		},
		y: { label: uptakeLabel(uptakes), unit, scale: { is: "linear" } },
		layers,
		notes,
	});
}
