import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { successors } from "../kernel-lib/notebook/kernel/successors";
import { changes, faceOfText, faceText, publicFace } from "./public-face";

const path = join(import.meta.dirname, "public-face.txt");
const renewed =
	"RENEW_PUBLIC_FACE=yes npx vitest run --config test/vitest.config.mts test/public-face.test.ts";

/** The whole library is compiled for it. */
const face = publicFace();

test("every public name has the signature that stands in public-face.txt", () => {
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
});

describe("names of earlier versions", () => {
	const isPublic = (name: string): boolean =>
		face.has(name) || [...face.keys()].some((n) => n.startsWith(`${name}.`));
	const earlier = readFileSync(
		join(import.meta.dirname, "earlier-public-names.txt"),
		"utf8",
	)
		.split("\n")
		.filter((line) => line !== "" && !line.startsWith("#"));

	test("a name that is gone has a line that says what to call now", () => {
		expect(
			earlier.filter(
				(name) => !face.has(name) && !Object.hasOwn(successors, name),
			),
		).toEqual([]);
	});

	test("a name that is there has none", () => {
		expect(Object.keys(successors).filter((n) => face.has(n))).toEqual([]);
	});

	test("what to call now is there", () => {
		const rooms = new Set([...face.keys()].map((n) => n.split(".")[0]));
		const named = Object.values(successors).flatMap((next) =>
			[...next.matchAll(/\b([a-z]+)\.([A-Za-z]\w*)/g)].flatMap(
				([name, room]) => (rooms.has(room) ? [name] : []),
			),
		);
		expect(named.length).toBeGreaterThan(100);
		expect([...new Set(named)].filter((name) => !isPublic(name))).toEqual([]);
	});
});

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
