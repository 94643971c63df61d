// Kills runs at random moments and looks what they leave: node test/notebook/faults/kills.mjs [NUMBER]
import { spawn, spawnSync } from "node:child_process";
import {
	existsSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const kills = Number(process.argv[2] ?? 200);
const cli = join(import.meta.dirname, "../../../kernel-lib/dist/cli.js");
const folder = mkdtempSync(join(tmpdir(), "charledger-kills-"));
const out = join(folder, "out");

/** A notebook of one cell, which takes as long as a small one does. */
function notebook(name, source) {
	const cell = {
		cell_type: "code",
		id: "a",
		metadata: {},
		source,
		outputs: [],
		execution_count: null,
	};
	writeFileSync(
		join(folder, name),
		JSON.stringify({
			nbformat: 4,
			nbformat_minor: 5,
			metadata: {},
			cells: [cell],
		}),
	);
}

/** One that reports a number, so that each run has an id of its own. */
const reporting = (number) =>
	notebook(
		"job.ipynb",
		`require("fs").writeFileSync("kernel.pid", String(process.pid)); charledger.notebook.report("number", ${number});`,
	);

const args = [cli, "run", "job.ipynb", "--out", out];

/** The run id on which all files of a set agree; what is wrong with it otherwise. */
function idOfSet() {
	const read = (name) => readFileSync(join(out, name), "utf8");
	const { runId } = JSON.parse(read("results.json"));
	const others = {
		"job.ipynb": JSON.parse(read("job.ipynb")).metadata.charledger?.runId,
		"job.html": read("job.html").includes(`<code>${runId}</code>`)
			? runId
			: "another",
	};
	for (const [name, id] of Object.entries(others))
		if (id !== runId)
			throw new Error(`${name} is of ${id}, results.json of ${runId}`);
	return runId;
}

function isAlive(pid) {
	try {
		process.kill(pid, 0);
		return true;
	} catch {
		return false;
	}
}

const sleep = (milliseconds) =>
	new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Until files of the new set are written, or the run has ended. */
async function begunWriting(ended) {
	let over = false;
	void ended.then(() => {
		over = true;
	});
	while (!over && !existsSync(join(out, ".charledger-next"))) await sleep(1);
}

/** From the first file that is written to the end of a run, milliseconds. */
async function timeOfWriting() {
	const child = spawn(process.execPath, args, { cwd: folder, stdio: "ignore" });
	const ended = new Promise((resolve) => child.on("exit", resolve));
	await begunWriting(ended);
	const begin = Date.now();
	await ended;
	return Date.now() - begin;
}

notebook("stops.ipynb", "throw 1");
reporting(0);
const begin = Date.now();
if (spawnSync(process.execPath, args, { cwd: folder }).status !== 0)
	throw new Error("The first run failed.");
const usual = Date.now() - begin;
const writing = await timeOfWriting();
let before = idOfSet();
let replaced = 0;
let between = 0;
for (let k = 1; k <= kills; k++) {
	reporting(k);
	rmSync(join(folder, "kernel.pid"), { force: true });
	const child = spawn(process.execPath, args, {
		cwd: folder,
		stdio: "ignore",
	});
	const ended = new Promise((resolve) => child.on("exit", resolve));
	// Half of them while files are written and put in place, however busy the machine is.
	if (k % 2 === 0) await sleep(usual * Math.random());
	else {
		await begunWriting(ended);
		await sleep(writing * Math.random());
	}
	child.kill("SIGKILL");
	await ended;
	const pid = join(folder, "kernel.pid");
	// Half a second to notice, and as long as the system takes to clear it away.
	for (
		let i = 0;
		existsSync(pid) && isAlive(Number(readFileSync(pid, "utf8")));
		i++
	) {
		if (i > 100) throw new Error(`Kill ${k}: the kernel is still there.`);
		await sleep(100);
	}
	if (existsSync(join(out, ".charledger-swap.json"))) between += 1;
	// The next start repairs, that of a run which stops too.
	spawnSync(process.execPath, [cli, "run", "stops.ipynb", "--out", out], {
		cwd: folder,
	});
	const after = idOfSet();
	if (after !== before) replaced += 1;
	before = after;
	const left = readdirSync(out).filter((name) => name.startsWith("."));
	if (left.length > 0) throw new Error(`Kill ${k}: left ${left.join(", ")}`);
}
rmSync(folder, { recursive: true, force: true });
console.log(
	`${kills} runs killed: every set whole, the earlier one ${kills - replaced} times, the new one ${replaced} times (killed between the swaps: ${between}); no kernel, lock or half a file left.`,
);
