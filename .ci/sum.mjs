/** The closing line: how many tests passed and failed, added up from the reports of the runs. A report that is missing or empty is a failure. */
import { existsSync, readFileSync } from "node:fs";

let passed = 0;
let failed = 0;
let skipped = 0;
for (const path of process.argv.slice(2)) {
	const report = existsSync(path)
		? JSON.parse(readFileSync(path, "utf8"))
		: { numTotalTests: 0 };
	if (report.numTotalTests === 0) {
		console.error(`No tests were reported in ${path}.`);
		failed += 1;
		continue;
	}
	passed += report.numPassedTests;
	skipped += report.numPendingTests + report.numTodoTests;
	// A file that could not even be loaded counts no test: it counts as one failure.
	const broken = report.testResults.filter(
		(file) => file.status === "failed" && file.assertionResults.length === 0,
	).length;
	failed += report.numFailedTests + broken;
}
const more = skipped > 0 ? `, ${skipped} skipped` : "";
console.log(`${passed} passed, ${failed} failed${more}`);
process.exitCode = failed > 0 ? 1 : 0;
