import type { Deviation } from "../bench";
import type { FlaskUptake } from "../uptake";
import type { Arrow, Figure, Layer, Point } from "./description";
import { figure } from "./figure";
import { countedProbe, flaskWords, uptakeLabel } from "./flask-words";
import { seriesLook } from "./look";
import { countOf, listed, roundedTo } from "./words";

function range(
	flasks: readonly FlaskUptake[],
	value: (u: FlaskUptake) => number,
): string {
	const all = flasks.map(value);
	const low = roundedTo(Math.min(...all), 0);
	const high = roundedTo(Math.max(...all), 0);
	return low === high ? low : `${low} to ${high}`;
}

/**
 * Every uptake with the residual concentration that it stands at (bars: measuring uncertainty, k = 2). Uptakes can be compared where they stand at like residues; a flask that ran dry has an arrow up
 * (its uptake is at least this) and a bar down to no residue at all (its residue is at most this).
 *
 * @param deviations as in the run; flasks named there are drawn as outlines
 */
export function residueAndUptake(
	uptakes: readonly FlaskUptake[],
	deviations: readonly Deviation[] = [],
): Figure {
	const deviating = new Set(
		deviations.flatMap((d) =>
			d.targets.filter((t) => t.is === "flask").map((t) => t.name),
		),
	);
	const treatments = [...new Set(uptakes.map((u) => u.flask.treatment))];
	const layers: Layer[] = treatments.flatMap((treatment, i): Layer[] => {
		const look = seriesLook(i);
		const points: Point[] = [];
		const arrows: Arrow[] = [];
		for (const u of uptakes) {
			if (u.flask.treatment !== treatment) continue;
			const q = u.uptake.quantity.to("mg/g");
			const c = u.residue.quantity.to("mg/L");
			const at = {
				x: c.value,
				y: q.value,
				hover: flaskWords(u),
				hollow: deviating.has(u.flask.name),
			};
			points.push({
				...at,
				...(u.residue.is === "value"
					? {
							xInterval: {
								low: c.value - 2 * c.standardUncertainty,
								high: c.value + 2 * c.standardUncertainty,
							},
						}
					: u.residue.is === "at most"
						? // A concentration is not negative: "at most" is the whole stretch down to 0.
							{ xInterval: { low: Math.min(0, c.value), high: c.value } }
						: {}),
				...(u.uptake.is === "value"
					? {
							yInterval: {
								low: q.value - 2 * q.standardUncertainty,
								high: q.value + 2 * q.standardUncertainty,
							},
						}
					: {}),
			});
			const shape = look.shape;
			if (u.uptake.is !== "value")
				arrows.push({
					...at,
					shape,
					towards: u.uptake.is === "at least" ? "up" : "down",
					label: u.uptake.is,
				});
			if (u.residue.is === "at least")
				arrows.push({ ...at, shape, towards: "right", label: "at least" });
		}
		return [
			{
				is: "points",
				name: treatment,
				ink: look.ink,
				shape: look.shape,
				points,
			},
			...(arrows.length > 0
				? [
						{
							is: "arrows" as const,
							name: "only a limit",
							ink: look.ink,
							arrows,
						},
					]
				: []),
		];
	});
	const bounds = uptakes.filter((u) => u.uptake.is !== "value");
	const notes = ["Error bars: measuring uncertainty, k = 2."];
	if (deviating.size > 0)
		notes.push("Outlined: flasks that a deviation touched.");
	return figure({
		title: "Uptake and the residue that it stands at",
		alt: `Uptake against residual concentration of ${countOf(uptakes.length, "flask")} in ${countOf(treatments.length, "treatment")}. ${treatments
			.map((t) => {
				const flasks = uptakes.filter((u) => u.flask.treatment === t);
				return `${t}: uptake ${range(flasks, (u) => u.uptake.quantity.in("mg/g"))} mg/g at a residue of ${range(flasks, (u) => u.residue.quantity.in("mg/L"))} mg/L`;
			})
			.join("; ")}.${
			bounds.length === 0
				? ""
				: ` Only a limit: ${listed(bounds.map((u) => `flask ${u.flask.name} (uptake ${u.uptake.is} ${roundedTo(u.uptake.quantity.in("mg/g"), 0)} mg/g)`))}.`
		}`,
		x: {
			label: `Residual concentration of ${countedProbe(uptakes)}`,
			unit: "mg/L",
			scale: { is: "linear" },
		},
		y: { label: uptakeLabel(uptakes), unit: "mg/g", scale: { is: "linear" } },
		layers,
		notes,
	});
}
