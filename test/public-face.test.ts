import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { changes, faceOfText, faceText, publicFace } from "./public-face";

const path = join(import.meta.dirname, "public-face.txt");
const renewed =
	"RENEW_PUBLIC_FACE=yes npx vitest run --config test/vitest.config.mts test/public-face.test.ts";

test("every public name has the signature that stands in public-face.txt", () => {
	const face = publicFace();
	if (process.env.RENEW_PUBLIC_FACE === "yes")
		writeFileSync(path, faceText(face));
	const kept = existsSync(path)
		? faceOfText(readFileSync(path, "utf8"))
		: new Map<string, string>();
	const found = changes(kept, face);
	expect(
		found,
		`What users see has changed (${found.length} names). Notebooks of others may lean on it. If it is meant, renew the list and read its difference before you commit:\n  ${renewed}\n${found.join("\n")}`,
	).toEqual([]);
	// The whole library is compiled for this.
}, 240_000);

test("the text of the face reads back as the face", () => {
	const face = new Map([
		[
			"a.one",
			"function one(x: number): string;\nfunction one(x: string): string;",
		],
		["b.two", "interface Two {\n    readonly x: number;\n}"],
	]);
	expect(faceOfText(faceText(face))).toEqual(face);
});

test("what is new, gone or different is told by its sign", () => {
	const before = new Map([
		["gone", "const gone: 1;"],
		["same", "const same: 1;"],
		["other", "const other: 1;"],
	]);
	const after = new Map([
		["same", "const same: 1;"],
		["other", "const other: 2;"],
		["added", "const added: 1;"],
	]);
	expect(changes(before, after).map((c) => c.slice(0, 8))).toEqual([
		"+ added:",
		"- gone: ",
		"~ other\n",
	]);
});
