import { type Problem, problem, quoted, throwProblems } from "../quantity";

const absoluteZero = -273.15;

type Temperatures = Readonly<Record<string, number>>;

/**
 * The absolute temperature (K) that the name of each treatment stands for: the one that is given for it, else the one that the name says.
 *
 * @param treatments names, as on the sheet
 * @param celsius temperature in °C by name, or a text such as "cellar: 12; room: 21"
 * @throws ProblemError naming every treatment without a temperature, and what of a text gives none
 */
export function kelvinsOf(
	treatments: readonly string[],
	celsius: Temperatures | string,
): number[] {
	const { given, problems } =
		typeof celsius === "string"
			? temperaturesIn(celsius)
			: { given: celsius, problems: [] };
	const degrees = treatments.map((name) => celsiusOf(name, given));
	throwProblems([
		...problems,
		...treatments.flatMap((name, i): Problem[] =>
			Number.isFinite(degrees[i]) && degrees[i] > absoluteZero
				? []
				: [
						problem(
							"treatment-without-temperature",
							{},
							`the treatment ${quoted(name)}, which has no temperature in \`celsius\``,
							"a temperature in °C for every treatment",
							`Add it to \`celsius\`, like ${quoted(name)}: 25. A treatment whose name is its temperature, such as "25 °C", needs no entry.`,
						),
					],
		),
	]);
	return degrees.map((t) => t - absoluteZero);
}

/** In °C; NaN where neither says it. */
function celsiusOf(name: string, given: Temperatures): number {
	if (Object.hasOwn(given, name)) return given[name];
	const said = /^\s*([-−]?\d+(?:[.,]\d+)?)\s*(°\s*C|℃|C|K)\s*$/.exec(name);
	if (said === null) return Number.NaN;
	const value = numberIn(said[1]);
	return said[2] === "K" ? value + absoluteZero : value;
}

function numberIn(text: string): number {
	return /^\s*[-−]?\d+([.,]\d+)?\s*$/.test(text)
		? Number(text.replace("−", "-").replace(",", "."))
		: Number.NaN;
}

/** "cellar: 12; room: 21" */
function temperaturesIn(text: string): {
	readonly given: Temperatures;
	readonly problems: readonly Problem[];
} {
	const parts = text
		.split(";")
		.filter((part) => part.trim() !== "")
		.map((part) => {
			const at = part.lastIndexOf(":");
			return {
				part: part.trim(),
				name: part.slice(0, Math.max(0, at)).trim(),
				value: numberIn(part.slice(at + 1)),
			};
		});
	return {
		given: Object.fromEntries(parts.map((p) => [p.name, p.value])),
		problems: parts
			.filter((p) => p.name === "" || !Number.isFinite(p.value))
			.map((p) =>
				problem(
					"temperature-not-read",
					{ call: "temperatureSeries" },
					`"${p.part}"`,
					"a treatment, a colon and a temperature in °C, with a semicolon before the next",
					'Write it like "cellar: 12; room: 21".',
				),
			),
	};
}
