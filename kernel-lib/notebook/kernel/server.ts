/** The sockets of a kernel: takes requests off the wire. Knows nothing of TypeScript. */
import type { Reply, Router } from "zeromq";
import { openConversation } from "./conversation";
import type { KernelHandler } from "./handler";
import { openVoice } from "./voice";
import { address, type Connection, decode, type Message } from "./wire";

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
	const talk = openConversation(openVoice(connection.key, iopub), handler);
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
