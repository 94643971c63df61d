/** A kernel that talks with the process that started it, over the channel that Node opens between the two: no port, no socket, no file. */
import { type Content, openConversation, type Request } from "./conversation";
import type { KernelHandler } from "./handler";

/** What the parent asks. */
export interface Asked {
	/** Comes back with everything that the request brings about. */
	readonly id: number;
	readonly type: string;
	readonly content: Content;
	/** Id of the cell that is to be run; "" for none. */
	readonly cell: string;
}

/** What the kernel says: once that it is there, then outputs and replies. */
export type Said =
	| { readonly is: "ready" }
	| {
			readonly is: "output" | "reply";
			readonly id: number;
			readonly type: string;
			readonly content: Content;
	  };

/** Says something to the parent, at once where the channel is free; a parent that has gone hears nothing. */
function say(message: Said): void {
	process.send?.(message, () => {});
}

/** Serves the parent until `shutdown_request`, or until it has gone. */
export async function serveParent(handler: KernelHandler): Promise<void> {
	const talk = openConversation(handler, async () => {});
	const asked = ({ id, type, content, cell }: Asked): Request => ({
		type,
		content,
		cell,
		reply: (answer) =>
			say({
				is: "reply",
				id,
				type: type.replace(/_request$/, "_reply"),
				content: answer,
			}),
		publish: (kind, output) =>
			say({ is: "output", id, type: kind, content: output }),
	});
	process.on("message", (message) => talk.enqueue(asked(message as Asked)));
	say({ is: "ready" });
	await talk.ended;
}
