/** A kernel on the sockets of Jupyter: takes requests off the wire. Knows nothing of TypeScript. */
import type { Reply, Router } from "zeromq";
import { openConversation, type Request } from "./conversation";
import type { KernelHandler } from "./handler";
import { openVoice } from "./voice";
import {
	address,
	type Connection,
	decode,
	type Message,
	protocolVersion,
} from "./wire";

/** Opens the sockets and serves until `shutdown_request`. */
export async function serveOverSockets(
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
	const voice = openVoice(connection.key, iopub);
	const talk = openConversation(
		{
			...handler,
			info: { protocol_version: protocolVersion, ...handler.info },
		},
		voice.settled,
	);
	const asked = (socket: Router, message: Message): Request => ({
		type: message.header.msg_type,
		content: message.content,
		cell: String(message.metadata.cellId ?? ""),
		reply: (content) => voice.reply(socket, message, content),
		publish: (type, content) => voice.publish(type, message.header, content),
	});
	await Promise.race([
		readAll(shell, connection.key, (m) => talk.enqueue(asked(shell, m))),
		readAll(control, connection.key, (m) => talk.answer(asked(control, m))),
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
