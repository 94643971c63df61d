import { expect, test } from "vitest";
import { openConversation } from "../../kernel-lib/notebook/kernel/conversation";
import type { KernelHandler } from "../../kernel-lib/notebook/kernel/handler";

/** What a kernel says to one request, in order. */
async function saidTo(type: string, execute: KernelHandler["execute"]) {
	const said: [string, Readonly<Record<string, unknown>>][] = [];
	const handler = {
		info: {},
		execute,
		complete: () => {
			throw new Error("no completion");
		},
	} as unknown as KernelHandler;
	const talk = openConversation(handler, async () => {});
	await new Promise<void>((resolve) => {
		talk.enqueue({
			type,
			content: { code: "1" },
			cell: "",
			reply: (content) => said.push(["reply", content]),
			publish: (kind, content) => {
				said.push([kind, content]);
				if (content.execution_state === "idle") resolve();
			},
		});
	});
	return said;
}

test("a kernel that fails by itself says why, where a reader sees it", async () => {
	const said = await saidTo("execute_request", async () => {
		throw new Error("no room");
	});
	const shown = said.find(([kind]) => kind === "error")?.[1];
	expect(shown?.evalue).toBe("Error: no room");
	expect(String(shown?.traceback)).toMatch(
		/^The kernel itself failed: Error: no room/,
	);
	expect(said.find(([kind]) => kind === "reply")?.[1].status).toBe("error");
});

test("a question that cannot be answered is refused, and nothing is shown for it", async () => {
	const said = await saidTo("complete_request", async () => ({ is: "ok" }));
	expect(said.map(([kind]) => kind)).not.toContain("error");
	expect(said.find(([kind]) => kind === "reply")?.[1].status).toBe("error");
});
