/**
 * Mutants of the rooms between the bench sheet and the uptake: `npm run mutants`; `npm run mutants -- --mutate "kernel-lib/uptake/*.ts"` for some of the files.
 *
 * Left out are: texts, for what a page says is read by people and pinned where it matters, and a unit or kind that does not exist is refused by the compiler; and what is computed when a file is loaded (tables of
 * constants), for each of those would take a whole run of the tests: `--ignoreStatic false` takes them in, and test/decisions/ pins the numbers among them.
 */
export default {
	mutate: [
		"kernel-lib/{residue,uptake,solutions}/**/*.ts",
		"!kernel-lib/**/{index,public}.ts",
	],
	mutator: { excludedMutations: ["StringLiteral"] },
	ignoreStatic: true,
	testRunner: "vitest",
	vitest: { configFile: "test/mutants/vitest.config.mts" },
	plugins: ["@stryker-mutator/vitest-runner"],
	coverageAnalysis: "perTest",
	concurrency: 1,
	reporters: ["clear-text", "progress-append-only", "json", "html"],
	clearTextReporter: { logTests: false, allowEmojis: false },
	jsonReporter: { fileName: "results/mutants/mutants.json" },
	htmlReporter: { fileName: "results/mutants/mutants.html" },
	tempDirName: "results/mutants/sandbox",
	// Only what the tests read is copied.
	ignorePatterns: ["/notebooks", "/results", "/kernel-lib/dist", "/.venv"],
	allowConsoleColors: false,
};
