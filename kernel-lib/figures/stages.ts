import type * as doses from "../dose";
import { type IsothermFit, uptakeAt } from "../isotherms";
import type { Figure, Layer } from "./description";
import { figure } from "./figure";
import { countOf, roundedTo } from "./words";

/** Points of the drawn isotherm. */
const steps = 80;

/**
 * The stages of an answer stepped off between the isotherm and the mass balances: residue across, uptake upwards. Cross-current, each stage is a line of its own from its water (nothing on the char yet) up to the isotherm, with slope
 * minus one over its dose. Counter-current, one line of slope one over the dose holds all stages; steps between it and the isotherm lead from the start to the target.
 *
 * @throws RangeError for an answer without a dose
 */
export function stageSteps(answer: doses.DoseAnswer, fit: IsothermFit): Figure {
	if (answer.is === "no dose")
		throw new RangeError(
			`There are no stages to draw: ${answer.because}. ${answer.wouldTell}`,
		);
	const { stages, start, target, scheme } = answer;
	const counter = scheme === "counter-current" && stages.length > 1;
	const low = 0.4 * target;
	const curve = Array.from({ length: steps + 1 }, (_, i) => {
		const x = low * (start / low) ** (i / steps);
		return { x, y: uptakeAt(fit.isotherm, fit.theta, x) };
	}).filter((p) => Number.isFinite(p.y) && p.y >= 0);
	const dose = stages[0].dose;
	const operating: Layer[] = counter
		? [
				{
					is: "line",
					name: "mass balance of all stages",
					ink: "rust",
					dash: "dashed",
					points: [
						{ x: target, y: 0 },
						{ x: start, y: (start - target) / dose },
					],
				},
				{
					is: "line",
					name: "stages",
					ink: "text",
					dash: "solid",
					points: [
						{ x: start, y: stages[0].uptake },
						...stages.flatMap((s) => [
							{ x: s.residueOut, y: s.uptake },
							{ x: s.residueOut, y: s.uptakeIn },
						]),
					],
				},
			]
		: stages.map(
				(s, i): Layer => ({
					is: "line",
					name: i === 0 ? "mass balance of a stage" : "",
					ink: "rust",
					dash: "dashed",
					points: [
						{ x: s.residueOut, y: s.uptake },
						{ x: s.residueIn, y: 0 },
					],
				}),
			);
	const title = `${countOf(stages.length, "stage")[0].toUpperCase()}${countOf(stages.length, "stage").slice(1)}${stages.length > 1 ? `, ${scheme}` : ""}: ${roundedTo(start, 0)} to ${roundedTo(target, 0)} mg/L with ${Number(answer.dose.value.toPrecision(3))} g/L`;
	return figure({
		title,
		alt: `${title}. ${stages
			.map(
				(s) =>
					`Stage ${s.stage}: ${roundedTo(s.residueIn, 0)} to ${roundedTo(s.residueOut, 0)} mg/L, the char leaves with ${roundedTo(s.uptake, 0)} mg/g${counter ? "" : `, ${Number(s.dose.toPrecision(3))} g/L`}`,
			)
			.join("; ")}.`,
		x: { label: "Residue", unit: "mg/L", scale: { is: "linear", zero: true } },
		y: { label: "Uptake", unit: "mg/g", scale: { is: "linear", zero: true } },
		layers: [
			{
				is: "line",
				name: `isotherm, ${fit.isotherm.name}`,
				ink: "blue",
				dash: "solid",
				points: curve,
			},
			...operating,
			{
				is: "points",
				name: "water that leaves a stage",
				ink: "text",
				shape: "circle",
				points: stages.map((s) => ({
					x: s.residueOut,
					y: s.uptake,
					hover: `stage ${s.stage}\n${roundedTo(s.residueOut, 0)} mg/L left\n${roundedTo(s.uptake, 0)} mg/g on the char\n${Number(s.dose.toPrecision(3))} g/L of char`,
					...(stages.length <= 5 ? { label: `stage ${s.stage}` } : {}),
				})),
			},
		],
		notes: [
			counter
				? "One and the same char goes from right to left through the water: it enters fresh where the water leaves."
				: "Every stage gets fresh char.",
			...(answer.extrapolating
				? ["A stage lies beyond the residues that the flasks showed."]
				: []),
		],
	});
}
