import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import {
	dualSiteLangmuir,
	freundlich,
	langmuir,
	redlichPeterson,
	sips,
} from "../../kernel-lib/curves/isotherms/index";
import {
	bootstrap,
	createFitter,
	type Fitter,
	fit,
	fitMany,
	informationCriteria,
	type Model,
	profileIntervals,
} from "../../kernel-lib/fit/index";
import { createRandom } from "../../kernel-lib/stats/index";
import { referenceData } from "../reference/check";

/** Fits, bootstrap and profiles against SciPy, both sides in one run on the same data and start values, in processor time. Give the interpreter as PYTHON. */

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

const models: readonly { readonly model: Model; readonly data: string }[] = [
	{ model: langmuir.model, data: "langmuir-1" },
	{ model: freundlich.model, data: "freundlich-1" },
	{ model: sips.model, data: "sips-1" },
	{ model: redlichPeterson.model, data: "redlich-peterson-1" },
	{ model: dualSiteLangmuir.model, data: "dual-site-langmuir-1" },
];

const perturbedSets = 64;
const resamples = 2000;

interface Task {
	readonly model: Model;
	readonly x: number[];
	readonly ys: Float64Array[];
	readonly starts: number[][];
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
		const out = new Float64Array(model.parameters.length);
		if (model.start.kind === "from data") model.start.guess(prepared, y, out);
		return Array.from(out);
	});
	return { model, x: set.x, ys, starts };
}

/** Seconds of processor time that this process has used. */
function used(): number {
	const { user, system } = process.cpuUsage();
	return (user + system) / 1e6;
}

/** Shortest processor time of one call in seconds, over rounds of at least 50 ms. */
function secondsOf(work: () => void): number {
	let shortest = Number.POSITIVE_INFINITY;
	for (let round = 0; round < 15; round++) {
		let calls = 0;
		const start = used();
		do {
			work();
			calls++;
		} while (used() - start < 0.05);
		shortest = Math.min(shortest, (used() - start) / calls);
	}
	return shortest;
}

interface Peer {
	readonly fits: Record<
		string,
		{ seconds: number; parameters: number[][]; errors: number[][] }
	>;
	readonly catalogue: number;
	readonly bootstrapLoop: number;
	readonly bootstrapVectorised: number;
	readonly bootstrapInterval: number[][];
	readonly profile: number;
	readonly profileEnds: number[];
}

function scipy(task: object): Peer {
	const script = fileURLToPath(new URL("fit-speed.py", import.meta.url));
	const out = execFileSync(process.env.PYTHON ?? "python3", [script], {
		input: JSON.stringify(task),
		env: { ...process.env, OMP_NUM_THREADS: "1", OPENBLAS_NUM_THREADS: "1" },
		encoding: "utf8",
		maxBuffer: 1e8,
	});
	return JSON.parse(out) as Peer;
}

function report(what: string, ours: number, theirs: number, times = 1): number {
	const us = (seconds: number): string =>
		`${((seconds / times) * 1e6).toFixed(2)} us`;
	console.log(
		`${what}: ${us(ours)}, peer ${us(theirs)}, ratio ${(theirs / ours).toFixed(1)}`,
	);
	return theirs / ours;
}

export function main(): void {
	const tasks = models.map(({ model, data }) => taskOf(model, data));
	const lang = setOf("langmuir-1");
	const base = fit(langmuir.model, { x: lang.x, y: lang.y });
	const profiles = profileIntervals(base);
	const target =
		base.residualSumOfSquares * (1 + 5.317655071578714 / base.degreesOfFreedom); // F(0.95; 1, 8)
	const peer = scipy({
		fits: Object.fromEntries(
			tasks.map((t) => [
				t.model.name,
				{ x: t.x, ys: t.ys.map((y) => Array.from(y)), starts: t.starts },
			]),
		),
		langmuir: {
			x: lang.x,
			y: lang.y,
			parameters: Array.from(base.theta),
			errors: base.parameters.map((p) =>
				p.standardError.kind === "known" ? p.standardError.value : 0,
			),
			target,
			resamples,
		},
	});

	console.log("Fits with standard errors, one fit:");
	const fitters: Fitter[] = tasks.map((t) =>
		createFitter(t.model, { x: t.x, y: t.ys[0] }),
	);
	const ratios = tasks.map((t, i) => {
		const fitter = fitters[i];
		const theirs = peer.fits[t.model.name];
		let apart = 0;
		t.ys.forEach((y, k) => {
			const mine = fitter.fit(y);
			mine.parameters.forEach((v, j) => {
				apart = Math.max(
					apart,
					Math.abs(v - theirs.parameters[k][j]) / Math.abs(theirs.errors[k][j]),
				);
			});
		});
		const seconds = secondsOf(() => {
			for (const y of t.ys) fitter.fit(y);
		});
		const ratio = report(t.model.name, seconds, theirs.seconds, perturbedSets);
		console.log(
			`  largest difference between the two: ${apart.toExponential(1)} standard errors`,
		);
		return ratio;
	});
	console.log(
		`geometric mean ${Math.exp(ratios.reduce((s, r) => s + Math.log(r), 0) / ratios.length).toFixed(1)}, least ${Math.min(...ratios).toFixed(1)}`,
	);

	const many = secondsOf(() => {
		for (const t of tasks)
			fitMany(
				t.model,
				t.ys.map((y) => ({ x: t.x, y })),
			);
	});
	const theirFits = Object.values(peer.fits).reduce((s, f) => s + f.seconds, 0);
	report(
		"All five by fitMany, checks of the data included",
		many,
		theirFits,
		perturbedSets * 5,
	);

	const catalogue = secondsOf(() => {
		for (let i = 0; i < tasks.length; i++)
			for (const y of tasks[i].ys) {
				const one = fitters[i].fit(y);
				informationCriteria({
					rss: one.residualSumOfSquares,
					points: y.length,
					freeParameters: one.parameters.length,
					sigmaIsAbsolute: false,
				});
			}
	});
	report(
		"All five with AICc, one set",
		catalogue,
		peer.catalogue,
		perturbedSets,
	);

	const cold = performance.now();
	bootstrap(base, { interval: "percentile", resamples, seed: 2 });
	const coldMs = performance.now() - cold;
	const warm = secondsOf(() => {
		bootstrap(base, { interval: "percentile", resamples });
	});
	console.log(
		`\n${resamples}-fold residual bootstrap of a Langmuir fit: ${(warm * 1e3).toFixed(2)} ms warm, ${coldMs.toFixed(1)} ms cold`,
	);
	console.log(
		`  SciPy's loop ${(peer.bootstrapLoop * 1e3).toFixed(0)} ms, ratio ${(peer.bootstrapLoop / warm).toFixed(0)}; vectorised numpy ${(peer.bootstrapVectorised * 1e3).toFixed(2)} ms, ratio ${(peer.bootstrapVectorised / warm).toFixed(2)}`,
	);

	const whole = secondsOf(() => {
		profileIntervals(base);
	});
	report(
		"\nProfile intervals of both parameters, options and texts included",
		whole,
		peer.profile,
	);
	const ends = profiles.flatMap((p) =>
		p.interval.kind === "known" &&
		p.interval.value.low.kind === "closed" &&
		p.interval.value.high.kind === "closed"
			? [p.interval.value.low.value, p.interval.value.high.value]
			: [],
	);
	console.log(
		`  largest relative difference of an end: ${Math.max(...ends.map((e, i) => Math.abs(e / peer.profileEnds[i] - 1))).toExponential(1)}`,
	);
}
