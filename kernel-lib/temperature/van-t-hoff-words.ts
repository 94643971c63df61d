import { confidenceText } from "../isotherms";
import { fixed, quoted, significant, type Table, table } from "../quantity";
import type { EnthalpyAndEntropy } from "./enthalpy-and-entropy";
import type { LineValue } from "./linked-line";
import { valueTextsOf } from "./words";

/** Enthalpy, entropy and Gibbs energies with their intervals. */
export function vanTHoffTable(v: EnthalpyAndEntropy): Table {
	const row = (what: string, unit: string, q: LineValue): string[] => [
		what,
		unit,
		...valueTextsOf(q),
	];
	return table(
		`van 't Hoff${v.name === "" ? "" : `, ${quoted(v.name)}`}`,
		["what", "unit", "value", "standard error", "from", "to"],
		[
			row("enthalpy", "kJ/mol", v.enthalpy),
			row("entropy (of this convention)", "J/(mol K)", v.entropy),
			...v.gibbs.map((g, i) =>
				row(
					`Gibbs energy at ${Number(v.steps[i].kelvin.toFixed(2))} K (of this convention)`,
					"kJ/mol",
					g,
				),
			),
		],
		[
			`${v.made}.`,
			`Intervals: ${confidenceText(v.confidence)}, errors from ${v.line.errorsFrom}, and what all temperatures share.`,
			...v.cautions,
		],
	);
}

/** Enthalpy and entropy in a sentence each, for the head of a page. */
export function vanTHoffSentences(v: EnthalpyAndEntropy): string[] {
	const text = (what: string, unit: string, q: LineValue): string => {
		const [value, , low, high] = valueTextsOf(q);
		return q.standardError.is === "not known"
			? `${what}: ${value} ${unit}, without an interval: ${q.standardError.because}.`
			: `${what}: ${value} ${unit} (${confidenceText(v.confidence)} interval ${low} to ${high}).`;
	};
	const lowest = Math.min(...v.steps.map((s) => s.kelvin));
	const highest = Math.max(...v.steps.map((s) => s.kelvin));
	const { low, high } = v.enthalpy;
	const sure = low.is === "value" && high.is === "value";
	return [
		text(
			`Enthalpy of adsorption between ${Number(lowest.toFixed(1))} and ${Number(highest.toFixed(1))} K`,
			"kJ/mol",
			v.enthalpy,
		),
		sure && high.value < 0
			? "It is negative: heat is given off, and the char holds the more weakly the warmer it is."
			: sure && low.value > 0
				? "It is positive: heat is taken up, and the char holds the more strongly the warmer it is."
				: "Its sign is not settled by these data: whether the char holds more strongly or more weakly where it is warmer cannot be told.",
		text(
			`Entropy, for the constant made dimensionless as ${v.made}`,
			"J/(mol K)",
			v.entropy,
		),
	];
}

/** The constants behind the line. */
export function constantTable(v: EnthalpyAndEntropy): Table {
	return table(
		"Constants at each temperature",
		[
			"temperature (K)",
			"K, dimensionless",
			"own standard error (%)",
			"shared with the other temperatures (%)",
			"ln K",
			"ln K on the line",
		],
		v.steps.map((s, i) => {
			const y = Math.log(s.constant.value);
			return [
				String(Number(s.kelvin.toFixed(2))),
				significant(s.constant.value, 4),
				(100 * s.ownError).toFixed(1),
				(
					100 * Math.sqrt(s.shared.reduce((sum, e) => sum + e.effect ** 2, 0))
				).toFixed(1),
				fixed(y, 3),
				fixed(y - v.line.residuals[i], 3),
			];
		}),
		[`${v.made}.`],
	);
}
