/** Processor time of simultaneous p-values and critical values: five comparisons with one control, and five correlated in general. node test/bench/run.mjs simultaneous.ts */
import {
	type CorrelationMatrix,
	simultaneousAdjustedP,
	simultaneousCriticalValue,
} from "../../kernel-lib/stats";

const T = [2.1, -1.2, 3.3, 0.4, 2.8];

function product(l: readonly number[]): number[][] {
	return l.map((a, i) => l.map((b, j) => (i === j ? 1 : a * b)));
}

/** Milliseconds of processor time of one call: the shortest of several turns. */
function milliseconds(work: () => void): string {
	let shortest = Number.POSITIVE_INFINITY;
	for (let turn = 0; turn < 8; turn++) {
		let calls = 0;
		const start = process.cpuUsage();
		let spent = 0;
		do {
			work();
			calls++;
			const { user, system } = process.cpuUsage(start);
			spent = (user + system) / 1000;
		} while (spent < 40);
		shortest = Math.min(shortest, spent / calls);
	}
	return shortest.toFixed(2);
}

export function main(): void {
	const families: [string, CorrelationMatrix][] = [
		["one control, equal groups", product(Array(5).fill(Math.SQRT1_2))],
		["one control, unequal groups", product([0.7, 0.65, 0.6, 0.75, 0.5])],
		[
			"general correlations",
			[
				[1, 0.4, -0.2, 0.2, 0.1],
				[0.4, 1, 0.25, -0.25, 0.3],
				[-0.2, 0.25, 1, 0.1, -0.2],
				[0.2, -0.25, 0.1, 1, 0.45],
				[0.1, 0.3, -0.2, 0.45, 1],
			],
		],
	];
	for (const [what, correlation] of families)
		for (const df of [4, 20])
			console.log(
				`${what}, ${df} degrees of freedom: five p-values ${milliseconds(() => {
					simultaneousAdjustedP(T, correlation, df);
				})} ms, their critical value ${milliseconds(() => {
					simultaneousCriticalValue(correlation, df, 0.05, "two-sided");
				})} ms`,
			);
}
