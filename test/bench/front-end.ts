/** Talks to a kernel over the sockets of Jupyter, as a front end does, so that ours and plain tslab are asked alike. */
import { type ChildProcess, spawn } from "node:child_process";
import { randomUUID } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Dealer, Subscriber } from "zeromq";
import {
	address,
	type Connection,
	decode,
	encode,
	header,
	type Message,
} from "../../kernel-lib/notebook/kernel/wire";

export type ExecuteReply =
	| { readonly is: "ok"; readonly count: number }
	| { readonly is: "error"; readonly count: number }
	| { readonly is: "timed out"; readonly seconds: number }
	| { readonly is: "kernel died"; readonly because: string };

/** An output message as it comes from the kernel. */
export type OnOutput = (
	type: string,
	content: Readonly<Record<string, unknown>>,
) => void;

export interface KernelClient {
	execute(
		code: string,
		options: { readonly stopOnError: boolean; readonly timeoutSeconds: number },
		onOutput: OnOutput,
	): Promise<ExecuteReply>;
	interrupt(): void;
	stop(): Promise<void>;
}

interface Waiter {
	reply: Message | null;
	idle: boolean;
	onOutput: OnOutput;
	done(reply: Message): void;
}

const startSeconds = 60;

async function freePorts(count: number): Promise<number[]> {
	const servers = await Promise.all(
		Array.from(
			{ length: count },
			() =>
				new Promise<ReturnType<typeof createServer>>((resolve) => {
					const server = createServer().listen(0, "127.0.0.1", () =>
						resolve(server),
					);
				}),
		),
	);
	const ports = servers.map((s) => (s.address() as { port: number }).port);
	await Promise.all(
		servers.map((s) => new Promise((resolve) => s.close(resolve))),
	);
	return ports;
}

async function newConnection(): Promise<Connection> {
	const [shell, iopub, stdin, control, heartbeat] = await freePorts(5);
	return {
		transport: "tcp",
		ip: "127.0.0.1",
		key: randomUUID(),
		signature_scheme: "hmac-sha256",
		shell_port: shell,
		iopub_port: iopub,
		stdin_port: stdin,
		control_port: control,
		hb_port: heartbeat,
	};
}

function spawnKernel(
	program: readonly string[],
	folder: string,
): { child: ChildProcess; log: () => string } {
	let text = "";
	const child = spawn(process.execPath, program, {
		cwd: folder,
		stdio: ["ignore", "pipe", "pipe", "ipc"],
	});
	for (const stream of [child.stdout, child.stderr])
		stream?.on("data", (chunk) => {
			text = (text + String(chunk)).slice(-4000);
		});
	return { child, log: () => text.trim() };
}

/** How a kernel came to its end. */
interface Death {
	readonly died: string;
}

/** The two sockets on which a front end talks and listens, and who waits for what comes. */
interface Line {
	/** Sends a request; resolves with the reply once all its outputs have come, or with why none will. */
	request(
		type: string,
		content: Readonly<Record<string, unknown>>,
		onOutput: OnOutput,
		seconds: number,
	): Promise<Message | "timed out" | Death>;
	close(): void;
}

async function openLine(
	connection: Connection,
	death: Promise<Death>,
): Promise<Line> {
	const zmq = await import("zeromq");
	const shell = new zmq.Dealer({ linger: 0 });
	const iopub = new zmq.Subscriber({ linger: 0 });
	shell.connect(address(connection, connection.shell_port));
	iopub.connect(address(connection, connection.iopub_port));
	iopub.subscribe();
	const session = randomUUID();
	const waiters = new Map<string, Waiter>();

	const settle = (waiter: Waiter): void => {
		if (waiter.reply !== null && waiter.idle) waiter.done(waiter.reply);
	};
	const pump = async (
		socket: Dealer | Subscriber,
		take: (message: Message, waiter: Waiter) => void,
	): Promise<void> => {
		for await (const frames of socket) {
			const message = decode(connection.key, frames);
			const waiter = waiters.get(String(message.parent.msg_id));
			if (waiter === undefined) continue;
			take(message, waiter);
			settle(waiter);
		}
	};
	void pump(shell, (message, waiter) => {
		waiter.reply = message;
	});
	void pump(iopub, (message, waiter) => {
		if (message.header.msg_type === "status")
			waiter.idle ||= message.content.execution_state === "idle";
		else waiter.onOutput(message.header.msg_type, message.content);
	});

	return {
		async request(type, content, onOutput, seconds) {
			const head = header(type, session);
			const message = {
				identities: [],
				header: head,
				parent: {},
				metadata: {},
				content,
			};
			let timer: NodeJS.Timeout | undefined;
			const answered = new Promise<Message>((done) => {
				waiters.set(head.msg_id, { reply: null, idle: false, onOutput, done });
			});
			const late = new Promise<"timed out">((resolve) => {
				timer = setTimeout(() => resolve("timed out"), seconds * 1000);
			});
			try {
				await shell.send(encode(connection.key, message) as Buffer[]);
				return await Promise.race([answered, late, death]);
			} finally {
				clearTimeout(timer);
				waiters.delete(head.msg_id);
			}
		},
		close() {
			shell.close();
			iopub.close();
		},
	};
}

function deathOf(child: ChildProcess, log: () => string): Promise<Death> {
	return new Promise((resolve) => {
		child.once("exit", (code, signal) =>
			resolve({
				died: `The kernel ended (${signal ?? `code ${code}`}) before the cell was done.${log() === "" ? "" : ` It said: ${log()}`}`,
			}),
		);
	});
}

/** The first answers may be lost while the sockets find each other: asks until one comes with its outputs. Returns why none came; "" when one did. */
async function greet(line: Line, log: () => string): Promise<string> {
	const end = Date.now() + startSeconds * 1000;
	for (;;) {
		const answer = await line.request("kernel_info_request", {}, () => {}, 0.5);
		if (typeof answer === "object") return "died" in answer ? answer.died : "";
		if (Date.now() > end) return log() || "It did not answer.";
	}
}

/**
 * Starts a kernel.
 * @param folder its working folder
 * @param program script and words of a kernel for Node; the path of the connection file comes last
 * @throws Error when it does not come up, with what it said
 */
export async function startKernel(
	folder: string,
	program: readonly string[],
): Promise<KernelClient> {
	const temporary = mkdtempSync(join(tmpdir(), "charledger-"));
	const connection = await newConnection();
	const file = join(temporary, "connection.json");
	writeFileSync(file, JSON.stringify(connection), { mode: 0o600 });
	const { child, log } = spawnKernel([...program, file], folder);
	const death = deathOf(child, log);
	const line = await openLine(connection, death);

	async function stop(): Promise<void> {
		line.close();
		if (child.exitCode === null && child.signalCode === null) {
			child.kill("SIGKILL");
			await death;
		}
		rmSync(temporary, { recursive: true, force: true });
	}

	const because = await greet(line, log);
	if (because !== "") {
		await stop();
		throw new Error(`The kernel did not start. ${because}`);
	}
	return {
		async execute(code, { stopOnError, timeoutSeconds }, onOutput) {
			const request = {
				code,
				silent: false,
				store_history: true,
				user_expressions: {},
				allow_stdin: false,
				stop_on_error: stopOnError,
			};
			const answer = await line.request(
				"execute_request",
				request,
				onOutput,
				timeoutSeconds,
			);
			if (answer === "timed out")
				return { is: "timed out", seconds: timeoutSeconds };
			if ("died" in answer) return { is: "kernel died", because: answer.died };
			const count = Number(answer.content.execution_count);
			return { is: answer.content.status === "ok" ? "ok" : "error", count };
		},
		interrupt: () => {
			child.kill("SIGINT");
		},
		stop,
	};
}
