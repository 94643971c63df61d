import { defineConfig } from "vitest/config";

export default defineConfig({
	test: {
		root: `${import.meta.dirname}/../..`,
		include: [
			"test/{residue,uptake,solutions}/**/*.test.ts",
			"test/decisions/{residue,uptake,solutions}.test.ts",
		],
		testTimeout: 60_000,
		// Every mutant starts anew; within one, the library is loaded once for all test files.
		isolate: false,
		pool: "threads",
		maxWorkers: 1,
	},
});
