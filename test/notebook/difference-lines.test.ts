/** Whoever has the ledger alone can reckon every difference and both ends of its interval again. */
import { describe, expect, it } from "vitest";
import { readTrial } from "../../kernel-lib/bench/index";
import {
	type CompareOptions,
	type Comparison,
	compareTreatments,
	marginOf,
	residueOf,
} from "../../kernel-lib/compare/index";
import { mostWeighed } from "../../kernel-lib/notebook/large/limits";
import type {
	ReportedComparison,
	ReportedVerdict,
} from "../../kernel-lib/notebook/reported";
import { resultOf } from "../../kernel-lib/notebook/result";
import type { LedgerRow } from "../../kernel-lib/quantity/index";

/** The value of a line of numbers: sums, products, quotients and powers, units left out. */
function reckoned(numbers: string): number {
	const plain = numbers
		.replaceAll("−", "-")
		.replaceAll("×", "*")
		.replaceAll("^", "**")
		.replaceAll(/ ?mg\/[gL]/g, "");
	if (!/^[-+*/(). \de]+$/.test(plain)) throw new Error(`Not plain: ${plain}`);
	return Number(new Function(`return ${plain};`)());
}

interface Reported {
	readonly content: ReportedComparison;
	readonly line: (id: string) => LedgerRow;
}

function reportedOf(comparison: Comparison): Reported {
	const { content, ledger } = resultOf("verdict", comparison, "");
	if (content.kind !== "comparison" || !("find" in ledger))
		throw new Error("A comparison with its whole ledger was expected.");
	return {
		content,
		line: (id) => {
			const found = ledger.find((row) => row.id === id);
			if (found === undefined) throw new Error(`No line ${id}.`);
			return found;
		},
	};
}

function near(a: number, b: number): void {
	expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(b)));
}

/** The sum of weights times uptakes, each uptake reckoned from its own line. */
function sumOfWeights(
	{ reckoned: r }: ReportedVerdict,
	{ line }: Reported,
): number {
	return r.weighed.reduce((sum, { line: id, weight, uptake }) => {
		const { numbers, value } = line(id);
		// Where only a limit is known, a flask's line is that of its uptake where it stood.
		if (value === uptake && /^[^a-z]*mg\/g ×/.test(numbers))
			near(reckoned(numbers), value);
		return sum + weight * uptake;
	}, 0);
}

function holds(verdict: ReportedVerdict, reported: Reported): void {
	const { difference, reckoned: r } = verdict;
	const lines = r.lines.map(reported.line);
	expect(lines.length > 0).toBe(difference.is !== "not available");
	if (lines.length === 0) return;
	for (const { numbers, value } of lines) near(reckoned(numbers), value);
	const [first] = lines;
	near(sumOfWeights(verdict, reported), first.value);
	const endOf = (symbol: string): number => {
		const found = lines.find((l) => l.symbol === symbol);
		if (found === undefined) throw new Error(`No ${symbol}.`);
		return found.value;
	};
	switch (difference.is) {
		case "estimate":
			near(first.value, difference.estimate);
			near(first.standardUncertainty, difference.standardError);
			near(endOf("Δ_lower"), difference.low);
			near(endOf("Δ_upper"), difference.high);
			break;
		case "at least":
			near(endOf("Δ_lower"), difference.limit);
			break;
		case "at most":
			near(endOf("Δ_upper"), difference.limit);
			break;
	}
}

const trials: readonly [string, string, CompareOptions][] = [
	[
		"carried, days, a deviation",
		"data/demo-run/hazelnut.csv",
		{ margin: marginOf(25) },
	],
	[
		"on isotherms",
		"data/demo-isotherm/isotherm.csv",
		{ margin: marginOf(25), residue: residueOf(1000) },
	],
	["one flask each", "data/demo-run/small-trial.csv", {}],
	["flasks that ran dry", "data/demo-run/small-trial-zero.csv", {}],
];

describe.each(trials)(
	"differences of a comparison: %s",
	(_, sheet, options) => {
		const reported = reportedOf(compareTreatments(readTrial(sheet), options));

		it("are reckoned again from their lines of the ledger", () => {
			expect(reported.content.verdicts.length).toBeGreaterThan(0);
			for (const verdict of reported.content.verdicts) holds(verdict, reported);
		});

		it("lead to the lines that they were made from", () => {
			for (const { reckoned: r } of reported.content.verdicts)
				for (const id of r.lines)
					for (const input of reported.line(id).inputs)
						expect(reported.line(input).id).toBe(input);
		});
	},
);

describe("a comparison of very many flasks", () => {
	const comparison = compareTreatments(
		readTrial("data/demo-run/small-trial.csv"),
	);
	const [first] = comparison.verdicts;
	const { reckoned: r } = reportedOf(comparison).content.verdicts[0];
	const linesOf = (times: number): number => {
		const verdicts = Array.from({ length: times }, () => first);
		return reportedOf({ ...comparison, verdicts }).content.verdicts[0].reckoned
			.lines.length;
	};

	it("has its flasks one by one up to the limit, and none beyond", () => {
		const most = Math.floor(mostWeighed / r.weighed.length);
		expect(linesOf(most)).toBeGreaterThan(0);
		expect(linesOf(most + 1)).toBe(0);
	});
});
