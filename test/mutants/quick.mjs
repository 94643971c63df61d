/**
 * A quick look at the mutants of some files: node test/mutants/quick.mjs kernel-lib/uptake/soak.ts ...
 *
 * The mutants are those of `npm run mutants`. The tests of the files' rooms are bundled with the library, mutants and all, and run in one process that is kept: a mutant takes a tenth of the time. Tests that are slow by
 * themselves are left out, and not all are waited for, so that what is killed here is killed there too, and of what survives here some is killed there.
 *
 * With TESTS="compare/planning compare/replicates" before it, these test files alone are run, which takes seconds.
 */
import {
	mkdirSync,
	readdirSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { createRequire } from "node:module";
import { dirname, relative, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { Worker } from "node:worker_threads";
import config from "./stryker.config.mjs";

const root = resolve(import.meta.dirname, "../..");
const results = resolve(root, "results/mutants");
/** ms, as measured without a mutant: a test that takes longer is left out, and so are tests after so many of them. */
const slowTest = 2500;
const patience = 15_000;

const load = (path) =>
	import(pathToFileURL(resolve(root, "node_modules", path)).href);

const quiet = new Proxy(
	{},
	{ get: (_, name) => (name.startsWith("is") ? () => false : () => {}) },
);

async function instrumented(files) {
	const { Instrumenter } = await load(
		"@stryker-mutator/instrumenter/dist/src/index.js",
	);
	return new Instrumenter(quiet).instrument(
		files.map((name) => ({
			name,
			content: readFileSync(name, "utf8"),
			mutate: true,
		})),
		{ plugins: null, ignorers: [], ...config.mutator },
	);
}

/** Tests of the rooms that the files lie in, or those that were asked for. */
function testsOf(files) {
	const asked = process.env.TESTS?.split(" ").filter((t) => t !== "") ?? [];
	if (asked.length > 0)
		return asked.map((t) => resolve(root, "test", `${t}.test.ts`));
	const rooms = new Set(
		files.map((f) => relative(resolve(root, "kernel-lib"), f).split("/")[0]),
	);
	return ["test", "test/decisions"].flatMap((folder) =>
		readdirSync(resolve(root, folder), { recursive: true })
			.filter((f) => f.endsWith(".test.ts"))
			.filter((f) => rooms.has(f.split(/[/.]/)[0]))
			.map((f) => resolve(root, folder, f)),
	);
}

/** One file with a function for each test file, in which the mutants lie dormant. */
async function bundleOf(tests, mutated) {
	// rolldown comes with vite.
	const vite = createRequire(createRequire(import.meta.url).resolve("vite"));
	const { rolldown } = await import(
		pathToFileURL(vite.resolve("rolldown")).href
	);
	const entry = `export const files = [${tests.map((t) => `() => import(${JSON.stringify(t)})`).join(",")}];`;
	const vitest =
		"export const { describe, test, expect } = globalThis.quickTests; export const it = test;";
	const bundle = await rolldown({
		input: "\0entry.js",
		cwd: root,
		platform: "node",
		treeshake: false,
		logLevel: "silent",
		external: (id) =>
			!/^[./\0]/.test(id) && id !== "vitest" && !id.startsWith(root),
		plugins: [
			{
				name: "mutants",
				resolveId: (id) =>
					id === "\0entry.js" ? id : id === "vitest" ? "\0vitest.js" : null,
				load: (id) => {
					if (id === "\0entry.js") return entry;
					if (id === "\0vitest.js") return vitest;
					return mutated.has(id)
						? { code: mutated.get(id), moduleType: "ts" }
						: null;
				},
				// A bundle lies elsewhere than its parts.
				transform: (code, id) =>
					code.includes("import.meta.")
						? code
								.replaceAll("import.meta.dirname", JSON.stringify(dirname(id)))
								.replaceAll(
									"import.meta.url",
									JSON.stringify(pathToFileURL(id).href),
								)
						: null,
			},
		],
	});
	const { output } = await bundle.generate({
		format: "cjs",
		codeSplitting: false,
	});
	return output[0].code;
}

/** The process that runs the tests; one that is stuck is replaced. */
function runner(bundleFile) {
	let worker = null;
	let heard = () => {};
	const start = () => {
		worker = new Worker(new URL("quick-worker.mjs", import.meta.url), {
			workerData: { root, bundleFile },
		});
		worker.on("message", (message) => heard(message));
		worker.on("error", (error) => heard({ crashed: String(error) }));
	};
	const stop = async () => {
		await worker?.terminate();
		worker = null;
	};
	const ask = (question, ms) =>
		new Promise((answer) => {
			if (worker === null) start();
			const clock = setTimeout(() => heard({ timedOut: true }), ms);
			heard = async (message) => {
				clearTimeout(clock);
				heard = () => {};
				if (message.timedOut || message.crashed) await stop();
				answer(message);
			};
			worker.postMessage(question);
		});
	return { ask, stop };
}

/** Test files that reach a mutant, the quick ones first, as far as patience goes. */
function covering(dry, id) {
	const files = new Map();
	for (const t of dry.tests) {
		const hits = dry.coverage.perTest[`${t.file}:${t.number}`]?.[id] ?? 0;
		if (hits === 0 || t.ms > slowTest) continue;
		const own = files.get(t.file) ?? {
			file: t.file,
			ms: t.collecting,
			hits: 0,
			tests: [],
		};
		own.ms += t.ms;
		own.hits += hits;
		own.tests.push(t);
		files.set(t.file, own);
	}
	let waited = 0;
	return [...files.values()]
		.sort((a, b) => a.ms - b.ms)
		.filter((f, i) => {
			waited += f.ms;
			return i === 0 || waited <= patience;
		})
		.map((f) => ({
			...f,
			tests: f.tests.sort((a, b) => a.ms - b.ms).map((t) => t.number),
		}));
}

async function statusOf(mutant, dry, { ask }) {
	if (
		mutant.ignoreReason ||
		config.mutator.excludedMutations.includes(mutant.mutatorName)
	)
		return "left out";
	const tests = covering(dry, mutant.id);
	if (tests.length === 0)
		return dry.coverage.static[mutant.id] > 0 ? "left out" : "not reached";
	const hits = tests.reduce((sum, t) => sum + t.hits, 0);
	const ms = tests.reduce((sum, t) => sum + t.ms, 0);
	const { killedBy, timedOut, crashed } = await ask(
		{ mutant: mutant.id, tests, hitLimit: 100 * hits + 100_000 },
		30_000 + 10 * ms,
	);
	if (timedOut) return "timed out";
	return killedBy || crashed ? "killed" : "survived";
}

/** The place of a mutant and what it changes, on one line. */
function shown({ fileName, location: { start, end }, replacement }) {
	const lines = readFileSync(fileName, "utf8").split("\n");
	const before =
		start.line === end.line
			? lines[start.line].slice(start.column, end.column)
			: `${lines[start.line].slice(start.column)} ...`;
	const short = (text) => text.replace(/\s+/g, " ").slice(0, 110);
	return `${relative(root, fileName)}:${start.line + 1}: ${short(before)}  ->  ${short(replacement)}`;
}

function percent(statuses) {
	const count = (...of) => statuses.filter((s) => of.includes(s)).length;
	const killed = count("killed", "timed out");
	const all = killed + count("survived", "not reached");
	return all === 0 ? "-" : ((100 * killed) / all).toFixed(1);
}

const files = process.argv.slice(2).map((f) => resolve(f));
const started = Date.now();
const seconds = () => `${((Date.now() - started) / 1000).toFixed(0)} s`;
const { files: mutated, mutants } = await instrumented(files);
mkdirSync(results, { recursive: true });
const bundleFile = resolve(results, `quick-${process.pid}.cjs`);
writeFileSync(
	bundleFile,
	await bundleOf(
		testsOf(files),
		new Map(mutated.map((f) => [f.name, f.content])),
	),
);
const run = runner(bundleFile);
const dry = await run.ask({ dry: true }, 1_800_000);
const failing = dry.tests?.filter((t) => t.failed) ?? [];
if (!dry.tests || failing.length > 0)
	throw new Error(
		`Tests fail without a mutant: ${dry.crashed ?? dry.timedOut ?? failing.map((t) => t.name).join("; ")}`,
	);
console.log(
	`${dry.tests.length} tests ran without a mutant after ${seconds()}.`,
);
const found = [];
for (const mutant of mutants) {
	const status = await statusOf(mutant, dry, run);
	found.push({ mutant, status });
	if (["survived", "not reached", "timed out"].includes(status))
		console.log(`${status}: ${shown(mutant)}`);
}
await run.stop();
rmSync(bundleFile);
for (const file of files) {
	const own = found
		.filter((f) => f.mutant.fileName === file)
		.map((f) => f.status);
	const counts = ["killed", "timed out", "survived", "not reached"].map(
		(s) => `${own.filter((o) => o === s).length} ${s}`,
	);
	console.log(
		`${relative(root, file)}: ${percent(own)} % (${counts.join(", ")})`,
	);
}
console.log(
	`${percent(found.map((f) => f.status))} % in all, after ${seconds()}.`,
);
