/** The Charledger kernel: tslab's compiler and executor, the library at hand, values shown richly, errors in words. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { bundleOf, isShowable } from "../display";
import { clearGarbageSoon } from "../garbage";
import { cellBegins, cellEnds } from "../head-display";
import { libraryVersion } from "../versions";
import { explainDiagnostics, explainThrown } from "./explain";
import { successorAt } from "./gone-names";
import type {
	ExecuteResult,
	KernelError,
	KernelHandler,
	Publish,
} from "./handler";
import { serveParent } from "./over-parent";
import { serveOverSockets } from "./over-sockets";
import { endWithParent } from "./parent-watch";
import { openSession, type Session } from "./tslab";
import type { Connection } from "./wire";

/** Folder of the compiled library: this file is dist/notebook/kernel/kernel.js. */
const distribution = join(__dirname, "..", "..");

const library = {
	name: "charledger",
	main: join(distribution, "index.js"),
	types: join(distribution, "index.d.ts"),
};

const preload = 'import * as charledger from "charledger";';

/** What front ends need to know of the language: highlighting in JupyterLab and VS Code, file names in nbconvert. */
const languageInfo = {
	name: "typescript",
	version: "5.0.4",
	mimetype: "text/typescript",
	file_extension: ".ts",
	pygments_lexer: "typescript",
	codemirror_mode: {
		mode: "typescript",
		name: "javascript",
		typescript: true,
	},
};

/** Everything that a cell prints goes to the cell, also what a timer prints after it has ended. */
function captureStreams(publish: Publish): void {
	for (const name of ["stdout", "stderr"] as const) {
		process[name].write = ((chunk: string | Uint8Array) => {
			const text =
				typeof chunk === "string" ? chunk : Buffer.from(chunk).toString("utf8");
			publish("stream", { name, text });
			return true;
		}) as typeof process.stdout.write;
	}
}

/** Runs cells in a session, and remembers their code for whoever asks where an error came from. */
function executionIn(session: Session): KernelHandler["execute"] {
	const sources = new Map<string, { source: string; count: number }>();
	let runs = 0;

	function explain(error: unknown, current: string): KernelError {
		return explainThrown(error, {
			current,
			sourceOf: (cell) => sources.get(cell)?.source ?? "",
			titleOf: (cell) => `cell [${sources.get(cell)?.count ?? "?"}]`,
			placeOf: (script, line, column) => session.placeOf(script, line, column),
		});
	}

	async function run(
		code: string,
		count: number,
		publish: Publish,
	): Promise<ExecuteResult> {
		runs += 1;
		const cell = `cell-${runs}`;
		sources.set(cell, { source: code, count });
		const outcome = await session.execute(code, cell);
		switch (outcome.is) {
			case "done":
				return { is: "ok" };
			case "rejected":
				return {
					is: "error",
					error: explainDiagnostics(outcome.diagnostics, code),
				};
			case "threw":
				return { is: "error", error: explain(outcome.error, cell) };
			case "value":
				try {
					await show(outcome.value, publish);
					return { is: "ok" };
				} catch (error) {
					return { is: "error", error: explain(error, cell) };
				}
		}
	}

	return async (code, count, publish, id): Promise<ExecuteResult> => {
		captureStreams(publish);
		session.setDisplay((message, update) =>
			publish(update ? "update_display_data" : "display_data", { ...message }),
		);
		cellBegins({ count, id, code });
		const result = await run(code, count, publish);
		cellEnds(result.is === "ok");
		return result;
	};
}

function handlerOf(session: Session): KernelHandler {
	return {
		info: {
			implementation: "charledger",
			implementation_version: libraryVersion(),
			language_info: languageInfo,
			banner:
				"Charledger: TypeScript with quantities, units and a ledger. The library is at hand as `charledger`.",
			help_links: [],
		},
		execute: executionIn(session),
		complete: (code, position) => session.complete(code, position),
		inspect: (code, position) =>
			session.inspect(code, position) || successorAt(code, position),
		isComplete: (code) => session.isComplete(code),
		interrupt: () => session.interrupt(),
		shutdown: () => session.close(),
	};
}

/** The value of the last expression: one bundle where it knows how to show itself, else as Node's console prints it. */
async function show(value: unknown, publish: Publish): Promise<void> {
	if (isShowable(value))
		publish("display_data", {
			data: await bundleOf(value),
			metadata: {},
			transient: {},
		});
	else console.log(value);
}

/**
 * Runs the kernel until the front end shuts it down.
 * @param connectionFile path of the connection file that a front end wrote; "" where the process that started this one talks with it
 */
export async function runKernel(connectionFile: string): Promise<void> {
	const ours = connectionFile === "";
	if (ours) endWithParent();
	const session = openSession(process.cwd(), [library]);
	const loaded = await session.execute(preload, "preload");
	if (loaded.is === "rejected" || loaded.is === "threw")
		throw new Error(
			`The library could not be loaded: ${loaded.is === "threw" ? String(loaded.error) : loaded.diagnostics.map((d) => d.message).join(" ")}`,
		);
	process.on("SIGINT", () => session.interrupt());
	// A failure in a timer between cells belongs to the session, not to its end.
	process.on("uncaughtException", (error) => console.error(String(error)));
	process.on("unhandledRejection", (reason) => console.error(String(reason)));
	process.on("disconnect", () => process.exit(0));
	const handler = handlerOf(session);
	if (ours) clearGarbageSoon();
	if (ours) await serveParent(handler);
	else
		await serveOverSockets(
			JSON.parse(readFileSync(connectionFile, "utf8")) as Connection,
			handler,
		);
	process.exit(0);
}
