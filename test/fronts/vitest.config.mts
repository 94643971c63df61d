import { defineConfig } from "vitest/config";

export default defineConfig({
	test: {
		root: `${import.meta.dirname}/../..`,
		include: ["test/fronts/**/*.test.ts"],
		globalSetup: `${import.meta.dirname}/setup.ts`,
		testTimeout: 300_000,
		hookTimeout: 600_000,
		// Two cores and several kernels: one file after the other.
		fileParallelism: false,
	},
});
