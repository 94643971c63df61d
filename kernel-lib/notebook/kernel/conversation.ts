/** Requests and their answers, in the order in which they came. */
import type { Router } from "zeromq";
import type { ExecuteResult, KernelHandler } from "./handler";
import type { Content, Voice } from "./voice";
import { type Message, protocolVersion } from "./wire";

export interface Conversation {
	/** Puts a request behind those that wait. */
	enqueue(socket: Router, message: Message): void;
	/** Answers a request at once. */
	answer(socket: Router, message: Message): Promise<void>;
	/** Resolves when a front end has shut the kernel down. */
	readonly ended: Promise<void>;
}

/** How long to go on refusing requests that were sent before the front end could know of an error. */
const drainMilliseconds = 20;

/** The answer to a request that runs no code; null where none is expected: comm messages and whatever a later protocol adds are not for this kernel. */
function plainReply(
	{ header, content }: Message,
	handler: KernelHandler,
): Content | null {
	const code = String(content.code ?? "");
	const position = Number(content.cursor_pos ?? 0);
	switch (header.msg_type) {
		case "kernel_info_request":
			return { protocol_version: protocolVersion, ...handler.info };
		case "complete_request": {
			const { start, end, candidates } = handler.complete(code, position);
			return {
				matches: candidates,
				cursor_start: start,
				cursor_end: end,
				metadata: {},
			};
		}
		case "inspect_request": {
			const text = handler.inspect(code, position);
			return {
				found: text !== "",
				data: text === "" ? {} : { "text/plain": text },
				metadata: {},
			};
		}
		case "is_complete_request": {
			const { complete, indent } = handler.isComplete(code);
			return complete
				? { status: "complete" }
				: { status: "incomplete", indent };
		}
		case "history_request":
			return { history: [] };
		case "comm_info_request":
			return { comms: {} };
		case "interrupt_request":
			handler.interrupt();
			return {};
		case "shutdown_request":
			return { restart: content.restart === true };
		default:
			return null;
	}
}

/** Runs cells and counts them; after an error the requests that are already on their way are refused. */
function openExecution(
	voice: Voice,
	handler: KernelHandler,
): (socket: Router, message: Message) => Promise<void> {
	let count = 0;
	let aborting = false;

	function finish(
		socket: Router,
		message: Message,
		result: ExecuteResult,
	): void {
		const counted = { execution_count: count };
		if (result.is === "ok") {
			voice.reply(socket, message, {
				status: "ok",
				...counted,
				payload: [],
				user_expressions: {},
			});
			return;
		}
		voice.publish("error", message.header, { ...result.error });
		voice.reply(socket, message, {
			status: "error",
			...counted,
			...result.error,
		});
		if (message.content.stop_on_error === false) return;
		aborting = true;
		setTimeout(() => {
			aborting = false;
		}, drainMilliseconds);
	}

	return async (socket, message) => {
		const request = message.content as {
			code: string;
			silent?: boolean;
			store_history?: boolean;
		};
		if (aborting) {
			voice.reply(socket, message, { status: "aborted" });
			return;
		}
		const silent = request.silent === true;
		if (!silent && request.store_history !== false) count += 1;
		if (!silent)
			voice.publish("execute_input", message.header, {
				code: request.code,
				execution_count: count,
			});
		const result = await handler.execute(request.code, count, (type, content) =>
			voice.publish(type, message.header, content),
		);
		finish(socket, message, result);
	};
}

export function openConversation(
	voice: Voice,
	handler: KernelHandler,
): Conversation {
	const execute = openExecution(voice, handler);
	const waiting: { socket: Router; message: Message }[] = [];
	let working = false;
	let end: () => void = () => {};
	const ended = new Promise<void>((resolve) => {
		end = resolve;
	});

	async function respond(socket: Router, message: Message): Promise<void> {
		if (message.header.msg_type === "execute_request")
			return execute(socket, message);
		const content = plainReply(message, handler);
		if (content !== null)
			voice.reply(socket, message, { status: "ok", ...content });
	}

	async function answer(socket: Router, message: Message): Promise<void> {
		const parent = message.header;
		voice.publish("status", parent, { execution_state: "busy" });
		try {
			await respond(socket, message);
		} catch (error) {
			voice.reply(socket, message, {
				status: "error",
				ename: "KernelError",
				evalue: String(error),
				traceback: [],
			});
		} finally {
			voice.publish("status", parent, { execution_state: "idle" });
		}
		if (parent.msg_type === "shutdown_request") {
			handler.shutdown();
			await voice.settled();
			end();
		}
	}

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
