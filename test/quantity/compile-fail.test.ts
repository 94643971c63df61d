import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import kernelCompiler from "@tslab/typescript-for-tslab";
import typescript from "typescript";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

// What a student sees in a notebook cell: the library's emitted declarations, read by the notebook kernel's own compiler (5.0.4) with its own options, which are not strict.

const root = fileURLToPath(new URL("../..", import.meta.url));
let folder = "";

/** Emits the declarations of two folders, as the build does. */
function emitDeclarations(outDir: string): void {
	const config = typescript.readConfigFile(
		join(root, "tsconfig.json"),
		typescript.sys.readFile,
	).config;
	const { options } = typescript.parseJsonConfigFileContent(
		config,
		typescript.sys,
		root,
	);
	const program = typescript.createProgram(
		["quantity", "substances", "solutions"].map((f) =>
			join(root, "kernel-lib", f, "public.ts"),
		),
		{ ...options, outDir, emitDeclarationOnly: true, noCheck: true },
	);
	program.emit();
}

/** Messages of the kernel's compiler for one cell; its first lines only, as the cell shows them. */
function messages(cell: string, skipLibCheck = true): string[] {
	const ts = kernelCompiler;
	const file = join(folder, "cell.ts");
	writeFileSync(
		file,
		`import * as quantity from "./quantity/public";\nimport * as substances from "./substances/public";\nimport * as solutions from "./solutions/public";\n${cell}\n`,
	);
	// The options of the kernel's converter.
	const program = ts.createProgram([file], {
		module: ts.ModuleKind.ESNext,
		moduleResolution: ts.ModuleResolutionKind.Node10,
		esModuleInterop: true,
		target: ts.ScriptTarget.ES2022,
		lib: ["lib.es2022.d.ts"],
		noImplicitUseStrict: true,
		// The kernel does not ask for complaints about its own options.
		ignoreDeprecations: "5.0",
		experimentalDecorators: true,
		resolveJsonModule: true,
		types: [],
		skipLibCheck,
		noEmit: true,
	});
	return ts
		.getPreEmitDiagnostics(program)
		.map((d) => ts.flattenDiagnosticMessageText(d.messageText, "\n"));
}

const given = `
const grams = quantity.input("mass", 1.02, "g", quantity.rectangular(0.01), {});
const millilitres = quantity.input("volume", 24.3, "mL", quantity.rectangular(0.05), {});
const molarity = quantity.input("concentration", 0.05, "mol/L", quantity.exact, {});
const normality = quantity.input("normality", 0.1, "N", quantity.exact, {});
`;

beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), "cell-"));
	emitDeclarations(folder);
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true }));

describe("a cell that is right", () => {
	test("compiles without a word, and the kinds of results are known", () => {
		expect(
			messages(`${given}
const amount: quantity.Quantity<"amount"> = quantity.times(molarity, millilitres);
const back: quantity.Quantity<"concentration"> = quantity.per(amount, millilitres);
const share: quantity.Quantity<"ratio"> = quantity.per(grams, grams);
const all: quantity.Quantity<"mass"> = quantity.plus(grams, grams, quantity.scaled(grams, 2));
const mass: quantity.Quantity<"mass"> = quantity.times(amount, substances.molarMass("I2"));
const number: number = mass.in("mg");
quantity.working(mass); quantity.budget(mass); quantity.monteCarlo(mass, { trials: 1000 });
`),
		).toEqual([]);
	});

	test("the declarations themselves have no error under that compiler", () => {
		expect(messages("", false)).toEqual([]);
	});
});

describe("a cell that is wrong says what was put where", () => {
	test.each([
		[
			"grams plus millilitres",
			"quantity.plus(grams, millilitres);",
			`Argument of type 'Quantity<"volume">' is not assignable to parameter of type 'Quantity<"mass">'.`,
		],
		[
			"grams minus millilitres",
			"quantity.minus(grams, millilitres);",
			`Argument of type 'Quantity<"volume">' is not assignable to parameter of type 'Quantity<"mass">'.`,
		],
		[
			"a normality where mol/L belongs",
			"quantity.plus(molarity, normality);",
			`Argument of type 'Quantity<"normality">' is not assignable to parameter of type 'Quantity<"concentration">'.`,
		],
		[
			"a bare number where a quantity belongs",
			"quantity.plus(grams, 0.5);",
			`Argument of type 'number' is not assignable to parameter of type 'Quantity<"mass">'.`,
		],
		[
			"a unit of another kind",
			`quantity.input("mass", 1, "mL", quantity.exact, {});`,
			`Argument of type '"mL"' is not assignable to parameter of type '"g" | "mg" | "µg" | "kg"'.`,
		],
		[
			"a volume shown in grams",
			`millilitres.in("g");`,
			`Argument of type '"g"' is not assignable to parameter of type '"mL" | "L" | "µL" | "m3"'.`,
		],
		[
			"a function of one's own for grams, given millilitres",
			`const portion = (char: quantity.Quantity<"mass">) => quantity.scaled(char, 0.5);\nportion(millilitres);`,
			`Argument of type 'Quantity<"volume">' is not assignable to parameter of type 'Quantity<"mass">'.`,
		],
	])("%s", (_what, cell, expected) => {
		const found = messages(given + cell);
		expect(found).toHaveLength(1);
		expect(found[0].split("\n")[0]).toBe(expected);
	});

	test("kinds that cannot be multiplied or divided", () => {
		expect(messages(`${given}quantity.times(grams, grams);`)).toEqual([
			`Argument of type 'Quantity<"mass">' is not assignable to parameter of type 'Quantity<WhatMultiplies<"mass">>'.\n  Type '"mass"' is not assignable to type 'WhatMultiplies<"mass">'.`,
		]);
		expect(messages(`${given}quantity.per(millilitres, grams);`)).toEqual([]);
		expect(messages(`${given}quantity.per(molarity, grams);`)[0]).toContain(
			`'Quantity<WhatDivides<"concentration">>'`,
		);
	});
});
