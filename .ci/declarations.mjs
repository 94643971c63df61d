/** Type-checks the package's declarations as a cell of a notebook sees them: with the compiler that tslab carries, loose, skipLibCheck off. */
import { createRequire } from "node:module";
import { relative } from "node:path";
import { fileURLToPath } from "node:url";

const require = createRequire(import.meta.url);
const ts = require("@tslab/typescript-for-tslab");
const root = fileURLToPath(new URL("..", import.meta.url));

const program = ts.createProgram([`${root}kernel-lib/dist/index.d.ts`], {
	target: ts.ScriptTarget.ES2022,
	lib: ["lib.es2022.d.ts"],
	module: ts.ModuleKind.ESNext,
	moduleResolution: ts.ModuleResolutionKind.Node10,
	esModuleInterop: true,
	noEmit: true,
	skipLibCheck: false,
	types: [],
});
// Only our own declarations are judged here; those of other packages are not ours to mend.
const ours = ts
	.getPreEmitDiagnostics(program)
	.filter((d) => !d.file?.fileName.includes("/node_modules/"));
for (const d of ours) {
	const { line } = d.file?.getLineAndCharacterOfPosition(d.start ?? 0) ?? {
		line: 0,
	};
	console.error(
		`${d.file ? relative(root, d.file.fileName) : ""}:${line + 1} ${ts.flattenDiagnosticMessageText(d.messageText, "\n")}`,
	);
}
const files = program
	.getSourceFiles()
	.filter((f) => f.fileName.includes("/kernel-lib/dist/")).length;
if (files < 10)
	throw new Error("The declarations were not found: build first.");
console.log(
	`${files} declaration files checked with TypeScript ${ts.version}: ${ours.length} errors`,
);
process.exitCode = ours.length > 0 ? 1 : 0;
