/** Talks to our kernel: starts it, sends cells, hands back replies and outputs. */
import { type ChildProcess, fork } from "node:child_process";
import { join } from "node:path";
import type { Content } from "../kernel/conversation";
import type { Said } from "../kernel/over-parent";

export type ExecuteReply =
	| { readonly is: "ok"; readonly count: number }
	| { readonly is: "error"; readonly count: number }
	| { readonly is: "timed out"; readonly seconds: number }
	| { readonly is: "kernel died"; readonly because: string };

/** An output message as it comes from the kernel. */
export type OnOutput = (type: string, content: Content) => void;

export interface KernelClient {
	execute(
		cell: { readonly id: string; readonly source: string },
		options: { readonly stopOnError: boolean; readonly timeoutSeconds: number },
		onOutput: OnOutput,
	): Promise<ExecuteReply>;
	interrupt(): void;
	stop(): Promise<void>;
}

/** How a kernel came to its end. */
interface Death {
	readonly died: string;
}

/** A kernel gets so long to come up, unless told otherwise. */
export const usualStartSeconds = 60;

export interface StartOptions {
	/** How long to wait for it. */
	readonly startSeconds: number;
	/** Aborting it ends the wait. */
	readonly signal: AbortSignal;
}

const program = join(__dirname, "..", "kernel", "main.js");

/** Less room for what is young, MB: three times as much is held for it. */
const nursery = "--max-semi-space-size";
const smallNursery = process.allowedNodeEnvironmentFlags.has(nursery)
	? [`${nursery}=4`]
	: [];

/** Which way a process ended, with the likely cause where there is one. */
function endText(code: number | null, signal: NodeJS.Signals | null): string {
	if (signal === "SIGKILL")
		return "it was killed from outside; where memory is short, the system does that";
	return signal === null ? `code ${code}` : `signal ${signal}`;
}

function spawnKernel(folder: string): {
	child: ChildProcess;
	death: Promise<Death>;
} {
	let text = "";
	const child = fork(program, [], {
		cwd: folder,
		silent: true,
		execArgv: [...process.execArgv, ...smallNursery],
	});
	for (const stream of [child.stdout, child.stderr])
		stream?.on("data", (chunk) => {
			text = (text + String(chunk)).slice(-4000);
		});
	const death = new Promise<Death>((resolve) => {
		const told = (how: string): void =>
			resolve({
				died: `The kernel ended (${how}).${text.trim() === "" ? "" : ` It said: ${text.trim()}`}`,
			});
		child.once("error", (error) => told(error.message));
		// "close" comes when all that it said has been read.
		child.once("close", (code, signal) => told(endText(code, signal)));
	});
	return { child, death };
}

/** Resolves after so many seconds; `stop` lets go of the clock. */
function clock(seconds: number): {
	readonly late: Promise<"timed out">;
	stop(): void;
} {
	let timer: NodeJS.Timeout | undefined;
	const late = new Promise<"timed out">((resolve) => {
		timer = setTimeout(() => resolve("timed out"), seconds * 1000);
	});
	return { late, stop: () => clearTimeout(timer) };
}

function notStarted(
	came: "timed out" | "stopped" | Death,
	seconds: number,
): string {
	switch (came) {
		case "timed out":
			return `The kernel did not start within ${seconds} seconds. Give it longer with --start-timeout, or look whether the machine is busy or short of memory.`;
		case "stopped":
			return "The run was stopped before its first cell.";
		default:
			return `The kernel did not start. ${came.died}`;
	}
}

/**
 * Starts a kernel.
 * @param folder its working folder
 * @throws Error when it does not come up, with what it said
 */
export async function startKernel(
	folder: string,
	{ startSeconds, signal }: StartOptions = {
		startSeconds: usualStartSeconds,
		signal: new AbortController().signal,
	},
): Promise<KernelClient> {
	const { child, death } = spawnKernel(folder);
	let count = 0;
	let hear: (said: Said) => void = () => {};
	child.on("message", (said) => hear(said as Said));

	async function stop(): Promise<void> {
		if (child.exitCode === null && child.signalCode === null) {
			child.kill("SIGKILL");
			await death;
		}
	}

	const ready = new Promise<"ready">((resolve) => {
		hear = ({ is }) => {
			if (is === "ready") resolve("ready");
		};
	});
	const patience = clock(startSeconds);
	const aborted = new Promise<"stopped">((resolve) => {
		if (signal.aborted) resolve("stopped");
		signal.addEventListener("abort", () => resolve("stopped"), { once: true });
	});
	const came = await Promise.race([ready, patience.late, aborted, death]);
	patience.stop();
	if (came !== "ready") {
		await stop();
		throw new Error(notStarted(came, startSeconds));
	}

	return {
		async execute(
			{ id: cell, source },
			{ stopOnError, timeoutSeconds },
			onOutput,
		) {
			const id = ++count;
			const limit = clock(timeoutSeconds);
			const answered = new Promise<Content>((resolve) => {
				let reply: Content | null = null;
				hear = (said) => {
					if (said.is === "ready" || said.id !== id) return;
					if (said.is === "reply") reply = said.content;
					else if (said.type !== "status") onOutput(said.type, said.content);
					else if (said.content.execution_state === "idle" && reply !== null)
						resolve(reply);
				};
			});
			const content = { code: source, stop_on_error: stopOnError };
			const asked = { id, type: "execute_request", content, cell };
			child.send(asked, () => {});
			const answer = await Promise.race([answered, limit.late, death]);
			limit.stop();
			if (answer === "timed out")
				return { is: "timed out", seconds: timeoutSeconds };
			if ("died" in answer)
				return { is: "kernel died", because: String(answer.died) };
			return {
				is: answer.status === "ok" ? "ok" : "error",
				count: Number(answer.execution_count),
			};
		},
		interrupt: () => {
			child.kill("SIGINT");
		},
		stop,
	};
}
