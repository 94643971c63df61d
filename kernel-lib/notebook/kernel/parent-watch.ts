/** Runs beside a kernel in a thread of its own and ends it when its parent has gone, even in the middle of a cell that never pauses. */
import { isMainThread, Worker, workerData } from "node:worker_threads";

const everyMilliseconds = 500;

/** Whether the process that started this one is still there: an orphan gets another parent, but not on every system. */
function isThere(parent: number): boolean {
	if (process.ppid !== parent) return false;
	try {
		process.kill(parent, 0);
		return true;
	} catch (error) {
		return (error as { code?: string }).code === "EPERM";
	}
}

/** Begins to watch; does not keep the process alive. */
export function endWithParent(): void {
	new Worker(__filename, { workerData: process.ppid }).unref();
}

if (!isMainThread && typeof workerData === "number") {
	const parent = workerData;
	setInterval(() => {
		if (!isThere(parent)) process.kill(process.pid, "SIGKILL");
	}, everyMilliseconds);
}
