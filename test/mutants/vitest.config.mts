import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/** A mutant is done with at the first test that notices it: the quick files first, those that try many inputs last. */
class QuickFirst extends BaseSequencer {
	override async sort(
		files: TestSpecification[],
	): Promise<TestSpecification[]> {
		const slow = ["uptake/uptakes", "uptake/iodine-number", "uptake/soak"];
		const rank = ({ moduleId }: TestSpecification): number =>
			moduleId.includes("/decisions/")
				? 0
				: slow.some((name) => moduleId.includes(name))
					? 2
					: 1;
		return [...files].sort((a, b) => rank(a) - rank(b));
	}
}

export default defineConfig({
	test: {
		root: `${import.meta.dirname}/../..`,
		include: [
			"test/{residue,uptake,solutions}/**/*.test.ts",
			"test/decisions/{residue,readings,uptake,solutions}.test.ts",
			"test/mutants/reference.mutants.ts",
		],
		testTimeout: 60_000,
		sequence: { sequencer: QuickFirst },
		// Every mutant starts anew; within one, the library is loaded once for all test files.
		isolate: false,
		pool: "threads",
		maxWorkers: 1,
	},
});
