import { defineConfig } from "vitest/config";

/** `npm run test:runs`: the runner and every template, each run many times by the built program as users start it. */
export default defineConfig({
	test: {
		root: `${import.meta.dirname}/../..`,
		include: ["test/notebook/*.runs.test.ts"],
		testTimeout: 60_000,
		maxWorkers: "100%",
	},
});
