import { defineConfig } from "vitest/config";

export default defineConfig({
	test: {
		root: `${import.meta.dirname}/../..`,
		include: ["test/fronts/**/*.test.ts"],
		globalSetup: `${import.meta.dirname}/setup.ts`,
		testTimeout: 300_000,
		hookTimeout: 600_000,
		// Kernels and browsers keep a core each busy: two files at a time.
		maxWorkers: 2,
	},
});
