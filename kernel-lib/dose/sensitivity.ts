import type { IsothermFit } from "../isotherms";
import { inDigits, percent } from "../isotherms";
import { type Table, table } from "../quantity";
import { answerTo } from "./answer";
import type { DoseForTarget } from "./dose";
import type { FromFits } from "./from-fits";
import { type DoseQuestion, type NoDose, noDoseText } from "./question";

/** What one input does to the dose. */
export interface DoseSensitivity {
	readonly input: string;
	readonly unit: string;
	readonly value: number;
	/** Percent that the dose changes when the input grows by 1 %. */
	readonly elasticity: number;
	/** Relative standard uncertainty of the input alone; 0 for one that is taken as exact. */
	readonly relativeError: number;
}

/** Relative step: large against the rounding of the stages, small against their bend. */
const step = 1e-4;

/**
 * Which input matters: start and target (what is asked for), then each parameter of the isotherm (what was measured). Parameters of one fit are correlated, so that their parts do not add up to the interval; the dose's own
 * `contributions` do.
 *
 * @returns the strongest first; empty where the question has no answer
 * @throws ProblemError as `doseForTarget`
 */
export function doseSensitivity(
	fit: IsothermFit,
	question: DoseQuestion,
): DoseSensitivity[] {
	const answer = answerTo(fit, question);
	if (answer.is === "no dose") return [];
	const marked = { ...question, beyond: "mark" as const };
	const value = (a: DoseForTarget | NoDose): number =>
		a.is === "dose" ? a.dose.value : Number.NaN;
	const elasticity = (
		change: (factor: number) => DoseForTarget | NoDose,
	): number =>
		Math.log(value(change(1 + step)) / value(change(1 - step))) /
		Math.log((1 + step) / (1 - step));
	const ofQuestion = [
		{
			input: "start",
			value: answer.start,
			change: (f: number): DoseForTarget | NoDose =>
				answerTo(fit, { ...marked, start: answer.start * f }),
			relativeError:
				typeof question.start === "number"
					? 0
					: question.start.standardUncertainty / question.start.value,
		},
		{
			input: "target",
			value: answer.target,
			change: (f: number): DoseForTarget | NoDose =>
				answerTo(fit, { ...marked, target: answer.target * f }),
			relativeError: 0,
		},
	].map(({ change, ...rest }) => ({
		...rest,
		unit: "mg/L",
		elasticity: elasticity(change),
	}));
	const ofFit = fit.parameters
		.map((p, j) => ({ p, j }))
		.filter(({ p }) => p.value !== 0)
		.map(({ p, j }) => ({
			input: p.name,
			unit: p.unit,
			value: p.value,
			elasticity: elasticity((f) => {
				const theta = fit.theta.slice();
				theta[j] *= f;
				return answerTo({ ...fit, theta }, marked);
			}),
			relativeError:
				p.standardError.is === "value"
					? p.standardError.value / Math.abs(p.value)
					: 0,
		}));
	return [...ofQuestion, ...ofFit]
		.filter((s) => Number.isFinite(s.elasticity))
		.sort((a, b) => Math.abs(b.elasticity) - Math.abs(a.elasticity));
}

/** The sensitivities with what the interval of the dose is made of. */
export function sensitivityTable(
	fit: IsothermFit,
	question: DoseQuestion,
): Table {
	const answer = answerTo(fit, question);
	return table(
		"Which input matters for the dose",
		[
			"input",
			"unit",
			"value",
			"1 % more of it changes the dose by (%)",
			"its own standard uncertainty (%)",
		],
		doseSensitivity(fit, question).map((s) => [
			s.input,
			s.unit,
			inDigits(s.value, 4),
			inDigits(s.elasticity, 3),
			s.relativeError > 0
				? inDigits(100 * s.relativeError, 2)
				: "taken as exact",
		]),
		answer.is === "no dose"
			? [`No dose: ${noDoseText(answer)}`]
			: [
					"Parameters of one fit are correlated: their own uncertainties do not simply add up.",
					...(answer.dose.contributions.length > 0
						? [
								`The variance of the dose comes from: ${contributionTexts(
									answer.dose,
								)
									.slice(0, 5)
									.join("; ")}.`,
							]
						: []),
				],
	);
}

/** Contributions of the same kind together, such as the end points of several blanks; largest first. */
function contributionTexts(dose: FromFits): string[] {
	const shares = new Map<string, number>();
	for (const c of dose.contributions)
		shares.set(c.what, (shares.get(c.what) ?? 0) + c.share);
	return [...shares]
		.sort((a, b) => b[1] - a[1])
		.map(([what, share]) => `${what}, ${percent(share)}`);
}
