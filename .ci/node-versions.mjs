/**
 * The suite's smoke on every line of Node that package.json allows: the command line's help, the main notebook from sheet to verdict, a short list of tests; and one sentence on a Node that is too old.
 * The Nodes come from the npm registry, as packages that hold one program each, into a folder that is thrown away. Words after the script's name are other versions to try.
 */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const cli = join(root, "kernel-lib/dist/cli.js");
/** The first of the two older lines that package.json allows, the newest of the third. */
const fit = ["20.19", "22.12", "24"];
/** The last one before them. */
const tooOld = "22.11";

/** Amounts with their uncertainties, residues, uptakes, verdicts, the kernel itself. */
const tests = [
	"test/quantity/propagation",
	"test/quantity/ledger",
	"test/bench-sheet/formats",
	"test/residue",
	"test/uptake/uptakes",
	"test/compare/rules",
	"test/notebook/ipynb",
	"test/notebook/at-hand",
	"test/notebook/compare-treatments",
];

const gone = tests.filter(
	(t) => ![t, `${t}.test.ts`].some((path) => existsSync(join(root, path))),
);
if (gone.length > 0) throw new Error(`No such tests: ${gone.join(", ")}.`);

const folder = mkdtempSync(join(tmpdir(), "charledger-nodes-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));

function run(program, words, options = {}) {
	const done = spawnSync(program, words, {
		cwd: root,
		encoding: "utf8",
		...options,
	});
	return {
		status: done.status,
		text: `${done.error ?? ""}${done.stderr}${done.stdout}`,
	};
}

function must(what, { status, text }) {
	if (status !== 0) throw new Error(`${what} ended with ${status}:\n${text}`);
	return text;
}

/** Puts a Node into the folder and gives the path of its program. The package "node" fetches its program in an install script, which npm need not run: the package of the platform holds it. */
function nodeOf(version) {
	const system = process.platform === "win32" ? "win" : process.platform;
	const name = `node-${system}-${process.arch}`;
	const into = join(folder, version);
	must(
		`Installing ${name}@${version}`,
		run(
			"npm",
			[
				"install",
				"--prefix",
				into,
				"--no-save",
				"--ignore-scripts",
				"--no-audit",
				"--no-fund",
				`${name}@${version}`,
			],
			{ cwd: folder },
		),
	);
	const program = join(into, "node_modules", name, "bin", "node");
	if (!existsSync(program))
		throw new Error(`${name}@${version} holds no ${program}.`);
	return program;
}

/** The program's help. */
function help(node) {
	const text = must("charledger --help", run(node, [cli, "--help"]));
	if (!text.includes("charledger run"))
		throw new Error(`charledger --help says:\n${text}`);
	return "help";
}

/** The main notebook from the bench sheet to its verdict. */
function mainNotebook(node) {
	const out = mkdtempSync(join(folder, "out-"));
	const notebook = join(root, "notebooks/compare-treatments.ipynb");
	must("The main notebook", run(node, [cli, "run", notebook, "--out", out]));
	const { results } = JSON.parse(
		readFileSync(join(out, "results.json"), "utf8"),
	);
	if (!results.some((r) => r.name === "verdict"))
		throw new Error("The main notebook reports no verdict.");
	return "main notebook";
}

function shortListOfTests(node) {
	// Its own folder first on the path, so that what the tests start is the same Node.
	const env = {
		...process.env,
		PATH: `${join(node, "..")}${delimiter}${process.env.PATH}`,
		NO_COLOR: "1",
	};
	const vitest = join(root, "node_modules/vitest/vitest.mjs");
	const words = ["run", "--config", "test/vitest.config.mts", "--reporter=dot"];
	const text = must(
		"The short list of tests",
		run(node, [vitest, ...words, ...tests], { env }),
	);
	const passed = /Tests +(\d+) passed/.exec(text)?.[1];
	if (passed === undefined) throw new Error(`No test was run:\n${text}`);
	return `${passed} tests`;
}

function smoke(version) {
	const node = nodeOf(version);
	const own = must("--version", run(node, ["--version"])).trim();
	if (!own.startsWith(`v${version}.`))
		throw new Error(`Asked for Node ${version}, got ${own}.`);
	const done = [];
	const wrong = [];
	for (const step of [help, mainNotebook, shortListOfTests])
		try {
			done.push(step(node));
		} catch (error) {
			wrong.push(error.message);
		}
	if (wrong.length > 0) throw new Error(wrong.join("\n"));
	return `Node ${own}: ${done.join(", ")}`;
}

function refusal(version) {
	const node = nodeOf(version);
	const { status, text } = run(node, [cli, "--help"]);
	const sentence = text.trim();
	if (status !== 2 || !/^Charledger needs Node .*\.$/.test(sentence))
		throw new Error(
			`Node ${version} is too old, and charledger says with ${status}:\n${text}`,
		);
	return `Node ${version}: "${sentence}"`;
}

const asked = process.argv.slice(2);
let failed = 0;
for (const [version, look] of asked.length > 0
	? asked.map((v) => [v, smoke])
	: [...fit.map((v) => [v, smoke]), [tooOld, refusal]])
	try {
		console.log(look(version));
	} catch (error) {
		failed += 1;
		console.error(`Node ${version}: ${error.message}`);
	}
process.exitCode = failed > 0 ? 1 : 0;
