import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { describe, expect, it } from "vitest";
import {
	displayOfRunningKernel,
	rebuildCallback,
	tslabVersion,
} from "../../kernel-lib/notebook/kernel/tslab";

/** What the adapter relies on. If tslab is renewed and this fails, look at kernel/tslab.ts before anything else. */
describe("the insides of tslab that our kernel stands on", () => {
	const source = (file: string): string =>
		readFileSync(
			new URL(`../../node_modules/tslab/dist/${file}`, import.meta.url),
			"utf8",
		);

	it("is the version that was looked at", () => {
		expect(tslabVersion()).toBe("1.0.22");
	});

	it("hands the last value to log, with one argument, and errors to error", () => {
		const executor = source("executor.js");
		expect(executor).toContain("console.log(ret);");
		expect(executor).toContain("console.error(e);");
		expect(executor).toContain('console.error("%s%d:%d - %s"');
	});

	it("asks the compiler for a watch host and transpiles in a second pass, where we come in", () => {
		const converter = source("converter.js");
		expect(converter).toContain("ts.createWatchCompilerHost(");
		expect(converter).toContain("ts.transpileModule(js,");
		expect(converter).toContain('"export {};" + ts.sys.newLine');
	});

	it("allows one timer, for a rebuild, and is asked for another when files change", () => {
		const converter = source("converter.js");
		expect(converter).toContain('new Error("Unexpected pending rebuildTimer")');
		const compiler = readFileSync(
			createRequire(import.meta.url).resolve("@tslab/typescript-for-tslab"),
			"utf8",
		);
		expect(compiler).toContain(`host.setTimeout(${rebuildCallback}, 250)`);
		expect(compiler).toContain(
			"host.setTimeout(invalidateResolutionsOfFailedLookup, 250)",
		);
	});

	it("keeps the way to the notebook in one exported variable", () => {
		expect(source("jupyter.js")).toContain(
			"exports.lastWriteDisplayData = writeDisplayData",
		);
		expect(source("public.js")).toContain("jupyter.lastWriteDisplayData(");
	});

	it("is not loaded by the library outside a kernel", () => {
		expect(displayOfRunningKernel()).toBeNull();
	});
});
