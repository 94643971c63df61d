/** Requests and their answers, in the order in which they came. No transport is known here. */
import type { ExecuteResult, KernelHandler } from "./handler";

export type Content = Readonly<Record<string, unknown>>;

/** What a front end asks, by whatever way it came. */
export interface Request {
	/** "execute_request" and others of the Jupyter protocol. */
	readonly type: string;
	readonly content: Content;
	/** Id of the cell that is to be run, as the front end knows it; "" where it does not say. */
	readonly cell: string;
	/** Answers whoever asked. */
	reply(content: Content): void;
	/** Tells all front ends what the request brought about. */
	publish(type: string, content: Content): void;
}

export interface Conversation {
	/** Puts a request behind those that wait. */
	enqueue(request: Request): void;
	/** Answers a request at once. */
	answer(request: Request): Promise<void>;
	/** Resolves when a front end has shut the kernel down. */
	readonly ended: Promise<void>;
}

/** How long to go on refusing requests that were sent before the front end could know of an error. */
const drainMilliseconds = 20;

/** The answer to a request that runs no code; null where none is expected: comm messages and whatever a later protocol adds are not for this kernel. */
function plainReply(
	{ type, content }: Request,
	handler: KernelHandler,
): Content | null {
	const code = String(content.code ?? "");
	const position = Number(content.cursor_pos ?? 0);
	switch (type) {
		case "kernel_info_request":
			return { ...handler.info };
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
	handler: KernelHandler,
): (request: Request) => Promise<void> {
	let count = 0;
	let aborting = false;

	function finish(request: Request, result: ExecuteResult): void {
		const counted = { execution_count: count };
		if (result.is === "ok") {
			request.reply({
				status: "ok",
				...counted,
				payload: [],
				user_expressions: {},
			});
			return;
		}
		request.publish("error", { ...result.error });
		request.reply({ status: "error", ...counted, ...result.error });
		if (request.content.stop_on_error === false) return;
		aborting = true;
		setTimeout(() => {
			aborting = false;
		}, drainMilliseconds);
	}

	return async (request) => {
		const { code, silent, store_history } = request.content as {
			code: string;
			silent?: boolean;
			store_history?: boolean;
		};
		if (aborting) {
			request.reply({ status: "aborted" });
			return;
		}
		if (silent !== true && store_history !== false) count += 1;
		if (silent !== true)
			request.publish("execute_input", { code, execution_count: count });
		finish(
			request,
			await handler.execute(code, count, request.publish, request.cell),
		);
	};
}

/** @param settled resolves when everything that was said has left */
export function openConversation(
	handler: KernelHandler,
	settled: () => Promise<void>,
): Conversation {
	const execute = openExecution(handler);
	const waiting: Request[] = [];
	let working = false;
	let end: () => void = () => {};
	const ended = new Promise<void>((resolve) => {
		end = resolve;
	});

	async function respond(request: Request): Promise<void> {
		if (request.type === "execute_request") return execute(request);
		const content = plainReply(request, handler);
		if (content !== null) request.reply({ status: "ok", ...content });
	}

	async function answer(request: Request): Promise<void> {
		request.publish("status", { execution_state: "busy" });
		try {
			await respond(request);
		} catch (error) {
			const failure = {
				ename: "KernelError",
				evalue: String(error),
				traceback: [
					`The kernel itself failed: ${error instanceof Error ? (error.stack ?? String(error)) : String(error)}`,
				],
			};
			// Front ends show what is published, not what is replied.
			if (request.type === "execute_request") request.publish("error", failure);
			request.reply({ status: "error", ...failure });
		} finally {
			request.publish("status", { execution_state: "idle" });
		}
		if (request.type === "shutdown_request") {
			handler.shutdown();
			await settled();
			end();
		}
	}

	async function work(): Promise<void> {
		if (working) return;
		working = true;
		for (let next = waiting.shift(); next; next = waiting.shift())
			await answer(next);
		working = false;
	}

	return {
		enqueue(request) {
			waiting.push(request);
			void work();
		},
		answer,
		ended,
	};
}
