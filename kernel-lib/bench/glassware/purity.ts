import {
	type InputDescription,
	input,
	inputOptions,
	problem,
	type Quantity,
	rectangular,
	requireOptions,
	throwProblems,
} from "../../quantity";

/**
 * Purity as a mass fraction. "99.9 % ± 0.1 %" is `purity(99.9, 0.1)`, "at least 99.5 %" is `purityAtLeast(99.5)`; every value within the limits is equally likely.
 *
 * @param percent, halfWidth in %
 */
export function purity(
	percent: number,
	halfWidth: number,
	description: Partial<InputDescription> = {},
): Quantity<"ratio"> {
	requireOptions(description, inputOptions, "purity");
	if (!(percent > 0 && percent <= 100))
		throwProblems([
			problem(
				"purity-wrong",
				{ column: "purity" },
				`a purity of ${percent} %`,
				"a purity above 0 and up to 100 %",
				"Take it from the label, in per cent.",
			),
		]);
	return input("ratio", percent, "%", rectangular(halfWidth), {
		symbol: "P",
		meaning: "purity",
		...description,
	});
}

export function purityAtLeast(
	percent: number,
	description: Partial<InputDescription> = {},
): Quantity<"ratio"> {
	return purity((100 + percent) / 2, (100 - percent) / 2, description);
}
