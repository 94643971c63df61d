/** The program of the kernel: `node main.js CONNECTION_FILE`, as a kernelspec starts it, or without a file, as our runner does. */
import "../../require-node";
import { runKernel } from "./kernel";

runKernel(process.argv[2] ?? "").catch((error: unknown) => {
	process.stderr.write(
		`${error instanceof Error ? error.message : String(error)}\n`,
	);
	process.exit(1);
});
