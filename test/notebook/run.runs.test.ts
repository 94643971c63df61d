import { spawn, spawnSync } from "node:child_process";
import {
	existsSync,
	mkdirSync,
	mkdtempSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import {
	type CodeCell,
	type Notebook,
	notebookText,
	type Output,
	readNotebook,
} from "../../kernel-lib/notebook/ipynb";
import { pageHtml } from "../../kernel-lib/notebook/page/index";
import { valueOrThrow } from "../../kernel-lib/quantity/index";

/** The built program, as users start it; `npm run build` makes it. */
const cli = join(import.meta.dirname, "../../kernel-lib/dist/cli.js");

/** A folder as a user has one: no node_modules, no package. */
let folder = "";
beforeAll(() => {
	if (!existsSync(cli))
		throw new Error("The program is not built: npm run build first.");
	folder = mkdtempSync(join(tmpdir(), "charledger-test-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const code = (source: string, ...tags: string[]): Notebook["cells"][0] => ({
	cell_type: "code",
	metadata: { tags },
	source,
	outputs: [],
	execution_count: null,
});

function write(name: string, ...cells: Notebook["cells"]): string {
	const notebook = { nbformat: 4, nbformat_minor: 5, metadata: {}, cells };
	const path = join(folder, name);
	writeFileSync(
		path,
		notebookText({
			...notebook,
			cells: cells.map((c, i) => ({ ...c, id: `c${i}` })),
		} as Notebook),
	);
	return path;
}

/** When a cell ran is the only thing that differs from run to run. */
function withoutTimes(notebook: Notebook): Notebook {
	return {
		...notebook,
		cells: notebook.cells.map((cell) => ({
			...cell,
			metadata: { ...cell.metadata, execution: undefined },
		})),
	};
}

interface Ran {
	status: number | null;
	out: string;
	err: string;
}

function run(words: string[], cwd = folder): Ran {
	const done = spawnSync(process.execPath, [cli, ...words], {
		cwd,
		encoding: "utf8",
	});
	return { status: done.status, out: done.stdout, err: done.stderr };
}

function outputsOf(path: string): Output[][] {
	const notebook = valueOrThrow(
		readNotebook(readFileSync(join(folder, path), "utf8"), path),
	);
	return notebook.cells
		.filter((c): c is CodeCell => c.cell_type === "code")
		.map((c) => c.outputs);
}

describe("a run in a folder without node_modules", () => {
	it("writes the notebook, the page, the results and the ledger, and no path of this machine", () => {
		mkdirSync(join(folder, "sheets"), { recursive: true });
		writeFileSync(join(folder, "sheets", "mine.csv"), "flask\n1\n");
		mkdirSync(join(folder, "work"), { recursive: true });
		write(
			"work/job.ipynb",
			code('let sheet = "demo.csv";\nlet n = 1;', "parameters"),
			code(
				'import { notebook, quantity } from "charledger";\nimport { readFileSync } from "fs";\nconst m = quantity.input("mass", n, "g", quantity.normal(0.1), { symbol: "m", meaning: "mass" });\nm',
			),
			code(
				'notebook.attach({ sources: [{ file: "mine.csv", hash: "0123456789abcdef", content: readFileSync(sheet) }] });\nnotebook.report("mass", m);\nnotebook.report("lines", readFileSync(sheet, "utf8").split("\\n").length);',
			),
			code('charledger.quantity.table("T", ["a"], [[m]])'),
			code('console.log("out"); console.error("err"); [1, 2]'),
			code('import * as tslab from "tslab";\ntslab.display.html("<b>x</b>");'),
		);
		const done = run([
			"run",
			"work/job.ipynb",
			"--sheet",
			"sheets/mine.csv",
			"--set",
			"n=2",
			"--out",
			"out",
		]);
		expect(done.err).toBe("");
		expect(done.status).toBe(0);
		expect(done.out).toContain("[7/7]");
		const text = readFileSync(join(folder, "out/job.ipynb"), "utf8");
		expect(text).not.toContain(folder);
		expect(text).toContain("../sheets/mine.csv");
		const outputs = outputsOf("out/job.ipynb");
		expect(outputs[2]).toEqual([
			{
				output_type: "display_data",
				data: { "text/plain": "2.00 g (u 0.10 g)" },
				metadata: {},
			},
		]);
		expect(
			Object.keys((outputs[4][0] as { data: object }).data).sort(),
		).toEqual([
			"application/vnd.charledger.table+json",
			"text/html",
			"text/plain",
		]);
		expect(outputs[5].map((o) => (o as { text: string }).text)).toEqual([
			"out\n",
			"err\n",
			"[ 1, 2 ]\n",
		]);
		const { results, runId, settings, inputs, versions, times } = JSON.parse(
			readFileSync(join(folder, "out/results.json"), "utf8"),
		);
		expect(settings).toEqual([
			{ name: "sheet", setBy: "user", is: "value", value: "mine.csv" },
			{ name: "n", setBy: "user", is: "value", value: 2 },
		]);
		expect(inputs).toEqual([
			{
				file: "mine.csv",
				hash: "0123456789abcdef",
				// printf 'flask\\n1\\n' | sha256sum
				sha256:
					"b8d9cad552de39b7022b2e24fabf8fe78b82f4ef55bd142248ca4609ece20baa",
			},
		]);
		expect(versions).toEqual({
			is: "known",
			library: "0.1.0",
			node: process.versions.node,
			tslab: "1.0.22",
		});
		expect(times.is).toBe("recorded");
		expect(times.started <= times.ended).toBe(true);
		expect(results.map((r: { name: string }) => r.name)).toEqual([
			"mass",
			"lines",
		]);
		expect(results[0].content.value).toBe(2);
		expect(results[1].content.value).toBe(3);
		const ledger = readFileSync(join(folder, "out/ledger.csv"), "utf8");
		expect(ledger).toContain(",m,mass,2,g,0.1,");
		expect(ledger).toContain(`,${runId}\r\n`);
		expect(JSON.parse(text).metadata.charledger.runId).toBe(runId);
		expect(text).toContain("0123456789abcdef");
		const page = readFileSync(join(folder, "out/job.html"), "utf8");
		expect(page).toContain('download="mine.csv"');
		expect(page).toContain(`<code>${runId}</code>`);
		expect(page).not.toContain("<b>x</b>");
	});

	it("runs the same twice, byte for byte but for the times", () => {
		write("same.ipynb", code('charledger.notebook.report("x", 1);'));
		const texts = ["a", "b"].map((out) => {
			expect(run(["run", "same.ipynb", "--out", out]).status).toBe(0);
			const read = (file: string): string =>
				readFileSync(join(folder, out, file), "utf8");
			const executed = withoutTimes(
				valueOrThrow(readNotebook(read("same.ipynb"), "same.ipynb")),
			);
			const { times, ...results } = JSON.parse(read("results.json"));
			return [
				notebookText(executed),
				pageHtml(executed, { plotly: "" }),
				JSON.stringify(results),
				read("ledger.csv"),
			];
		});
		expect(texts[0]).toEqual(texts[1]);
	});
});

describe("a notebook with cells for its demo sheet", () => {
	const cells = (): Notebook["cells"] => [
		{
			cell_type: "markdown",
			metadata: {},
			source: "# A trial\n\nFrom sheet to answer.",
		},
		{
			cell_type: "markdown",
			metadata: { tags: ["demo-sheet"] },
			source: "The sheet is **invented**.",
		},
		code(
			'let sheet = "data/demo-run/hazelnut.csv";\nlet second = "data/demo-dye/dye.csv";',
			"parameters",
		),
		code('console.log("only for the demo")', "demo-sheet"),
		code("console.log(sheet + second)"),
	];

	it("keeps them on the demo sheet, and says invented at the head of the page", () => {
		write("demo.ipynb", ...cells());
		expect(run(["run", "demo.ipynb", "--out", "demo"]).status).toBe(0);
		const page = readFileSync(join(folder, "demo/demo.html"), "utf8");
		expect(page).toMatch(/<header>[\s\S]*Invented[\s\S]*<\/header>/);
		expect(page).toContain("only for the demo");
	});

	it("loses them with a sheet of the user's own", () => {
		writeFileSync(join(folder, "own.csv"), "flask\n1\n");
		write("own.ipynb", ...cells());
		const done = run([
			"run",
			"own.ipynb",
			"--sheet",
			"own.csv",
			"--out",
			"own",
		]);
		expect(done.status).toBe(0);
		for (const file of ["own/own.html", "own/own.ipynb"])
			expect(readFileSync(join(folder, file), "utf8")).not.toMatch(
				/invented|only for the demo/i,
			);
		expect(readFileSync(join(folder, "own/own.html"), "utf8")).toContain(
			"own.csv",
		);
	});
});

describe("a run that fails", () => {
	it("points at the line, keeps the evidence, leaves earlier files whole, exits with 1", () => {
		const path = write(
			"fail.ipynb",
			code('charledger.notebook.report("x", 1);'),
		);
		expect(run(["run", path, "--out", "f"]).status).toBe(0);
		const before = readFileSync(join(folder, "f/fail.ipynb"), "utf8");
		write(
			"fail.ipynb",
			code(
				'interface A { x: number }\n\nfunction f(a: A): number {\n  throw new RangeError("too large: " + a.x);\n}',
			),
			code("// call it\nf({ x: 2 });"),
			code('console.log("never")'),
		);
		const done = run(["run", path, "--out", "f"]);
		expect(done.status).toBe(1);
		expect(done.err).toContain(
			"The run stopped at code cell 2 (c1):\nRangeError: too large: 2\n  at line 4 of cell [1]:  throw new RangeError",
		);
		expect(done.err).toContain("at line 2 of this cell:  f({ x: 2 });");
		expect(readFileSync(join(folder, "f/fail.ipynb"), "utf8")).toBe(before);
		const evidence = readFileSync(join(folder, "f/failed/fail.ipynb"), "utf8");
		expect(evidence).toContain("This run stopped at code cell 2");
		expect(outputsOf("f/failed/fail.ipynb")).toEqual([
			[],
			[expect.objectContaining({ ename: "RangeError" })],
			[],
		]);
		expect(readFileSync(join(folder, "f/failed/fail.html"), "utf8")).toContain(
			'role="alert"',
		);
		// The next good run clears the evidence away.
		write("fail.ipynb", code("1 + 1"));
		expect(run(["run", path, "--out", "f"]).status).toBe(0);
		expect(existsSync(join(folder, "f/failed/fail.ipynb"))).toBe(false);
	});

	it("goes on after cells that may fail, and says in words what was wrong", () => {
		const allowed = "raises-exception";
		write(
			"allowed.ipynb",
			code(
				'const { input, exact, plus } = charledger.quantity;\nplus(input("mass", 1, "g", exact, {}), input("volume", 1, "mL", exact, {}))',
				allowed,
			),
			code(
				'await new Promise((r) => setTimeout(r, 5));\nthrow "a text"',
				allowed,
			),
			code("process.nextTick(() => {}); noSuchName", allowed),
			code('"still here"'),
		);
		const done = run(["run", "allowed.ipynb", "--out", "w"]);
		expect(done.status).toBe(0);
		const outputs = outputsOf("w/allowed.ipynb");
		expect(outputs[0][0]).toMatchObject({
			ename: "TypeScript",
			evalue: expect.stringContaining("this is a volume, and a mass is needed"),
		});
		expect(outputs[1][0]).toMatchObject({ ename: "Thrown", evalue: "a text" });
		expect(outputs[2][0]).toMatchObject({
			evalue: "Line 1, column 29: Cannot find name 'noSuchName'.",
		});
		expect(outputs[3]).toHaveLength(1);
	});

	it("is ended by its time limit, and by a kernel that dies", () => {
		write("endless.ipynb", code("while (true) {}"));
		const late = run(["run", "endless.ipynb", "--timeout", "1", "--out", "t"]);
		expect(late.status).toBe(1);
		expect(late.err).toContain("stopped after 1 seconds");
		write("dies.ipynb", code("process.exit(7)"));
		const died = run(["run", "dies.ipynb", "--out", "t"]);
		expect(died.status).toBe(1);
		expect(died.err).toContain("The kernel ended (code 7)");
	});

	it("says in its own evidence that the results beside it are an earlier run's", () => {
		write("twice.ipynb", code('charledger.notebook.report("x", 1);'));
		expect(run(["run", "twice.ipynb", "--out", "tw"]).status).toBe(0);
		const { runId } = JSON.parse(
			readFileSync(join(folder, "tw/results.json"), "utf8"),
		);
		write("twice.ipynb", code("throw new Error('no');"));
		expect(run(["run", "twice.ipynb", "--out", "tw"]).status).toBe(1);
		expect(
			readFileSync(join(folder, "tw/failed/twice.html"), "utf8"),
		).toContain(
			`The results in the folder above are those of an earlier run (${runId}) and not of this one.`,
		);
		expect(
			JSON.parse(readFileSync(join(folder, "tw/results.json"), "utf8")).runId,
		).toBe(runId);
	});

	it("refuses a folder that another run writes into, and a place where no folder can be", async () => {
		write("slow.ipynb", code("await new Promise((r) => setTimeout(r, 3000));"));
		const first = spawn(
			process.execPath,
			[cli, "run", "slow.ipynb", "--out", "both"],
			{ cwd: folder },
		);
		await new Promise((resolve) => first.stdout.once("data", resolve));
		const second = run(["run", "slow.ipynb", "--out", "both"]);
		expect(second.status).toBe(2);
		expect(second.err).toContain("another run that writes into this folder");
		const status = await new Promise((resolve) => first.on("exit", resolve));
		expect(status).toBe(0);
		const nowhere = run(["run", "slow.ipynb", "--out", "slow.ipynb/out"]);
		expect(nowhere.status).toBe(2);
		expect(nowhere.err).toContain(
			"a file stands where a folder is expected. Choose another folder",
		);
	});

	it.each([
		["SIGTERM", 143],
		// A shell calls it 129.
		["SIGHUP", "SIGHUP"],
	] as const)(
		"ends at %s with %s, leaves no kernel, no lock and its evidence",
		async (signal, code_) => {
			write("wait.ipynb", code("console.log(process.pid); for (;;);"));
			const out = `signal-${code_}`;
			const child = spawn(
				process.execPath,
				[cli, "run", "wait.ipynb", "--out", out],
				{ cwd: folder },
			);
			child.stdout.on("data", (chunk) => {
				if (String(chunk).includes("[1/1]"))
					setTimeout(() => child.kill(signal), 1000);
			});
			const ended = new Promise((resolve) =>
				child.on("exit", (status, by) => resolve(status ?? by)),
			);
			expect(await ended).toBe(code_);
			const [[stream]] = outputsOf(`${out}/failed/wait.ipynb`);
			const kernel = Number((stream as { text: string }).text);
			expect(() => process.kill(kernel, 0)).toThrow();
			expect(existsSync(join(folder, out, ".charledger-lock"))).toBe(false);
		},
	);

	it("goes on when files beside the notebook change while it runs", () => {
		const change = `for (let i = 0; i < 5; i++) {
	fs.writeFileSync(\`f\${i}\${Math.random()}.ts\`, "export const x = 1;");
	fs.mkdirSync(\`node_modules/p\${Math.random()}\`);
	await new Promise((resolve) => setTimeout(resolve, 40));
}`;
		write(
			"changing.ipynb",
			code(
				'import * as fs from "node:fs"; fs.mkdirSync("node_modules", { recursive: true });',
			),
			// What is looked for and not found is what the compiler then watches for.
			code('import { x } from "./later";', "raises-exception"),
			code(change),
			code("1"),
			code(change),
			code("2"),
		);
		const { status, err } = run(["run", "changing.ipynb", "--out", "changed"]);
		expect(err).toBe("");
		expect(status).toBe(0);
		rmSync(join(folder, "node_modules"), { recursive: true });
	});

	it("a kernel does not outlive a run that was killed, even in a cell that never pauses; the next run takes the folder", async () => {
		write(
			"orphan.ipynb",
			code(
				'require("fs").writeFileSync("kernel.pid", String(process.pid)); for (;;);',
			),
		);
		const child = spawn(
			process.execPath,
			[cli, "run", "orphan.ipynb", "--out", "orphaned"],
			{ cwd: folder },
		);
		const pidFile = join(folder, "kernel.pid");
		while (!existsSync(pidFile)) await new Promise((r) => setTimeout(r, 50));
		await new Promise((r) => setTimeout(r, 200));
		child.kill("SIGKILL");
		// Half a second to notice, and as long as the system takes to clear it away.
		await vi.waitFor(
			() =>
				expect(() =>
					process.kill(Number(readFileSync(pidFile, "utf8")), 0),
				).toThrow(),
			{ timeout: 10_000, interval: 100 },
		);
		write("orphan.ipynb", code("1 + 1"));
		expect(run(["run", "orphan.ipynb", "--out", "orphaned"]).status).toBe(0);
	});

	it("says that a kernel did not come up in time", () => {
		write("quick.ipynb", code("1"));
		const done = run([
			"run",
			"quick.ipynb",
			"--out",
			"q",
			"--start-timeout",
			"0.01",
		]);
		expect(done.status).toBe(2);
		expect(done.err).toContain(
			"did not start within 0.01 seconds. Give it longer with --start-timeout",
		);
	});

	it("can be interrupted, and leaves no kernel behind", async () => {
		write(
			"long.ipynb",
			code("console.log(process.pid);\nawait new Promise(() => {});"),
		);
		const child = spawn(
			process.execPath,
			[cli, "run", "long.ipynb", "--out", "i"],
			{
				cwd: folder,
			},
		);
		let text = "";
		child.stdout.on("data", (chunk) => {
			text += String(chunk);
			if (text.includes("[1/1]")) setTimeout(() => child.kill("SIGINT"), 1500);
		});
		const status = await new Promise((resolve) => child.on("exit", resolve));
		expect(status).toBe(130);
		const [[stream, error]] = outputsOf("i/failed/long.ipynb");
		expect(error).toMatchObject({ ename: "Interrupted" });
		const kernel = Number((stream as { text: string }).text);
		expect(() => process.kill(kernel, 0)).toThrow();
	});
});

describe("the command line", () => {
	it("says what it can do and what it did not understand", () => {
		expect(run(["--help"])).toMatchObject({ status: 0, err: "" });
		for (const command of ["new", "run", "kernel", "strip"]) {
			const told = run([command, "--help"]);
			expect(told).toMatchObject({ status: 0, err: "" });
			expect(told.out).toContain(`charledger ${command} `);
		}
		expect(run(["run", "--help"]).out).toContain(
			"A notebook is code: its cells may do on this machine what you may.",
		);
		expect(run(["rum", "x"]).err).toContain('Did you mean "run"?');
		expect(run(["run"]).status).toBe(2);
		expect(run(["run", "--shet", "x"]).status).toBe(2);
		expect(run(["run", "x.ipynb", "--set", "n"]).err).toContain("NAME=VALUE");
	});

	it("refuses before it runs: no notebook, no sheet, no such parameter", () => {
		write("p.ipynb", code("let sheet = '';", "parameters"));
		expect(run(["run", "missing.ipynb"]).err).toContain("no such file");
		expect(run(["run", "p.ipynb", "--sheet", "no.csv"]).err).toContain(
			"no such file",
		);
		const done = run(["run", "p.ipynb", "--set", "shet=1", "--out", "none"]);
		expect(done.err).toContain('Did you mean "sheet"?');
		expect(done.status).toBe(2);
		expect(existsSync(join(folder, "none"))).toBe(false);
	});

	it("says of a folder that cannot be made that it cannot, at once", () => {
		const nowhere = process.platform === "linux" ? "/proc/none/x" : "p.ipynb/x";
		for (const words of [
			["new", "compare-treatments", "--into", nowhere],
			["run", "p.ipynb", "--out", nowhere],
		]) {
			const done = run(words);
			expect(done.status).toBe(2);
			expect(done.err).toMatch(
				/no folder can be made here|a file stands where a folder is expected/,
			);
		}
	});

	it("strips notebooks, and can tell", () => {
		write("s.ipynb", code("1"));
		expect(run(["strip", "s.ipynb"]).status).toBe(0);
		expect(run(["strip", "s.ipynb", "--check"]).status).toBe(0);
		run(["run", "s.ipynb", "--out", "s"]);
		expect(run(["strip", "s/s.ipynb", "--check"]).status).toBe(1);
		expect(run(["strip", "s/s.ipynb"]).out).toContain("stripped");
		expect(run(["strip", "s/s.ipynb", "--check"]).status).toBe(0);
	});

	it("installs, lists, checks and removes the kernel", () => {
		const prefix = join(folder, "prefix");
		const at = (action: string): Ran =>
			run(["kernel", action, "--prefix", "prefix"]);
		expect(at("check").status).toBe(1);
		expect(at("install").status).toBe(0);
		const installed = join(prefix, "share/jupyter/kernels/charledger");
		const spec = JSON.parse(
			readFileSync(join(installed, "kernel.json"), "utf8"),
		);
		expect(spec).toMatchObject({
			display_name: "Charledger",
			language: "typescript",
			interrupt_mode: "signal",
		});
		expect(spec.argv).toContain("{connection_file}");
		for (const logo of ["logo-64x64.png", "logo-32x32.png", "logo-svg.svg"])
			expect(existsSync(join(installed, logo))).toBe(true);
		expect(at("list").out).toContain("charledger\t");
		expect(at("check")).toMatchObject({
			status: 0,
			out: "charledger: fit for work\n",
		});
		spec.argv[1] = join(folder, "moved/notebook/kernel/main.js");
		writeFileSync(join(installed, "kernel.json"), JSON.stringify(spec));
		expect(at("check")).toMatchObject({
			status: 1,
			out: expect.stringContaining("It was moved or removed"),
		});
		expect(at("remove").status).toBe(0);
		expect(existsSync(installed)).toBe(false);
		expect(at("remove").err).toContain("charledger kernel list");
	});
});
