import type * as doses from "../dose";
import { type IsothermFit, probeOf, uptakeAt } from "../isotherms";
import { problem, valueOrThrow } from "../quantity";
import type { Figure, Layer } from "./description";
import { figure } from "./figure";
import { countOf, roundedTo, sentence } from "./words";

/** Points of the drawn isotherm. */
const steps = 80;

/** More stages than this are too close for labels. */
const mostLabelled = 5;

type Dose = doses.DoseForTarget;

function doseOf(answer: doses.DoseAnswer): Dose {
	return valueOrThrow(
		answer.is === "dose"
			? { ok: true, value: answer }
			: {
					ok: false,
					problems: [
						problem(
							"no-stages-to-draw",
							{},
							`an answer without a dose, because ${answer.because}`,
							"an answer with a dose and its stages",
							answer.wouldTell,
						),
					],
				},
	);
}

function isCounterCurrent({ scheme, stages }: Dose): boolean {
	return scheme === "counter-current" && stages.length > 1;
}

function curveLayer({ start, target }: Dose, fit: IsothermFit): Layer {
	const low = 0.4 * target;
	return {
		is: "line",
		name: `isotherm, ${fit.isotherm.name}`,
		ink: "blue",
		dash: "solid",
		points: Array.from({ length: steps + 1 }, (_, i) => {
			const x = low * (start / low) ** (i / steps);
			return { x, y: uptakeAt(fit.isotherm, fit.theta, x) };
		}).filter((p) => Number.isFinite(p.y) && p.y >= 0),
	};
}

/** One balance line for all stages, and the steps between it and the isotherm. */
function counterCurrentLayers({ stages, start, target }: Dose): Layer[] {
	return [
		{
			is: "line",
			name: "mass balance of all stages",
			ink: "rust",
			dash: "dashed",
			points: [
				{ x: target, y: 0 },
				{ x: start, y: (start - target) / stages[0].dose },
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
	];
}

/** A balance line for each stage. */
function crossCurrentLayers({ stages }: Dose): Layer[] {
	return stages.map((s, i) => ({
		is: "line",
		name: i === 0 ? "mass balance of a stage" : "",
		ink: "rust",
		dash: "dashed",
		points: [
			{ x: s.residueOut, y: s.uptake },
			{ x: s.residueIn, y: 0 },
		],
	}));
}

function digits(value: number): number {
	return Number(value.toPrecision(3));
}

function stagePoints({ stages }: Dose): Layer {
	return {
		is: "points",
		name: "water that leaves a stage",
		ink: "text",
		shape: "circle",
		points: stages.map((s) => ({
			x: s.residueOut,
			y: s.uptake,
			hover: `stage ${s.stage}\n${roundedTo(s.residueOut, 0)} mg/L left\n${roundedTo(s.uptake, 0)} mg/g on the char\n${digits(s.dose)} g/L of char`,
			...(stages.length <= mostLabelled ? { label: `stage ${s.stage}` } : {}),
		})),
	};
}

function titleOf(
	{ stages, scheme, start, target, dose }: Dose,
	probe: string,
): string {
	return `${sentence(countOf(stages.length, "stage"))}${stages.length > 1 ? `, ${scheme}` : ""}: ${roundedTo(start, 0)} to ${roundedTo(target, 0)} mg/L of ${probe} with ${digits(dose.value)} g/L`;
}

/**
 * The stages of an answer stepped off between the isotherm and the mass balances: residue across, uptake upwards. Cross-current, each stage is a line of its own from its water (nothing on the char yet) up to the isotherm, with slope
 * minus one over its dose. Counter-current, one line of slope one over the dose holds all stages; steps between it and the isotherm lead from the start to the target.
 *
 * @throws ProblemError for an answer without a dose
 */
export function stageSteps(answer: doses.DoseAnswer, fit: IsothermFit): Figure {
	const dose = doseOf(answer);
	const counter = isCounterCurrent(dose);
	const title = titleOf(dose, probeOf(fit.points));
	const words = dose.stages.map(
		(s) =>
			`Stage ${s.stage}: ${roundedTo(s.residueIn, 0)} to ${roundedTo(s.residueOut, 0)} mg/L, the char leaves with ${roundedTo(s.uptake, 0)} mg/g${counter ? "" : `, ${digits(s.dose)} g/L`}`,
	);
	return figure({
		title,
		alt: `${title}. ${words.join("; ")}.`,
		x: { label: "Residue", unit: "mg/L", scale: { is: "linear", zero: true } },
		y: { label: "Uptake", unit: "mg/g", scale: { is: "linear", zero: true } },
		layers: [
			curveLayer(dose, fit),
			...(counter ? counterCurrentLayers(dose) : crossCurrentLayers(dose)),
			stagePoints(dose),
		],
		notes: [
			counter
				? "One and the same char goes from right to left through the water: it enters fresh where the water leaves."
				: "Every stage gets fresh char.",
			...(dose.extrapolating
				? ["A stage lies beyond the residues that the flasks showed."]
				: []),
		],
	});
}
