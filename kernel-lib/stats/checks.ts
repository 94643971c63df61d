import { problem, requireNumbers, throwProblems } from "../problem";

/** Throws a ProblemError: a statistic was given what it cannot take. `found` says what and for which statistic. */
export function refuse(
	code: string,
	found: string,
	expected: string,
	mend: string,
): never {
	throwProblems([problem(code, {}, found, expected, mend)]);
	throw new Error("a refusal without a problem");
}

export function requireProbability(what: string, value: number): void {
	if (!(value >= 0 && value <= 1))
		refuse(
			"not-a-probability",
			`a probability of ${value} for ${what}`,
			"a number from 0 to 1",
			"Write 5 % as 0.05.",
		);
}

/** For error rates and powers, which 0 and 1 would make meaningless. */
export function requireErrorRate(what: string, value: number): void {
	if (!(value > 0 && value < 1))
		refuse(
			"error-rate-out-of-range",
			`${value} for ${what}`,
			"a number above 0 and below 1",
			"Write 5 % as 0.05.",
		);
}

export function requireConfidence(confidence: number): void {
	if (!(typeof confidence === "number" && confidence > 0 && confidence < 1))
		refuse(
			"confidence-out-of-range",
			typeof confidence === "number"
				? `a confidence of ${confidence}`
				: "a confidence that is not a number",
			"a number above 0 and below 1",
			"Write 95 % as 0.95.",
		);
}

export function requireDegreesOfFreedom(what: string, value: number): void {
	if (!(value > 0))
		refuse(
			"degrees-of-freedom",
			`${value} degrees of freedom for ${what}`,
			"a number above 0 (or Infinity)",
			"A mean of n observations leaves n - 1.",
		);
}

export function requireNumber(what: string, value: number): void {
	if (Number.isNaN(value))
		refuse(
			"not-a-number",
			`a value that is not a number for ${what}`,
			"a number",
			"Look where the value comes from: a division of 0 by 0, or an empty cell.",
		);
}

export function requireFinite(what: string, value: number): void {
	if (!Number.isFinite(value))
		refuse(
			"not-finite",
			`${value} for ${what}`,
			"a finite number",
			"Look where the value comes from: a division by 0, or an empty cell.",
		);
}

/** "1 observation", "3 observations". */
export function counted(count: number, what: string): string {
	return `${count} ${what}${count === 1 ? "" : "s"}`;
}

export function requireObservations(
	what: string,
	values: ArrayLike<number>,
	least: number,
): void {
	// Asked here first, for kernels come by this way a million times.
	if (typeof values !== "object" || typeof values?.length !== "number")
		requireNumbers(values, what);
	if (values.length < least)
		refuse(
			"too-few-observations",
			`${counted(values.length, "observation")} for ${what}`,
			`at least ${least}`,
			"Give all observations in one list, such as [1.02, 1.05, 0.99].",
		);
	for (let index = 0; index < values.length; index++)
		if (!Number.isFinite(values[index]))
			refuse(
				"not-finite",
				`${values[index]} as observation ${index + 1} for ${what}`,
				"a finite number",
				"Leave the observation out, or give its value.",
			);
}
