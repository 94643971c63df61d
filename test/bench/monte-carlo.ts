import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import {
	input,
	type Kind,
	minus,
	monteCarlo,
	normal,
	per,
	type Quantity,
	scaled,
	stated,
	times,
	type UnitOf,
} from "../../kernel-lib/quantity/index";

function given<K extends Kind>(
	kind: K,
	value: number,
	unit: UnitOf<K>,
	u: number,
	symbol: string,
): Quantity<K> {
	return input(kind, value, unit, normal(u), {
		symbol,
		source: stated("benchmark"),
	});
}

/** q = M (c V - 0.5 c_t V_t V_tot/V_a)/m, eight normal inputs. */
export function chain(): Quantity {
	const dosed = times(
		given("concentration", 0.05, "mol/L", 0.0001, "c"),
		given("volume", 50, "mL", 0.05, "V"),
	);
	const titrated = times(
		given("concentration", 0.1002, "mol/L", 0.0001, "c_t"),
		given("volume", 12.34, "mL", 0.04, "V_t"),
	);
	const left = per(
		times(
			scaled(titrated, 0.5),
			per(
				given("volume", 100, "mL", 0.1, "V_tot"),
				given("volume", 1, "mL", 0, "one"),
			),
		),
		per(
			given("volume", 25, "mL", 0.03, "V_a"),
			given("volume", 1, "mL", 0, "one"),
		),
	);
	const mass = times(
		minus(dosed, left),
		given("molarMass", 253.809, "g/mol", 0.012, "M"),
	);
	return per(mass, given("mass", 1.0143, "g", 0.001, "m")) as Quantity;
}

const python = process.env.PYTHON ?? "python3";
const script = fileURLToPath(new URL("monte-carlo.py", import.meta.url));
const trials = 1_000_000;

function numpy(generator: string): number {
	const out = execFileSync(python, [script, String(trials), generator], {
		env: {
			...process.env,
			OPENBLAS_NUM_THREADS: "1",
			OMP_NUM_THREADS: "1",
		},
		encoding: "utf8",
	});
	return Number(out.split(" ")[0]);
}

function median(values: readonly number[]): number {
	return [...values].sort((a, b) => a - b)[values.length >> 1];
}

function ours(q: Quantity): number {
	const seconds: number[] = [];
	for (let seed = 1; seed <= 3; seed++) {
		const start = performance.now();
		const { mean, standardUncertainty, symmetric } = monteCarlo(q, {
			trials,
			seed,
		});
		seconds.push((performance.now() - start) / 1000);
		if (!(mean + standardUncertainty + symmetric.lower > 0))
			throw new Error("no result");
	}
	return median(seconds);
}

const million = (seconds: number): string =>
	(trials / seconds / 1e6).toFixed(1);

function speed(q: Quantity): void {
	monteCarlo(q, { trials });
	console.log(
		"Full-chain trials, 8 normal inputs, with mean, SD and 95 % limits; million a second",
	);
	const ratios: number[] = [];
	for (let round = 1; round <= 5; round++) {
		const sfc64 = numpy("sfc64");
		const here = ours(q);
		ratios.push(sfc64 / here);
		console.log(
			`round ${round}: here ${million(here)}, numpy SFC64 ${million(sfc64)}, ratio ${(sfc64 / here).toFixed(2)}`,
		);
	}
	console.log(`median ratio ${median(ratios).toFixed(2)}`);
}

/** Root mean square error of the 95 % limits over seeds, against limits from a very long low-discrepancy run. */
function accuracy(q: Quantity): void {
	const truth = monteCarlo(q, {
		trials: 2 ** 23,
		sampling: "sobol",
		seed: "truth",
	}).symmetric;
	const error = (count: number, sampling: "random" | "sobol"): number => {
		let squares = 0;
		const seeds = 20;
		for (let seed = 1; seed <= seeds; seed++) {
			const { lower, upper } = monteCarlo(q, {
				trials: count,
				seed,
				sampling,
			}).symmetric;
			squares += (lower - truth.lower) ** 2 + (upper - truth.upper) ** 2;
		}
		return Math.sqrt(squares / (2 * seeds));
	};
	console.log(
		"\nRoot mean square error of the 95 % limits over 20 seeds, in standard uncertainties",
	);
	for (const [count, sampling] of [
		[1_000_000, "random"],
		[100_000, "random"],
		[100_000, "sobol"],
		[65_536, "sobol"],
		[4_096, "sobol"],
	] as const)
		console.log(
			`${sampling}, ${count} trials: ${(error(count, sampling) / q.standardUncertainty).toExponential(2)}`,
		);
}

export function main(): void {
	const q = chain();
	speed(q);
	accuracy(q);
}
