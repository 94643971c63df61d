import { problem, throwProblems } from "../quantity";

const absoluteZero = -273.15;

/**
 * The absolute temperature (K) that the name of each treatment stands for.
 *
 * @param treatments names, as on the sheet
 * @param celsius temperature in °C by name
 * @throws ProblemError naming every treatment without a temperature
 */
export function kelvinsOf(
	treatments: readonly string[],
	celsius: Readonly<Record<string, number>>,
): number[] {
	const given = (name: string): boolean =>
		Object.hasOwn(celsius, name) &&
		Number.isFinite(celsius[name]) &&
		celsius[name] > absoluteZero;
	const missing = treatments.filter((name) => !given(name));
	throwProblems(
		missing.map((name) =>
			problem(
				"treatment-without-temperature",
				{},
				`the treatment "${name}", which has no temperature in \`celsius\``,
				"a temperature in °C for every treatment",
				`Add it to \`celsius\`, like "${name}": 25.`,
			),
		),
	);
	return treatments.map((name) => celsius[name] - absoluteZero);
}
