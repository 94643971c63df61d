import { defineConfig } from "vitest/config";

/** `npm run simulate`: every simulation with all the trials that its design asks for, one table at the end. */
export default defineConfig({
	test: {
		root: `${import.meta.dirname}/../..`,
		include: ["test/simulation/**/*.test.ts"],
		env: { TRIALS: "all" },
		globalSetup: `${import.meta.dirname}/report.ts`,
		testTimeout: 3_600_000,
		maxWorkers: "100%",
	},
});
