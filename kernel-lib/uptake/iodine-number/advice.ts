import { listed, quoted } from "../../quantity";
import { ammoniaFirst, unlessAmmonia } from "../ammonia";
import { doseTooSmall } from "./dosage";
import type { NumberOfDosages } from "./number-of-dosages";
import { d4607 } from "./standard";

/** What an iodine number cannot say, whatever its interval. */
export const iodineNumberLimits: readonly string[] = [
	"The interval is of this trial: these portions, these solutions, this pair of hands. It holds nothing of how lots of the char differ from one another.",
	`Between laboratories iodine numbers differ by far more than within one trial: the standard speaks of about ${d4607.reproducibility_percent} % for carbons of 600 to 1450 mg/g (from memory, not verified).`,
	"The figure is of the char as it was ground and boiled for this trial. Coarse char in a filter, met for a short time, takes up less.",
	"Uptake of iodine is no measure of the uptake of larger molecules, of metals or of gases, and no surface area.",
];

/** What would make the next trial a better one, in full sentences: masses to weigh, dosages to repeat, what to write down. */
export function nextTrial(number: NumberOfDosages): string[] {
	const { ammonia, notAsAsked, treatment } = number;
	if (notAsAsked !== "")
		return [
			`${quoted(treatment)}: ${notAsAsked} Nothing else is advised before that is out of the char.`,
		];
	if (ammonia === "none named") return stepsOf(number);
	return ammonia === "named"
		? [`${quoted(treatment)}: ${ammoniaFirst}.`]
		: [...stepsOf(number), `${quoted(treatment)}: ${unlessAmmonia}`];
}

function stepsOf(number: NumberOfDosages): string[] {
	const { treatment } = number;
	if (number.is === "not available")
		return [
			`${quoted(treatment)}: weigh three dosages or more that leave residues between ${d4607.windowLow_N} and ${d4607.windowHigh_N} N. ${[number.weighInstead, ...number.remarks].filter((text) => text !== "").join(" ")}`.trim(),
		];
	const { line, points, conditions } = number;
	const outside = points.filter((p) => {
		const c = p.normality.in("N");
		return c < d4607.windowLow_N || c > d4607.windowHigh_N;
	});
	const within = Math.max(line.scatter, line.readings);
	const masses = number.nextDosages.rows.map((row) => `${row[1]} g`);
	return [
		masses.length === 0
			? `${quoted(treatment)}: ${doseTooSmall}`
			: `${quoted(treatment)}: weigh about ${listed(masses)} of char.`,
		...(outside.length > 0
			? [
					`${quoted(treatment)}: repeat the dosages outside the window (flask ${outside.map((p) => p.flask.name).join(", ")}).`,
				]
			: []),
		line.shared > within
			? `${quoted(treatment)}: most of the uncertainty is shared by all dosages. More dosages would not make it smaller; another standardisation, with a larger aliquot and more titres and blanks, would.`
			: `${quoted(treatment)}: most of the uncertainty comes from single flasks. A dosage more, or a second titration of each, would make it smaller.`,
		...conditions
			.filter((c) => c.state === "not recorded")
			.map((c) => `${quoted(treatment)}: write down: ${c.condition}.`),
		...conditions
			.filter((c) => c.state === "not met")
			.map(
				(c) => `${quoted(treatment)}: the standard asks for: ${c.condition}.`,
			),
	];
}
