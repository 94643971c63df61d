import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import {
	bootstrap,
	createFitter,
	type Fit,
	type Fitter,
	fit as fitCurve,
	fitMany,
	informationCriteria,
	type Model,
	profileIntervals,
} from "../../kernel-lib/fit/index";
import {
	betLiquid,
	dualSiteLangmuir,
	dubininRadushkevich,
	freundlich,
	henry,
	langmuir,
	redlichPeterson,
	sips,
	temkin,
	toth,
} from "../../kernel-lib/isotherms/catalogue/index";
import { createRandom } from "../../kernel-lib/stats/index";
import { referenceData } from "../reference/check";

/**
 * Fits, bootstrap and profiles against SciPy on the same data and start values, in processor time. The two sides take
 * turns, round by round, and what is reported is the median of the rounds' ratios. Give the interpreter as PYTHON.
 */

interface SyntheticSet {
	readonly id: string;
	readonly x: number[];
	readonly y: number[];
	readonly fit: { readonly residualSD: number };
}

const { sets } = referenceData<{ sets: SyntheticSet[] }>("synthetic-fits.json");
const setOf = (id: string): SyntheticSet => {
	const found = sets.find((s) => s.id === id);
	if (!found) throw new Error(`no data set ${id}`);
	return found;
};

/** The whole catalogue, each isotherm on points of its own kind. */
const catalogue: readonly {
	readonly model: Model;
	readonly data: string;
}[] = [
	{ model: henry.model, data: "henry-1" },
	{ model: langmuir.model, data: "langmuir-1" },
	{ model: freundlich.model, data: "freundlich-1" },
	{ model: temkin.model, data: "temkin-1" },
	{ model: sips.model, data: "sips-1" },
	{ model: toth.model, data: "toth-1" },
	{ model: redlichPeterson.model, data: "redlich-peterson-1" },
	{
		model: dubininRadushkevich(298.15, { form: "solubility", solubility: 1300 })
			.model,
		data: "dr-polanyi-1",
	},
	{ model: dualSiteLangmuir.model, data: "dual-site-langmuir-1" },
	{ model: betLiquid(250).model, data: "bet-liquid-1" },
];

/** Those whose ratios are reported one by one. */
const singled: readonly string[] = [
	langmuir.name,
	freundlich.name,
	sips.name,
	redlichPeterson.name,
	dualSiteLangmuir.name,
];

const perturbedSets = 64;
const resamples = 2000;
const rounds = 5;

interface Task {
	readonly model: Model;
	readonly x: number[];
	readonly ys: Float64Array[];
	readonly starts: number[][];
	readonly fitter: Fitter;
}

/** The set's points with normal noise of its own residual SD added, 64 times. */
function taskOf(model: Model, data: string): Task {
	const set = setOf(data);
	const random = createRandom(data);
	const ys = Array.from({ length: perturbedSets }, () =>
		Float64Array.from(set.y, (y) => y + set.fit.residualSD * random.normal()),
	);
	const prepared = model.prepare(Float64Array.from(set.x));
	const starts = ys.map((y) => {
		const out = new Float64Array(model.parameters.length).fill(1);
		if (model.start.kind === "from data") model.start.guess(prepared, y, out);
		return Array.from(out);
	});
	const fitter = createFitter(model, { x: set.x, y: ys[0] });
	return { model, x: set.x, ys, starts, fitter };
}

/** Seconds of processor time that this process has used. */
function used(): number {
	const { user, system } = process.cpuUsage();
	return (user + system) / 1e6;
}

/** Shortest processor time of one call in seconds, over turns of at least 30 ms. */
function secondsOf(work: () => void): number {
	let shortest = Number.POSITIVE_INFINITY;
	for (let turn = 0; turn < 6; turn++) {
		let calls = 0;
		const start = used();
		do {
			work();
			calls++;
		} while (used() - start < 0.03);
		shortest = Math.min(shortest, (used() - start) / calls);
	}
	return shortest;
}

interface Peer {
	readonly fits: Record<
		string,
		{
			seconds: number;
			withCriteria: number;
			parameters: number[][];
			errors: number[][];
		}
	>;
	readonly bootstrapLoop: number;
	readonly bootstrapVectorised: number;
	readonly profile: number;
	readonly profileEnds: number[];
}

function scipy(task: string): Peer {
	const script = fileURLToPath(new URL("fit-speed.py", import.meta.url));
	const python = process.env.PYTHON ?? "python3";
	const env = {
		...process.env,
		OMP_NUM_THREADS: "1",
		OPENBLAS_NUM_THREADS: "1",
	};
	try {
		execFileSync(python, ["-c", "import numpy, scipy"], { stdio: "ignore" });
	} catch {
		throw new Error(
			`${python} has no SciPy to race against. Name an interpreter that has: PYTHON=/path/to/python npm run bench`,
		);
	}
	const out = execFileSync(python, [script], {
		input: task,
		env,
		encoding: "utf8",
		maxBuffer: 1e8,
	});
	return JSON.parse(out) as Peer;
}

function peerTask(tasks: readonly Task[], base: Fit): string {
	return JSON.stringify({
		fits: Object.fromEntries(
			tasks.map((t) => [
				t.model.name,
				{ x: t.x, ys: t.ys.map((y) => Array.from(y)), starts: t.starts },
			]),
		),
		langmuir: {
			x: Array.from(base.task.x),
			y: Array.from(base.task.y),
			parameters: Array.from(base.theta),
			errors: base.parameters.map((p) =>
				p.standardError.is === "value" ? p.standardError.value : 0,
			),
			target:
				base.residualSumOfSquares *
				(1 + 5.317655071578714 / base.degreesOfFreedom), // F(0.95; 1, 8)
			resamples,
		},
	});
}

/** Both sides' seconds for one thing that is done `times` times, one pair a round. */
interface Race {
	readonly what: string;
	readonly times: number;
	readonly rounds: { readonly ours: number; readonly theirs: number }[];
}

function race(what: string, times: number): Race {
	return { what, times, rounds: [] };
}

function ratioOf({ rounds }: Race): number {
	return median(rounds.map((r) => r.theirs / r.ours));
}

function print(r: Race): void {
	const us = (seconds: number[]): string =>
		`${((median(seconds) / r.times) * 1e6).toFixed(2)} us`;
	const ratios = r.rounds.map((one) => one.theirs / one.ours);
	console.log(
		`${r.what}: ${us(r.rounds.map((one) => one.ours))}, peer ${us(r.rounds.map((one) => one.theirs))}, ratio ${ratioOf(r).toFixed(1)} (rounds ${Math.min(...ratios).toFixed(1)} to ${Math.max(...ratios).toFixed(1)})`,
	);
}

function median(values: readonly number[]): number {
	const sorted = [...values].sort((a, b) => a - b);
	return sorted[sorted.length >> 1];
}

/** Largest difference of the two sides' parameters, in standard errors; speed means nothing if the answers differ. */
function apart(t: Task, theirs: Peer["fits"][string]): number {
	let most = 0;
	t.ys.forEach((y, k) => {
		t.fitter.fit(y).parameters.forEach((v, j) => {
			most = Math.max(
				most,
				Math.abs(v - theirs.parameters[k][j]) / Math.abs(theirs.errors[k][j]),
			);
		});
	});
	return most;
}

export function main(): void {
	const tasks = catalogue.map(({ model, data }) => taskOf(model, data));
	const { x, y } = setOf("langmuir-1");
	const base = fitCurve(langmuir.model, { x, y });
	const input = peerTask(tasks, base);

	const single = new Map(
		tasks.map((t) => [t.model.name, race(t.model.name, perturbedSets)]),
	);
	const whole = race(
		`The whole catalogue (${tasks.length} isotherms) with AICc`,
		perturbedSets,
	);
	const many = race(
		"One fit by fitMany, checks of the data included",
		perturbedSets * tasks.length,
	);
	const loop = race(
		`${resamples}-fold residual bootstrap of a Langmuir fit, against SciPy's loop`,
		1,
	);
	const vectorised = race(
		"  the same, against vectorised Gauss-Newton in numpy",
		1,
	);
	const profiles = race(
		"Profile intervals of a Langmuir fit, options and texts included",
		1,
	);
	let last: Peer | null = null;
	for (let round = 0; round < rounds; round++) {
		const peer = scipy(input);
		for (const t of tasks)
			single.get(t.model.name)?.rounds.push({
				ours: secondsOf(() => {
					for (const one of t.ys) t.fitter.fit(one);
				}),
				theirs: peer.fits[t.model.name].seconds,
			});
		const peerFits = Object.values(peer.fits);
		const sum = (values: number[]): number => values.reduce((s, v) => s + v, 0);
		whole.rounds.push({
			ours: secondsOf(() => {
				for (const t of tasks)
					for (const one of t.ys) {
						const found = t.fitter.fit(one);
						informationCriteria({
							rss: found.residualSumOfSquares,
							points: one.length,
							freeParameters: found.parameters.length,
							sigmaIsAbsolute: false,
						});
					}
			}),
			theirs: sum(peerFits.map((f) => f.withCriteria)),
		});
		many.rounds.push({
			ours: secondsOf(() => {
				for (const t of tasks)
					fitMany(
						t.model,
						t.ys.map((one) => ({ x: t.x, y: one })),
					);
			}),
			theirs: sum(peerFits.map((f) => f.seconds)),
		});
		const resampled = secondsOf(() => {
			bootstrap(base, { interval: "percentile", resamples });
		});
		loop.rounds.push({ ours: resampled, theirs: peer.bootstrapLoop });
		vectorised.rounds.push({
			ours: resampled,
			theirs: peer.bootstrapVectorised,
		});
		profiles.rounds.push({
			ours: secondsOf(() => {
				profileIntervals(base);
			}),
			theirs: peer.profile,
		});
		last = peer;
	}
	if (last === null) return;

	console.log(
		`Median of ${rounds} rounds, both sides in turn\n\nFits with standard errors, one fit:`,
	);
	const ratios: number[] = [];
	for (const t of tasks) {
		const one = single.get(t.model.name);
		if (one === undefined) continue;
		print(one);
		console.log(
			`  the two sides' answers differ by at most ${apart(t, last.fits[t.model.name]).toExponential(1)} standard errors`,
		);
		if (singled.includes(t.model.name)) ratios.push(ratioOf(one));
	}
	console.log(
		`${singled.join(", ")}: geometric mean ${Math.exp(ratios.reduce((s, r) => s + Math.log(r), 0) / ratios.length).toFixed(1)}, least ${Math.min(...ratios).toFixed(1)}\n`,
	);
	for (const one of [whole, many, loop, vectorised, profiles]) print(one);
	const ends = profileIntervals(base).flatMap((p) =>
		p.interval.is === "value"
			? [p.interval.value.low, p.interval.value.high]
			: [],
	);
	console.log(
		`  largest relative difference of an end: ${Math.max(...ends.map((e, i) => (e.kind === "closed" ? Math.abs(e.value / (last as Peer).profileEnds[i] - 1) : Number.POSITIVE_INFINITY))).toExponential(1)}`,
	);
}
