/** The program that a kernelspec starts: node main.js CONNECTION_FILE */
import "../../require-node";
import { runKernel } from "./kernel";

runKernel(process.argv[2] ?? "").catch((error: unknown) => {
	process.stderr.write(
		`${error instanceof Error ? error.message : String(error)}\n`,
	);
	process.exit(1);
});
