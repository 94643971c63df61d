// Runs benchmarks written in TypeScript, one after the other: node test/bench/run.mjs monte-carlo.ts fit-speed.ts
import { fileURLToPath } from "node:url";
import { runnerImport } from "vite";

const names = process.argv.slice(2).filter((word) => word.endsWith(".ts"));
/** What is not a name is handed to the benchmark. */
const words = process.argv.slice(2).filter((word) => !word.endsWith(".ts"));
if (names.length === 0) {
	console.error("Name a benchmark of this folder, for example monte-carlo.ts.");
	process.exit(1);
}
for (const name of names) {
	if (names.length > 1) console.log(`\n== ${name}`);
	const path = fileURLToPath(new URL(name, import.meta.url)); // an absolute path stays one
	const { module } = await runnerImport(path);
	await module.main(words);
}
