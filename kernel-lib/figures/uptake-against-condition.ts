import type { ActivationCondition } from "../activation";
import { conditionOfUptake, type FiringUptake } from "../uptake";
import type { Arrow, Axis, Figure, Layer, Point } from "./description";
import { figure } from "./figure";
import { flaskWords, uptakeLabel } from "./flask-words";
import { seriesLook } from "./look";
import { countOf, listed, roundedTo, sentence } from "./words";

/** Conditions that are only as good as the balance of the firing. */
const fromWeighings: readonly ActivationCondition[] = [
	"burn-off",
	"char yield",
];

/** Unit that each condition is drawn in. */
const units: Readonly<Record<ActivationCondition, string>> = {
	"burn-off": "%",
	"char yield": "%",
	"impregnation ratio": "1",
	"agent per carbon": "1",
	"highest temperature": "°C",
	"hold at the highest temperature": "min",
	"soak time": "h",
};

/**
 * Uptake of every flask against a condition of the firing that its char came from (bars: measuring uncertainty, k = 2). Flasks of one firing stand one above the other: they are one activation, not several. Flasks without the
 * condition are named in the note.
 */
export function uptakeAgainstCondition(
	uptakes: readonly FiringUptake[],
	condition: ActivationCondition,
): Figure {
	const unit = units[condition];
	const placed = uptakes.flatMap((u) => {
		const found = conditionOfUptake(u, condition);
		if (found.is === "not known") return [];
		const c = found.quantity.to(unit as never);
		return [{ u, x: c.value, spread: c.standardUncertainty }];
	});
	const unbalanced = fromWeighings.includes(condition)
		? [
				...new Set(
					placed.flatMap(({ u }) =>
						u.firing.is === "linked" &&
						u.firing.unbalanced.includes(u.firing.yields.firing.name)
							? [u.firing.yields.firing.name]
							: [],
					),
				),
			]
		: [];
	const without = uptakes.filter((u) => !placed.some((p) => p.u === u));
	// A treatment looks the same against every condition, whether others have that condition or not.
	const all = [...new Set(uptakes.map((u) => u.flask.treatment))];
	const treatments = all.filter((t) =>
		placed.some((p) => p.u.flask.treatment === t),
	);
	const layers: Layer[] = treatments.flatMap((treatment): Layer[] => {
		const { ink, shape } = seriesLook(all.indexOf(treatment));
		const own = placed.filter((p) => p.u.flask.treatment === treatment);
		const points = own.map(({ u, x, spread }): Point => {
			const q = u.uptake.quantity.to("mg/g");
			return {
				x,
				y: q.value,
				...(spread > 0
					? { xInterval: { low: x - 2 * spread, high: x + 2 * spread } }
					: {}),
				...(u.uptake.is === "value"
					? {
							yInterval: {
								low: q.value - 2 * q.standardUncertainty,
								high: q.value + 2 * q.standardUncertainty,
							},
						}
					: {}),
				hover: `${flaskWords(u)}\n${u.firing.is === "linked" ? `firing ${u.firing.yields.firing.name}, ` : ""}${condition} ${roundedTo(x, 2 * spread)}${unit === "1" ? "" : ` ${unit}`}`,
			};
		});
		const arrows = own.flatMap(({ u, x }): Arrow[] =>
			u.uptake.is === "value"
				? []
				: [
						{
							x,
							y: u.uptake.quantity.in("mg/g"),
							shape,
							towards: u.uptake.is === "at least" ? "up" : "down",
							label: u.uptake.is,
							hover: flaskWords(u),
						},
					],
		);
		return [
			{ is: "points", name: treatment, ink, shape, points },
			...(arrows.length > 0
				? [{ is: "arrows" as const, name: "only a limit", ink, arrows }]
				: []),
		];
	});
	const axis: Axis = {
		label: `${sentence(condition)} of the firing`,
		unit: unit === "1" ? "" : unit,
		scale: { is: "linear" },
	};
	const range = (values: readonly number[]): string => {
		const [low, high] = [
			roundedTo(Number(Math.min(...values).toPrecision(3)), 0),
			roundedTo(Number(Math.max(...values).toPrecision(3)), 0),
		];
		return low === high ? low : `${low} to ${high}`;
	};
	return figure({
		title: `Uptake and ${condition}`,
		alt: `Uptake against ${condition} of ${countOf(placed.length, "flask")}. ${treatments
			.map((t) => {
				const own = placed.filter((p) => p.u.flask.treatment === t);
				return `${t}: uptake ${range(own.map((p) => p.u.uptake.quantity.in("mg/g")))} mg/g at ${range(own.map((p) => p.x))}${unit === "1" ? "" : ` ${unit}`}`;
			})
			.join("; ")}.`,
		x: axis,
		y: {
			label: uptakeLabel(placed.map((p) => p.u)),
			unit: "mg/g",
			scale: { is: "linear" },
		},
		layers,
		notes: [
			"Bars: measuring uncertainty, k = 2. Flasks of one firing are one activation; uptakes stand at residues of their own.",
			...(unbalanced.length > 0
				? [
						`Not to be relied on, for the balance does not close: ${condition} of ${listed(unbalanced)}.`,
					]
				: []),
			...(without.length > 0
				? [
						`Without ${condition}: flask ${listed(without.map((u) => u.flask.name))}.`,
					]
				: []),
		],
	});
}
