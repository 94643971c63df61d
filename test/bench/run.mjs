// Runs a benchmark written in TypeScript: node test/bench/run.mjs monte-carlo.ts
import { fileURLToPath } from "node:url";
import { runnerImport } from "vite";

const name = process.argv[2];
if (name === undefined) {
	console.error("Name a benchmark of this folder, for example monte-carlo.ts.");
	process.exit(1);
}
const path = fileURLToPath(new URL(name, import.meta.url)); // an absolute path stays one
const { module } = await runnerImport(path);
await module.main(process.argv.slice(3));
