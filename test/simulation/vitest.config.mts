import { defineConfig } from "vitest/config";

/** `npm run simulate`: every simulation with all the trials that its design asks for, one table at the end. */
export default defineConfig({
	test: {
		root: `${import.meta.dirname}/../..`,
		include: [
			"test/simulation/**/*.test.ts",
			// Simulations that stand beside the laws of what they try.
			"test/fit/region.test.ts",
			"test/fit/bootstrap.test.ts",
			"test/uptake/iodine-number.test.ts",
		],
		env: { TRIALS: "all" },
		globalSetup: `${import.meta.dirname}/report.ts`,
		testTimeout: 3_600_000,
		maxWorkers: "100%",
	},
});
