/** The sockets of a kernel: takes requests off the wire, one after the other, and puts replies and outputs on it. Knows nothing of TypeScript. */
import type { Publisher, Reply, Router } from "zeromq";
import { type Outlet, openOutbox } from "./outbox";
import {
	address,
	type Connection,
	decode,
	encode,
	type Header,
	header,
	type Message,
	protocolVersion,
} from "./wire";

/** An error as front ends show it. */
export interface KernelError {
	readonly ename: string;
	readonly evalue: string;
	readonly traceback: readonly string[];
}

export type ExecuteResult =
	| { readonly is: "ok" }
	| { readonly is: "error"; readonly error: KernelError };

/** Sends an output of the running cell to the front ends. */
export type Publish = (
	type: "stream" | "display_data" | "update_display_data",
	content: Readonly<Record<string, unknown>>,
) => void;

/** What a kernel does; the server does the talking. */
export interface KernelHandler {
	readonly info: Readonly<Record<string, unknown>>;
	execute(
		code: string,
		count: number,
		publish: Publish,
	): Promise<ExecuteResult>;
	complete(
		code: string,
		position: number,
	): {
		readonly start: number;
		readonly end: number;
		readonly candidates: readonly string[];
	};
	inspect(code: string, position: number): string;
	isComplete(code: string): {
		readonly complete: boolean;
		readonly indent: string;
	};
	interrupt(): void;
	shutdown(): void;
}

/** How long to go on reading requests that were sent before the front end could know of an error. */
const drainMilliseconds = 20;

/** Opens the sockets and serves until `shutdown_request`. */
export async function serve(
	connection: Connection,
	handler: KernelHandler,
): Promise<void> {
	const zmq = await import("zeromq");
	const shell = new zmq.Router({ linger: 500 });
	const control = new zmq.Router({ linger: 500 });
	const stdin = new zmq.Router({ linger: 0 });
	const iopub = new zmq.Publisher({ linger: 500 });
	const heartbeat = new zmq.Reply({ linger: 0 });
	await Promise.all([
		shell.bind(address(connection, connection.shell_port)),
		control.bind(address(connection, connection.control_port)),
		stdin.bind(address(connection, connection.stdin_port)),
		iopub.bind(address(connection, connection.iopub_port)),
		heartbeat.bind(address(connection, connection.hb_port)),
	]);
	void echo(heartbeat);
	const talk = conversation(connection.key, iopub, handler);
	await Promise.race([
		readAll(shell, connection.key, (message) => talk.enqueue(shell, message)),
		readAll(control, connection.key, (message) =>
			talk.answer(control, message),
		),
		talk.ended,
	]);
	for (const socket of [shell, control, stdin, iopub, heartbeat])
		socket.close();
}

async function echo(heartbeat: Reply): Promise<void> {
	for await (const frames of heartbeat) await heartbeat.send(frames);
}

async function readAll(
	socket: Router,
	key: string,
	take: (message: Message) => void,
): Promise<void> {
	for await (const frames of socket) {
		try {
			take(decode(key, frames));
		} catch (error) {
			// A message that is not for us must not end the session.
			console.error(String(error));
		}
	}
}

function conversation(
	key: string,
	iopub: Publisher,
	handler: KernelHandler,
): {
	enqueue(socket: Router, message: Message): void;
	answer(socket: Router, message: Message): Promise<void>;
	ended: Promise<void>;
} {
	let count = 0;
	let working = false;
	let aborting = false;
	const waiting: { socket: Router; message: Message }[] = [];
	let end: () => void = () => {};
	const ended = new Promise<void>((resolve) => {
		end = resolve;
	});
	const outbox = openOutbox();

	function send(
		socket: Router | Publisher,
		identities: readonly Uint8Array[],
		type: string,
		parent: Header,
		content: Readonly<Record<string, unknown>>,
	): void {
		const frames = encode(key, {
			identities,
			header: header(type, parent.session),
			parent,
			metadata: {},
			content,
		});
		outbox.send(socket as Outlet, frames as Uint8Array[]);
	}

	function publish(
		type: string,
		parent: Header,
		content: Readonly<Record<string, unknown>>,
	): void {
		send(iopub, [Buffer.from(type)], type, parent, content);
	}

	function reply(
		socket: Router,
		message: Message,
		content: Readonly<Record<string, unknown>>,
	): void {
		const type = message.header.msg_type.replace(/_request$/, "_reply");
		send(socket, message.identities, type, message.header, content);
	}

	async function execute(socket: Router, message: Message): Promise<void> {
		const request = message.content as {
			code: string;
			silent?: boolean;
			store_history?: boolean;
			stop_on_error?: boolean;
		};
		if (aborting) {
			reply(socket, message, { status: "aborted" });
			return;
		}
		const quiet = request.silent === true || request.store_history === false;
		if (!quiet) count += 1;
		if (request.silent !== true)
			publish("execute_input", message.header, {
				code: request.code,
				execution_count: count,
			});
		const result = await handler.execute(request.code, count, (type, content) =>
			publish(type, message.header, content),
		);
		if (result.is === "ok") {
			reply(socket, message, {
				status: "ok",
				execution_count: count,
				payload: [],
				user_expressions: {},
			});
			return;
		}
		publish("error", message.header, { ...result.error });
		reply(socket, message, {
			status: "error",
			execution_count: count,
			...result.error,
		});
		if (request.stop_on_error !== false) {
			aborting = true;
			setTimeout(() => {
				aborting = false;
				void work();
			}, drainMilliseconds);
		}
	}

	async function answer(socket: Router, message: Message): Promise<void> {
		const { header: parent, content } = message;
		publish("status", parent, { execution_state: "busy" });
		try {
			await respond(socket, message, content);
		} catch (error) {
			reply(socket, message, {
				status: "error",
				ename: "KernelError",
				evalue: String(error),
				traceback: [],
			});
		} finally {
			publish("status", parent, { execution_state: "idle" });
		}
		if (parent.msg_type === "shutdown_request") {
			handler.shutdown();
			await outbox.settled();
			end();
		}
	}

	async function respond(
		socket: Router,
		message: Message,
		content: Readonly<Record<string, unknown>>,
	): Promise<void> {
		const code = String(content.code ?? "");
		const position = Number(content.cursor_pos ?? 0);
		switch (message.header.msg_type) {
			case "kernel_info_request":
				reply(socket, message, {
					status: "ok",
					protocol_version: protocolVersion,
					...handler.info,
				});
				break;
			case "execute_request":
				await execute(socket, message);
				break;
			case "complete_request": {
				const {
					start,
					end: last,
					candidates,
				} = handler.complete(code, position);
				reply(socket, message, {
					status: "ok",
					matches: candidates,
					cursor_start: start,
					cursor_end: last,
					metadata: {},
				});
				break;
			}
			case "inspect_request": {
				const text = handler.inspect(code, position);
				reply(socket, message, {
					status: "ok",
					found: text !== "",
					data: text === "" ? {} : { "text/plain": text },
					metadata: {},
				});
				break;
			}
			case "is_complete_request": {
				const { complete, indent } = handler.isComplete(code);
				reply(
					socket,
					message,
					complete ? { status: "complete" } : { status: "incomplete", indent },
				);
				break;
			}
			case "history_request":
				reply(socket, message, { status: "ok", history: [] });
				break;
			case "comm_info_request":
				reply(socket, message, { status: "ok", comms: {} });
				break;
			case "interrupt_request":
				handler.interrupt();
				reply(socket, message, { status: "ok" });
				break;
			case "shutdown_request":
				reply(socket, message, {
					status: "ok",
					restart: content.restart === true,
				});
				break;
			default:
			// Comm messages and whatever a later protocol adds: not for this kernel, and no reply is expected.
		}
	}

	/** Requests are answered in the order in which they came, as front ends expect. */
	async function work(): Promise<void> {
		if (working) return;
		working = true;
		for (let next = waiting.shift(); next; next = waiting.shift())
			await answer(next.socket, next.message);
		working = false;
	}

	return {
		enqueue(socket, message) {
			waiting.push({ socket, message });
			void work();
		},
		answer,
		ended,
	};
}
