import { defineConfig } from "vitest/config";

export default defineConfig({
	test: {
		root: `${import.meta.dirname}/..`,
		include: ["test/**/*.test.ts"],
		exclude: ["test/fronts/**", "node_modules/**"],
		testTimeout: 60_000,
		// The long files are simulations that keep a core busy each; the default leaves one core idle.
		maxWorkers: "100%",
	},
});
