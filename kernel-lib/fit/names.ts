import { didYouMean, type Problem, problem } from "../quantity";

/** One problem for every name in `given`, the parts of `of`, that is not among those known. */
export function unknownNames(
	given: object,
	known: readonly string[],
	of: string,
): Problem[] {
	return Object.keys(given)
		.filter((name) => !known.includes(name))
		.map((name) =>
			problem(
				"unknown-name",
				{ call: of },
				`"${name}"`,
				`one of ${known.join(", ")}`,
				didYouMean(name, known),
			),
		);
}

/** One problem for every name in `given` that no parameter has. */
export function unknownParameters(
	given: readonly string[],
	names: readonly string[],
	option: string,
): Problem[] {
	return given
		.filter((name) => !names.includes(name))
		.map((name) =>
			problem(
				"unknown-parameter",
				{ call: option },
				`"${name}"`,
				`a parameter of the model: ${names.join(", ")}`,
				didYouMean(name, names),
			),
		);
}
