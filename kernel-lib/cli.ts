#!/usr/bin/env node
/** The command line: reads the words, calls the library, says what came of it. */
import "./require-node";
import { readFileSync, writeFileSync } from "node:fs";
import { basename, relative, resolve } from "node:path";
import { parseArgs } from "node:util";
import { notebookText, readNotebook } from "./notebook/ipynb";
import {
	installedKernels,
	installKernel,
	type KernelPlace,
	kernelProblems,
	removeKernel,
} from "./notebook/kernel/kernelspec";
import { newNotebook, templates } from "./notebook/new-notebook";
import { usualStartSeconds } from "./notebook/run/client";
import type { Progress } from "./notebook/run/execute";
import { runNotebook } from "./notebook/run/run";
import { systemErrorText } from "./notebook/run/system-error";
import { stripped } from "./notebook/strip";
import { libraryVersion } from "./notebook/versions";
import { didYouMean, problemText, valueOrThrow } from "./quantity";

/** What each command does: its words, a sentence for the list of all, and what more there is to know of it. */
const commands = {
	new: {
		words: "new [TEMPLATE] [--sheet FILE] [--into FOLDER]",
		does: "Copies a template with its demo data into your folder, set to your bench sheet where you give one. Without a name: lists the templates.",
		more: "--into names the folder (made where it is missing; else the one that you are in). Nothing that is there already is overwritten.",
	},
	run: {
		words:
			"run NOTEBOOK [--sheet FILE] [--set NAME=VALUE ...] [--out FOLDER] [--pdf] [--timeout SECONDS] [--start-timeout SECONDS]",
		does: "Runs a notebook without Jupyter and writes the executed notebook, one page (HTML), results.json, ledger.csv and, of a comparison, a line in analyses.jsonl; --pdf prints the page too (by an installed Chromium).",
		more: "A notebook is code: its cells may do on this machine what you may. Look into one that is not yours before you run it.\n\n      --set gives a parameter another value; --timeout is the limit of one cell (600 seconds unless told otherwise), --start-timeout that of the kernel's start (60). Everything is written beside and put in place together: a run that stops leaves the results of the one before as they are, and what it did itself in the folder `failed`. Ends with 0 when all cells ran, 1 when one failed, 2 when nothing was run, 130, 143 or 129 after Ctrl-C or another signal.",
	},
	kernel: {
		words:
			"kernel install|remove|list|check [--user | --prefix FOLDER] [--name NAME]",
		does: "The kernel for JupyterLab and other front ends.",
		more: "--prefix names a Python environment; without it the kernel is your own, for all of them.",
	},
	strip: {
		words: "strip NOTEBOOK ... [--check]",
		does: "Takes outputs and counts out of notebooks, for version control. --check only looks.",
		more: "With --check it ends with 1 where a notebook is not stripped.",
	},
} as const;

type Command = keyof typeof commands;

const isCommand = (word: string): word is Command =>
	Object.hasOwn(commands, word);

function commandHelp(name: Command): string {
	const { words, does, more } = commands[name];
	return `  charledger ${words}\n      ${does}\n\n      ${more}\n`;
}

const help = `Charledger: from the bench sheet to the verdict.

${Object.values(commands)
	.map(({ words, does }) => `  charledger ${words}\n      ${does}\n`)
	.join("")}  charledger COMMAND --help, --help, --version
`;

class UsageError extends Error {}

async function main(words: readonly string[]): Promise<number> {
	const [command = "--help", ...rest] = words;
	if (isCommand(command) && rest.includes("--help")) {
		process.stdout.write(commandHelp(command));
		return 0;
	}
	switch (command) {
		case "run":
			return run(rest);
		case "new":
			return fromTemplate(rest);
		case "kernel":
			return kernel(rest);
		case "strip":
			return strip(rest);
		case "--version":
			process.stdout.write(`${libraryVersion()}\n`);
			return 0;
		case "--help":
		case "-h":
		case "help":
			process.stdout.write(help);
			return 0;
		default:
			throw new UsageError(
				`"${command}" is no command of charledger. ${didYouMean(command, Object.keys(commands))}`,
			);
	}
}

function progressOnTerminal(): Progress {
	return {
		started(cell, of, firstLine) {
			process.stdout.write(`[${cell}/${of}] ${firstLine.slice(0, 70)} `);
		},
		ended(_cell, ok, milliseconds) {
			process.stdout.write(
				`${ok ? "done" : "FAILED"} (${(milliseconds / 1000).toFixed(1)} s)\n`,
			);
		},
	};
}

function settings(pairs: readonly string[]): Map<string, string> {
	return new Map(
		pairs.map((pair): [string, string] => {
			const at = pair.indexOf("=");
			if (at < 1)
				throw new UsageError(`--set takes NAME=VALUE, found "${pair}".`);
			return [pair.slice(0, at), pair.slice(at + 1)];
		}),
	);
}

/** What a shell expects of a program that a signal ended. */
const exitCodes = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 } as const;

function seconds(option: string, text: string): number {
	const value = Number(text);
	if (!(value > 0))
		throw new UsageError(
			`${option} takes a number of seconds, found "${text}".`,
		);
	return value;
}

async function run(words: string[]): Promise<number> {
	const { values, positionals } = parseArgs({
		args: words,
		allowPositionals: true,
		options: {
			sheet: { type: "string", default: "" },
			set: { type: "string", multiple: true, default: [] },
			out: { type: "string", default: "results" },
			pdf: { type: "boolean", default: false },
			timeout: { type: "string", default: "600" },
			"start-timeout": { type: "string", default: String(usualStartSeconds) },
		},
	});
	if (positionals.length !== 1)
		throw new UsageError("charledger run takes one notebook.");
	const timeoutSeconds = seconds("--timeout", values.timeout);
	const startSeconds = seconds("--start-timeout", values["start-timeout"]);
	const stop = new AbortController();
	const signals = Object.keys(exitCodes) as (keyof typeof exitCodes)[];
	const onSignal = (signal: keyof typeof exitCodes): void => {
		process.exitCode = exitCodes[signal];
		stop.abort();
	};
	for (const signal of signals) process.once(signal, onSignal);
	const report = await runNotebook({
		notebook: positionals[0],
		out: values.out,
		set: settings(values.set),
		sheet: values.sheet,
		pdf: values.pdf,
		timeoutSeconds,
		startSeconds,
		progress: progressOnTerminal(),
		signal: stop.signal,
	});
	for (const signal of signals) process.off(signal, onSignal);
	const files = report.files.map((f) => relative(process.cwd(), f) || f);
	if (report.end.is === "complete") {
		const answer = report.answer.map((line) => `${line}\n`).join("");
		process.stdout.write(`\n${answer}\nWritten: ${files.join(", ")}\n`);
		return 0;
	}
	process.stderr.write(
		`\nThe run stopped at code cell ${report.end.cell} (${report.end.id}):\n${report.end.message}\n\nWhat ran until there: ${files.join(", ")}\n`,
	);
	return Number(process.exitCode ?? 1);
}

function fromTemplate(words: string[]): number {
	const { values, positionals } = parseArgs({
		args: words,
		allowPositionals: true,
		options: {
			sheet: { type: "string", default: "" },
			into: { type: "string", default: "." },
		},
	});
	if (positionals.length === 0) {
		const list = templates();
		const width = Math.max(...list.map((t) => t.name.length));
		process.stdout.write(
			`${list.map((t) => `${t.name.padEnd(width)}  ${t.title}`).join("\n")}\n`,
		);
		return 0;
	}
	if (positionals.length > 1)
		throw new UsageError("charledger new takes one template.");
	const files = newNotebook({
		template: positionals[0],
		into: values.into,
		sheet: values.sheet,
	}).map((f) => relative(process.cwd(), f));
	process.stdout.write(
		`Written: ${files.join(", ")}\nNext: charledger run ${files[0]}   (or open it in JupyterLab; \`charledger kernel install\` puts the kernel there)\n`,
	);
	return 0;
}

const kernelActions = ["install", "remove", "list", "check"];

function kernel(words: string[]): number {
	const { values, positionals } = parseArgs({
		args: words,
		allowPositionals: true,
		options: {
			user: { type: "boolean", default: false },
			prefix: { type: "string", default: "" },
			name: { type: "string", default: "charledger" },
		},
	});
	const [action = ""] = positionals;
	if (values.user && values.prefix !== "")
		throw new UsageError("Choose one of --user and --prefix.");
	const place: KernelPlace =
		values.prefix === ""
			? { is: "user" }
			: { is: "prefix", folder: resolve(values.prefix) };
	switch (action) {
		case "install":
			process.stdout.write(`Installed: ${installKernel(place, values.name)}\n`);
			return 0;
		case "remove":
			process.stdout.write(`Removed: ${removeKernel(place, values.name)}\n`);
			return 0;
		case "list":
			for (const k of installedKernels(place))
				process.stdout.write(`${k.name}\t${k.folder}\n`);
			return 0;
		case "check":
			return check(place);
		default:
			throw new UsageError(
				`"charledger kernel" takes ${kernelActions.join(", ")}, found "${action}". ${didYouMean(action, kernelActions)}`,
			);
	}
}

function check(place: KernelPlace): number {
	const kernels = installedKernels(place);
	if (kernels.length === 0)
		process.stderr.write(
			"No kernel of ours is installed here: `charledger kernel install` installs one.\n",
		);
	let bad = kernels.length === 0;
	for (const k of kernels) {
		const problems = kernelProblems(k);
		bad ||= problems.length > 0;
		process.stdout.write(
			`${k.name}: ${problems.length === 0 ? "fit for work" : problems.map(problemText).join("\n  ")}\n`,
		);
	}
	return bad ? 1 : 0;
}

function strip(words: string[]): number {
	const { values, positionals } = parseArgs({
		args: words,
		allowPositionals: true,
		options: { check: { type: "boolean", default: false } },
	});
	if (positionals.length === 0)
		throw new UsageError("charledger strip takes one notebook or more.");
	let dirty = 0;
	for (const path of positionals) {
		const before = readFileSync(path, "utf8");
		const notebook = valueOrThrow(readNotebook(before, basename(path)));
		const after = notebookText(stripped(notebook));
		if (after === before) continue;
		dirty += 1;
		if (values.check) process.stderr.write(`${path}: not stripped\n`);
		else {
			writeFileSync(path, after);
			process.stdout.write(`${path}: stripped\n`);
		}
	}
	return values.check && dirty > 0 ? 1 : 0;
}

// A terminal that is closed, or a pipe that nobody reads, must not end a run in the middle.
for (const stream of [process.stdout, process.stderr])
	stream.on("error", () => {});

main(process.argv.slice(2))
	.then((code) => {
		process.exitCode = code;
	})
	.catch((error: unknown) => {
		const usage =
			error instanceof UsageError ||
			(error as { code?: string }).code?.startsWith("ERR_PARSE_ARGS") === true;
		const told =
			systemErrorText(error) ||
			(error instanceof Error ? error.message : String(error));
		process.stderr.write(`${told}\n`);
		if (usage)
			process.stderr.write('"charledger --help" lists the commands.\n');
		process.exitCode ??= 2;
	})
	.finally(() => {
		if (process.exitCode !== exitCodes.SIGHUP) return;
		// The terminal may be gone, and Node breaks off where it cannot set it back: the signal itself ends the program.
		process.removeAllListeners("SIGHUP");
		process.kill(process.pid, "SIGHUP");
	});
