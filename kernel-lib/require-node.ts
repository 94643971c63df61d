/** Ends the program with one sentence on a Node that is too old. A program imports it first: what comes after it may not even load there. */
import { isNodeInRange, nodeWanted } from "./node-version";

if (!isNodeInRange(process.versions.node)) {
	process.stderr.write(
		`Charledger needs ${nodeWanted}; this is Node ${process.versions.node}. Install a newer Node and try again.\n`,
	);
	process.exit(2);
}
