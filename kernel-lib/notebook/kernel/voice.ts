/** How a kernel speaks: outputs to everybody, replies to whoever asked, in order. */
import type { Publisher, Router } from "zeromq";
import type { Content } from "./conversation";
import { type Outlet, openOutbox } from "./outbox";
import { encode, type Header, header, type Message } from "./wire";

export interface Voice {
	/** Tells all front ends. */
	publish(type: string, parent: Header, content: Content): void;
	/** Answers a request on the socket that it came from. */
	reply(socket: Router, request: Message, content: Content): void;
	/** Resolves when everything that was said has left. */
	settled(): Promise<void>;
}

export function openVoice(key: string, iopub: Publisher): Voice {
	const outbox = openOutbox();
	const send = (
		socket: Router | Publisher,
		identities: readonly Uint8Array[],
		type: string,
		parent: Header,
		content: Content,
	): void => {
		const frames = encode(key, {
			identities,
			header: header(type, parent.session),
			parent,
			metadata: {},
			content,
		});
		outbox.send(socket as Outlet, frames as Uint8Array[]);
	};
	return {
		publish: (type, parent, content) =>
			send(iopub, [Buffer.from(type)], type, parent, content),
		reply: (socket, request, content) =>
			send(
				socket,
				request.identities,
				request.header.msg_type.replace(/_request$/, "_reply"),
				request.header,
				content,
			),
		settled: () => outbox.settled(),
	};
}
