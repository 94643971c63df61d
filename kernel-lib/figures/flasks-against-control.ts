import { isUsable } from "../bench";
import {
	type ComparedAt,
	type Comparison,
	type DrawnFlask,
	type GroupSummary,
	requireComparison,
	residueText,
} from "../compare";
import { confidenceText } from "../isotherms";
import { listed, quoted, withWord } from "../quantity";
import type { Figure, Interval, Layer, Point } from "./description";
import { errorBar, errorBarShare } from "./error-bar";
import { figure } from "./figure";
import {
	boundArrow,
	linearOver,
	onlyLimits,
	shownStretch,
} from "./flask-marks";
import {
	flaskWords,
	leftOutNotes,
	leftOutText,
	uptakeLabel,
} from "./flask-words";
import { isotherms } from "./isotherms";
import { seriesLook } from "./look";
import { families, treatmentOrder } from "./treatment-order";
import { countOf, roundedInterval, roundedTo } from "./words";

const unit = "mg/g";

/** Within its category, the flasks take the left part and the group's mean the right. */
const flaskPart = { from: -0.36, to: 0.16 } as const;
const meanPlace = 0.32;

/** A comparison, its flasks at the residue that it stands at, and the order of its categories. */
interface Compared {
	readonly comparison: Comparison;
	readonly flasks: readonly DrawnFlask[];
	readonly treatments: readonly string[];
	/** The stretch of uptakes that the figure is about; null for all that is drawn. */
	readonly shown: Interval | null;
}

/** True for a mean through flasks of which one gave only a limit: it is the mean of nothing. */
function isThroughLimit(group: GroupSummary): boolean {
	return group.is === "value" && group.boundFlasks.length > 0;
}

/** The groups that have a mean, or a limit of one. */
function groupsWithMean({ groups }: Comparison): GroupSummary[] {
	return groups.filter((g) => !isThroughLimit(g));
}

function groupWords(group: GroupSummary, interval: string): string {
	const name = quoted(group.treatment);
	if (group.is !== "value")
		return `${name}: ${group.is} ${roundedTo(group.mean, 0)} ${unit}`;
	const r = roundedInterval(group.mean, group.low, group.high);
	return group.low === group.high
		? `${name}: ${r.value} ${unit}`
		: `${name}: ${r.value} ${unit} (${interval} ${r.low} to ${r.high})`;
}

/** "95 % interval", of the comparison's own confidence. */
function intervalName(comparison: Comparison): string {
	return `${confidenceText(comparison.confidence)} interval`;
}

function highestGroup(groups: readonly GroupSummary[]): string[] {
	if (groups.length < 2) return [];
	const best = groups.reduce((a, b) => (b.mean > a.mean ? b : a));
	return [
		`${quoted(best.treatment)} is highest at ${best.is === "value" ? "" : `${best.is} `}${roundedInterval(best.mean, best.low, best.high).value} ${unit}.`,
	];
}

function boundWords({
	name,
	treatment,
	side,
	value,
	uncertainty,
}: DrawnFlask): string {
	return `flask ${name} (${quoted(treatment)}), ${side} ${roundedTo(value, uncertainty)} ${unit}`;
}

function altText({ comparison, flasks, treatments }: Compared): string {
	const groups = groupsWithMean(comparison);
	const bounds = flasks.filter((o) => o.side !== "value");
	return [
		`Uptake of ${comparison.probe} by ${countOf(flasks.length, "flask")} in ${countOf(treatments.length, "treatment")}, each flask a point, with group means.`,
		// With a group that has no mean, none is known to be the highest.
		...(groups.length === comparison.groups.length ? highestGroup(groups) : []),
		...(groups.length > 0
			? [
					`${groups.map((g) => groupWords(g, intervalName(comparison))).join("; ")}.`,
				]
			: []),
		...(bounds.length > 0
			? [`Only a limit: ${listed(bounds.map(boundWords))}.`]
			: []),
		...noMeanTexts(comparison),
		leftOutText(flasks.map((o) => o.flask)).trim(),
	]
		.filter((text) => text !== "")
		.join(" ");
}

/** Why a group has no mean. */
function noMeanTexts({ groups }: Comparison): string[] {
	return groups
		.filter(isThroughLimit)
		.map(
			(g) =>
				`No mean of ${quoted(g.treatment)}: ${listed(g.boundFlasks.map((f) => `flask ${f}`))} gave only a limit.`,
		);
}

/** Place of one of several flasks side by side in a category. */
function placeInCategory(index: number, count: number): number {
	const middle = (flaskPart.from + flaskPart.to) / 2;
	if (count === 1) return middle;
	const step = Math.min(0.1, (flaskPart.to - flaskPart.from) / (count - 1));
	return middle + (index - (count - 1) / 2) * step;
}

const dayOf = (o: DrawnFlask): string => o.flask.flask.day;

function daysOf(flasks: readonly DrawnFlask[]): string[] {
	return [...new Set(flasks.map(dayOf))].sort(
		new Intl.Collator("en", { numeric: true }).compare,
	);
}

/** Where each flask stands along the categories: by treatment, in it by day. */
function placesOf({
	flasks,
	treatments,
}: Compared): ReadonlyMap<DrawnFlask, number> {
	const days = daysOf(flasks);
	return new Map(
		treatments.flatMap((treatment, category) => {
			const members = days.flatMap((day) =>
				flasks.filter((o) => o.treatment === treatment && dayOf(o) === day),
			);
			return members.map((o, i): [DrawnFlask, number] => [
				o,
				category + placeInCategory(i, members.length),
			]);
		}),
	);
}

function carriedText(o: DrawnFlask): string {
	return `${o.side === "value" ? "" : `${o.side} `}${roundedTo(o.value, o.uncertainty)} ${unit}`;
}

/** "at least", with the number where the limit has no place on the axis. */
function limitLabel(o: DrawnFlask, shown: Interval | null): string {
	return shown !== null && (o.value < shown.low || o.value > shown.high)
		? carriedText(o)
		: o.side;
}

/** Flasks of one day after the other, each day with a look of its own. */
function flaskLayers(compared: Compared): Layer[] {
	const places = placesOf(compared);
	const { flasks } = compared;
	return daysOf(flasks).flatMap((day, i) => {
		const { ink, shape } = seriesLook(i);
		const own = flasks.filter((o) => dayOf(o) === day);
		const placeOf = (o: DrawnFlask): Point => ({
			x: places.get(o) ?? 0,
			y: o.value,
			hover: `${flaskWords(o.flask)}\ncarried: ${carriedText(o)}`,
			hollow: !isUsable(o.flask.flask),
		});
		return [
			{
				is: "points",
				name: day === "" ? "flask" : `flask, ${withWord("day", day)}`,
				ink,
				shape,
				points: own
					.filter((o) => o.side === "value")
					.map((o) => ({
						...placeOf(o),
						yInterval: errorBar(o.value, o.uncertainty),
					})),
			},
			...onlyLimits(
				ink,
				own.flatMap((o) =>
					boundArrow(
						o.side,
						{ ...placeOf(o), shape },
						limitLabel(o, compared.shown),
					),
				),
			),
		];
	});
}

/** Means of the groups with their intervals; groups of bounds alone as arrows. */
function groupLayers({ comparison, treatments }: Compared): Layer[] {
	const interval = intervalName(comparison);
	const placeOf = (g: GroupSummary): number =>
		treatments.indexOf(g.treatment) + meanPlace;
	const limits = comparison.groups.filter((g) => g.is !== "value");
	return [
		{
			is: "points",
			name: `group mean, ${interval}`,
			ink: "text",
			shape: "diamond",
			size: "large",
			points: groupsWithMean(comparison)
				.filter((g) => g.is === "value")
				.map((g) => ({
					x: placeOf(g),
					y: g.mean,
					yInterval: { low: g.low, high: g.high },
					hover: `${groupWords(g, interval)}\n${countOf(g.units, "unit")}, ${countOf(g.flasks, "flask")}`,
				})),
		},
		...(limits.length > 0
			? [
					{
						is: "arrows" as const,
						name: "group with a limit only",
						ink: "text" as const,
						arrows: limits.map((g) => ({
							x: placeOf(g),
							y: g.mean,
							towards:
								g.is === "at least" ? ("up" as const) : ("down" as const),
							label: g.is,
							shape: "diamond" as const,
							hover: groupWords(g, interval),
						})),
					},
				]
			: []),
	];
}

/** The mean of each control, drawn through the treatments that are compared with it. */
function controlLayers({ comparison, treatments }: Compared): Layer[] {
	return families(comparison).flatMap((family): Layer[] => {
		const control = groupsWithMean(comparison).find(
			(g) => g.treatment === family.control,
		);
		if (!control) return [];
		const categories = [family.control, ...family.treatments].map((t) =>
			treatments.indexOf(t),
		);
		return [
			{
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
			},
		];
	});
}

/** Flasks and means with their bars, and the limits as far as they lie near these. */
function shownOf(
	comparison: Comparison,
	flasks: readonly DrawnFlask[],
): Interval | null {
	const values = flasks.filter((o) => o.side === "value");
	const bars = values.map((o) => errorBar(o.value, o.uncertainty));
	const means = groupsWithMean(comparison).filter((g) => g.is === "value");
	return shownStretch(
		[...bars, ...means].flatMap(({ low, high }) => [low, high]),
		flasks.filter((o) => o.side !== "value").map((o) => o.value),
	);
}

/** Treatments whose flasks were carried to the residue of the comparison. */
function carried(
	comparison: Comparison,
	{ residue, flasks }: Extract<ComparedAt, { readonly is: "carried" }>,
): Figure {
	const { probe } = comparison;
	const treatments = treatmentOrder(
		comparison,
		flasks.map((o) => o.treatment),
	);
	const compared: Compared = {
		comparison,
		flasks,
		treatments,
		shown: shownOf(comparison, flasks),
	};
	return figure({
		title: `Uptake of ${probe} by treatment, each flask against its control`,
		alt: altText(compared),
		x: {
			label: "",
			unit: "",
			scale: { is: "categories", names: treatments },
		},
		y: {
			label: uptakeLabel(comparison.flasks, probe),
			unit,
			scale: linearOver(compared.shown),
		},
		layers: [
			...flaskLayers(compared),
			...groupLayers(compared),
			...controlLayers(compared),
		],
		notes: [
			`Every flask is carried from its own residue to ${residueText(residue.in("mg/L"))} left.`,
			`Error bars of single flasks: measuring uncertainty, ${errorBarShare}.`,
			...noMeanTexts(comparison),
			...leftOutNotes(flasks.map((o) => o.flask)),
		],
	});
}

/**
 * Every flask of a comparison by treatment (measuring uncertainty, 95 %; days distinguished by shape; bounds as arrows, at the edge with their number where they lie far off; flasks that a deviation leaves out as outlines), each group's mean with its interval
 * beside them (none of a group with a flask that gave only a limit), and the mean of the control as a line through the treatments that are compared with it. Flasks stand at the residue of the comparison, carried there; treatments that were compared on isotherms are drawn as these, with a line at that residue.
 * @example
 * const comparison = compare.compareTreatments(trial, { margin: compare.marginOf(25) });
 * figures.flasksAgainstControl(comparison).y.label // => "Uptake of iodine per gram of dry char"
 */
export function flasksAgainstControl(comparison: Comparison): Figure {
	requireComparison(comparison, "figures.flasksAgainstControl");
	const { at, method } = comparison;
	if (at.is !== "isotherms") return carried(comparison, at);
	const drawn = isotherms(at.fits, { atResidue: at.residue.in("mg/L") });
	return method.is === "isotherms" && method.days.length > 1
		? figure({
				...drawn,
				notes: [
					...drawn.notes,
					"Uptakes are drawn without what their days multiplied them by; the method names these factors.",
				],
			})
		: drawn;
}
