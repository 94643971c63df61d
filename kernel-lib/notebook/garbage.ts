/** Keeps the memory of a process near what it holds: what a large trial throws away (texts of ledgers and tables) is many times what it keeps. */
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

/** So much of what is held may gather as garbage before it is cleared away, in per cent; the engine would let as much gather as is held. A decision of ours: it costs some time of a large trial and none of a small one. */
const gathering = 10;

/**
 * From now on garbage is cleared away soon. It is cleared for the first time here, because before that the engine lets half a gigabyte gather, whatever it is told. An engine that does not know the
 * flag says so on its error stream and goes on.
 */
export function clearGarbageSoon(): void {
	setFlagsFromString(`--heap-growing-percent=${gathering}`);
	setFlagsFromString("--expose-gc");
	(runInNewContext("gc") as () => void)();
}
