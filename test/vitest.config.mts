import { defineConfig } from "vitest/config";

/** These look at what a fresh process has loaded, what a fresh process has drawn, or put another kernel or file system in its place: each has a worker of its own. */
const alone = [
	"test/bench-sheet/lazy-loading.test.ts",
	"test/bench-sheet/read-once.test.ts",
	"test/notebook/photographs.test.ts",
	"test/stats/drawn-seeds.test.ts",
];

export default defineConfig({
	test: {
		root: `${import.meta.dirname}/..`,
		// The long files are simulations that keep a core busy each; the default leaves one core idle.
		maxWorkers: "100%",
		projects: [
			{
				extends: true,
				test: {
					name: "unit",
					include: ["test/**/*.test.ts"],
					// What starts the built program again and again has a command of its own: npm run test:runs.
					exclude: [
						"test/fronts/**",
						"test/**/*.runs.test.ts",
						"node_modules/**",
						...alone,
					],
					testTimeout: 60_000,
					// The library is loaded once a worker, not once a file: loading it 270 times took a third of the time.
					isolate: false,
				},
			},
			{
				extends: true,
				test: { name: "alone", include: alone, testTimeout: 60_000 },
			},
		],
	},
});
