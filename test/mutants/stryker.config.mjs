/** Mutants of the rooms between the bench sheet and the uptake: `npm run mutants`, or with `-- --mutate FILE` for one file. */
export default {
	mutate: ["kernel-lib/{residue,uptake,solutions}/**/*.ts"],
	testRunner: "vitest",
	vitest: { configFile: "test/mutants/vitest.config.mts", related: true },
	plugins: ["@stryker-mutator/vitest-runner"],
	coverageAnalysis: "perTest",
	incremental: true,
	incrementalFile: "results/mutants/incremental.json",
	reporters: ["clear-text", "json", "html"],
	jsonReporter: { fileName: "results/mutants/mutants.json" },
	htmlReporter: { fileName: "results/mutants/mutants.html" },
	tempDirName: "results/mutants/sandbox",
	concurrency: 1,
	// What a page says is read by people and pinned where it matters; a unit or a kind that does not exist is refused by the compiler.
	mutator: { excludedMutations: ["StringLiteral"] },
	disableTypeChecks: false,
};
