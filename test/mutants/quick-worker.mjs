/** Runs the tests of a bundle (`quick.mjs`), without a mutant or with one of them awake. The bundle is loaded anew for each mutant, so that nothing computed under another is left. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import vm from "node:vm";
import { parentPort, workerData } from "node:worker_threads";

const { root, bundleFile } = workerData;
const { chai, JestChaiExpect, JestAsymmetricMatchers, JestExtend } =
	await import(
		pathToFileURL(resolve(root, "node_modules/@vitest/expect/dist/index.js"))
			.href
	);
chai.use(JestExtend);
chai.use(JestChaiExpect);
chai.use(JestAsymmetricMatchers);
const expect = Object.assign(
	(value, message) => chai.expect(value, message),
	chai.expect,
);

/** Tests of the file that is being collected. */
let collected = [];
const test = (name, run) => collected.push({ name, run });
const describe = (_, collect) => collect();
const each = (make) => (rows) => (name, run) => {
	for (const row of rows)
		make(name, () => (Array.isArray(row) ? run(...row) : run(row)));
};
globalThis.quickTests = {
	expect,
	test: Object.assign(test, { each: each(test) }),
	describe: Object.assign(describe, { each: each(describe) }),
};

const script = new vm.Script(
	`(function (require, module, exports, __filename, __dirname) {${readFileSync(bundleFile, "utf8")}\n})`,
);
// The library looks for files beside the folder of its rooms.
const place = resolve(root, "kernel-lib/bench");
function filesOfBundle() {
	const module = { exports: {} };
	script.runInThisContext()(
		createRequire(resolve(root, "package.json")),
		module,
		module.exports,
		resolve(place, "bundle.js"),
		place,
	);
	return module.exports.files;
}

async function testsOf(file) {
	collected = [];
	await file();
	return collected;
}

/** What the instrumented code reads and writes. */
globalThis.__stryker__ = {};
const state = globalThis.__stryker__;

async function without() {
	const tests = [];
	for (const [index, file] of filesOfBundle().entries()) {
		const begun = performance.now();
		const own = await testsOf(file);
		const collecting = performance.now() - begun;
		for (const [number, { name, run }] of own.entries()) {
			state.currentTestId = `${index}:${number}`;
			const start = performance.now();
			let failed = false;
			try {
				await run();
			} catch {
				failed = true;
			}
			const ms = performance.now() - start;
			state.currentTestId = undefined;
			tests.push({ file: index, number, name, ms, collecting, failed });
		}
	}
	return { tests, coverage: state.mutantCoverage };
}

/** The test that notices the mutant, or "". */
async function killedBy(chosen) {
	try {
		const files = filesOfBundle();
		for (const { file, tests } of chosen) {
			const own = await testsOf(files[file]);
			for (const number of tests)
				try {
					await own[number].run();
				} catch {
					return own[number]?.name ?? "a test that is gone";
				}
		}
		return "";
	} catch {
		return "the file of a test";
	}
}

parentPort.on("message", async ({ dry, mutant, tests, hitLimit }) => {
	Object.assign(state, {
		mutantCoverage: { static: {}, perTest: {} },
		activeMutant: mutant,
		hitCount: dry ? undefined : 0,
		hitLimit,
	});
	parentPort.postMessage(
		dry ? await without() : { killedBy: await killedBy(tests) },
	);
});
