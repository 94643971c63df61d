/** The Jupyter wire protocol, version 5.4: what a message is and how it is signed. Used by the kernel and by the runner alike. */
import { createHmac, randomUUID } from "node:crypto";

export interface Header {
	readonly msg_id: string;
	readonly msg_type: string;
	readonly session: string;
	readonly username: string;
	readonly date: string;
	readonly version: string;
}

export interface Message {
	/** Addresses that the router socket puts before a message. */
	readonly identities: readonly Uint8Array[];
	readonly header: Header;
	/** The header of the message that this one answers; empty for the first. */
	readonly parent: Header | Record<string, never>;
	readonly metadata: Readonly<Record<string, unknown>>;
	readonly content: Readonly<Record<string, unknown>>;
}

/** The connection file that a front end writes and a kernel reads. */
export interface Connection {
	readonly transport: "tcp" | "ipc";
	readonly ip: string;
	readonly key: string;
	readonly signature_scheme: string;
	readonly shell_port: number;
	readonly iopub_port: number;
	readonly stdin_port: number;
	readonly control_port: number;
	readonly hb_port: number;
}

export const protocolVersion = "5.4";
const delimiter = Buffer.from("<IDS|MSG>");

export function header(type: string, session: string): Header {
	return {
		msg_id: randomUUID(),
		msg_type: type,
		session,
		username: "charledger",
		date: new Date().toISOString(),
		version: protocolVersion,
	};
}

function signature(
	key: string,
	parts: readonly (string | Uint8Array)[],
): string {
	if (key === "") return "";
	const hash = createHmac("sha256", key);
	for (const part of parts) hash.update(part);
	return hash.digest("hex");
}

export function encode(key: string, message: Message): (string | Uint8Array)[] {
	const parts = [
		message.header,
		message.parent,
		message.metadata,
		message.content,
	].map((part) => JSON.stringify(part));
	return [...message.identities, delimiter, signature(key, parts), ...parts];
}

/** @throws Error when the frames are no message or the signature is wrong */
export function decode(key: string, frames: readonly Buffer[]): Message {
	const at = frames.findIndex((frame) => frame.equals(delimiter));
	if (at < 0 || frames.length < at + 6)
		throw new Error("Not a message of the Jupyter protocol.");
	const parts = frames.slice(at + 2, at + 6);
	if (signature(key, parts) !== frames[at + 1].toString())
		throw new Error("A message came with a wrong signature.");
	const [head, parent, metadata, content] = parts.map((part) =>
		JSON.parse(part.toString()),
	);
	return {
		identities: frames.slice(0, at),
		header: head,
		parent,
		metadata,
		content,
	};
}

export function address(connection: Connection, port: number): string {
	return connection.transport === "ipc"
		? `ipc://${connection.ip}-${port}`
		: `tcp://${connection.ip}:${port}`;
}
