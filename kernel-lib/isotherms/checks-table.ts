import { checkFit } from "../fit";
import { fixed, type MaybeKnown, type Table, table } from "../quantity";
import type { IsothermFit } from "./fit-result";

function digits(value: number, count: number): number {
	return Number(value.toPrecision(count));
}

/** What speaks for a fit and against it, each with what it means: scatter, correlation of the first two parameters, BIC, lack of fit, runs, normality, the largest leverage. */
export function checksTable(...fits: readonly IsothermFit[]): Table {
	return table(
		"Checks",
		["treatment", "what", "value", "what it means"],
		fits.flatMap((f) => checksOf(f).map((check) => [f.points.name, ...check])),
	);
}

type Check = readonly [
	what: string,
	value: string | number,
	whatItMeans: string,
];

function checksOf(f: IsothermFit): Check[] {
	const { lackOfFit, runs, normality } = checkFit(f.fit);
	const tests = [
		["lack of fit", lackOfFit],
		["runs", runs],
		["normality", normality],
	] as const;
	return [
		[
			"scatter",
			`${f.scale.toPrecision(2)} times the reading errors`,
			"below 1: closer to the curve than the readings allow; well above 1: flasks differ by more than readings do",
		],
		[
			"correlation of the parameters",
			correlationText(f),
			"near 1 or −1: only a combination of them is known",
		],
		[
			"BIC",
			numberOrWhy(f.fit.criteria.bic),
			"for comparing curves fitted to the same flasks; alone it says nothing",
		],
		...tests.map(
			([what, test]): Check =>
				test.is === "value"
					? [what, `p = ${test.value.p.toPrecision(2)}`, test.value.meaning]
					: [what, "not available", test.because],
		),
		leverageOf(f),
	];
}

function correlationText({ fit: { correlation }, parameters }: IsothermFit) {
	if (parameters.length < 2) return "one parameter only";
	return correlation.is === "value"
		? fixed(correlation.value[1], 2)
		: "not available";
}

function numberOrWhy(known: MaybeKnown<number>): string | number {
	return known.is === "value"
		? digits(known.value, 4)
		: `not available: ${known.because}`;
}

function leverageOf({ fit, used }: IsothermFit): Check {
	if (fit.leverage.is === "not known")
		return ["largest leverage", "not available", fit.leverage.because];
	const largest = Math.max(...fit.leverage.value);
	return [
		"largest leverage",
		largest.toFixed(2),
		`flask ${used[fit.leverage.value.indexOf(largest)].flask}; near 1: this flask alone decides where the curve goes`,
	];
}
